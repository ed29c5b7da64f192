"""US and UK names in one pattern."""

from __future__ import annotations

from roundproof.checks.base import Check
from roundproof.findings import Severity

_PATTERN = """\
title: Pebble
terms: UK
pieces:
  body: |
    R1: 6 {} in magic ring (6)
"""

CHECK = Check(
    id="terms-mixed",
    title="US and UK terms mixed",
    why=(
        "The same letters mean different stitches in US and UK terms: a UK `dc` is a US `sc`. A"
        " name that only the other set has shows that two sources were mixed, and then no `dc` or"
        " `tr` of the pattern can be trusted."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format("sc"),
    good=_PATTERN.format("dc"),
    source="US/UK term table: a pattern that uses `sc` or `hdc` is in US terms, `htr` in UK terms",
)
