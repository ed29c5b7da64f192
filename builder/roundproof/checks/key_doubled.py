"""A key that is given twice."""

from __future__ import annotations

from roundproof.checks.base import Check
from roundproof.findings import Severity

_BAD = """\
title: Pebble
title: Boulder
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
"""

_GOOD = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
"""

CHECK = Check(
    id="key-doubled",
    title="Key given twice",
    why=(
        "Of two values under the same key only one can hold, and which one it is does not show. "
        "That happens when a piece is copied to write the next one and its name is left as it "
        "was. The first is read, and the second is pointed out."
    ),
    severity=Severity.ERROR,
    bad=_BAD,
    good=_GOOD,
    source="YAML 1.2, https://yaml.org/spec/1.2.2/",
)
