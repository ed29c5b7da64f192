"""A word in a round that is not known."""

from __future__ import annotations

from roundproof.checks.base import Check
from roundproof.findings import Severity

_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: {} x 6 (12)
"""

CHECK = Check(
    id="abbreviation-unknown",
    title="Unknown word or abbreviation",
    why=(
        "Every word of a round must be one that makers can look up. A slip of the pen (`icn`) or a"
        " designer's own shorthand stops them; so it is named here, with the nearest known word."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format("icn"),
    good=_PATTERN.format("inc"),
    source="common practice, no source: every term used is in the key",
)
