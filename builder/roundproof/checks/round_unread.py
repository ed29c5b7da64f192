"""A round that cannot be read."""

from __future__ import annotations

from roundproof.checks.base import Check
from roundproof.findings import Severity

_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: (sc, inc{} x 6 (18)
"""

CHECK = Check(
    id="round-unread",
    title="Round that cannot be read",
    why=(
        "What cannot be read cannot be proved. The finding stands at the word where reading stopped"
        " and says what was expected there; the rounds after it go on from the count the line"
        " states, so that one slip does not flood the report."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format(""),
    good=_PATTERN.format(")"),
    source="common practice, no source: brackets and signs pair up",
)
