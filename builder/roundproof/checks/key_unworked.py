"""A key that is known and not worked yet."""

from __future__ import annotations

from roundproof.checks.base import Check
from roundproof.findings import Severity

_BAD = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
specimen: {name: Pebble, handed: yes}
"""

_GOOD = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
specimen: {name: Pebble}
"""

CHECK = Check(
    id="key-unworked",
    title="Key that is not worked yet",
    why=(
        "The form of the pattern file is wider than what is worked in this release. Such a key "
        "may stay, and what it says is kept; but nothing is checked, measured or printed from "
        "it, and whoever wrote it should know."
    ),
    severity=Severity.NOTE,
    bad=_BAD,
    good=_GOOD,
    source="the form of the pattern file",
)
