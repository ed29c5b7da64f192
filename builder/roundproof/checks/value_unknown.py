"""A word that is none of the closed list its key has."""

from __future__ import annotations

from roundproof.checks.base import Check
from roundproof.findings import Severity

_BAD = """\
title: Pebble
terms: US
level: beginner
pieces:
  body: |
    R1: 6 sc in magic ring (6)
"""

_GOOD = """\
title: Pebble
terms: US
level: basic
pieces:
  body: |
    R1: 6 sc in magic ring (6)
"""

CHECK = Check(
    id="value-unknown",
    title="Word that is not in the list",
    why=(
        "Some keys take one word of a few, so that a page can explain it and a check can rely "
        "on it. A word from outside the list would be read by nobody; the nearest one from it "
        "is offered."
    ),
    severity=Severity.ERROR,
    bad=_BAD,
    good=_GOOD,
    source="the form of the pattern file",
)
