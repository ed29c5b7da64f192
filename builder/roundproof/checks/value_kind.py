"""A value of another kind than its key asks for."""

from __future__ import annotations

from roundproof.checks.base import Check
from roundproof.findings import Severity

_BAD = """\
title: Pebble
terms: US
pieces:
  body:
    make: two
    rounds: |
      R1: 6 sc in magic ring (6)
"""

_GOOD = """\
title: Pebble
terms: US
pieces:
  body:
    make: 2
    rounds: |
      R1: 6 sc in magic ring (6)
"""

CHECK = Check(
    id="value-kind",
    title="Value of the wrong kind",
    why=(
        "A number in words, a date in another order, a list where one value belongs: each can be "
        "understood by a reader and worked with by nobody. The finding says what is expected and "
        "gives one way to write it."
    ),
    severity=Severity.ERROR,
    bad=_BAD,
    good=_GOOD,
    source="the form of the pattern file; dates as in ISO 8601",
)
