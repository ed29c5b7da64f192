"""A key that the file may not have at its place."""

from __future__ import annotations

from roundproof.checks.base import Check
from roundproof.findings import Severity

_BAD = """\
title: Pebble
terms: US
license: CC-BY-4.0
pieces:
  body: |
    R1: 6 sc in magic ring (6)
"""

_GOOD = """\
title: Pebble
terms: US
licence: CC-BY-4.0
pieces:
  body: |
    R1: 6 sc in magic ring (6)
"""

CHECK = Check(
    id="key-unknown",
    title="Key that is not known",
    why=(
        "A misspelt key would be passed over in silence, and what stands under it would be "
        "missing from the page without anybody noticing. So every key has to be one that is "
        "known where it stands; US spellings and everyday words are met with the name that is "
        "meant."
    ),
    severity=Severity.ERROR,
    bad=_BAD,
    good=_GOOD,
    source="the form of the pattern file",
)
