"""A line without a label that reads like a round."""

from __future__ import annotations

from roundproof.checks.base import Check
from roundproof.findings import Severity

_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    {}inc x 6 (12)
"""

CHECK = Check(
    id="note-like-round",
    title="Note that reads like a round",
    why=(
        "In a piece whose rounds have labels, a line without one is a note and is not worked. If it"
        " reads like a round, its label was probably lost."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format(""),
    good=_PATTERN.format("R2: "),
    source="common practice, no source: numbers run without gap",
)
