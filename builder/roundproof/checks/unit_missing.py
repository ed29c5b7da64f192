"""An amount without its unit, or with an unknown one."""

from __future__ import annotations

from roundproof.checks.base import Check
from roundproof.findings import Severity

_BAD = """\
title: Pebble
terms: US
size: {height: 2.1}
pieces:
  body: |
    R1: 6 sc in magic ring (6)
"""

_GOOD = """\
title: Pebble
terms: US
size: {height: 2.1 cm}
pieces:
  body: |
    R1: 6 sc in magic ring (6)
"""

CHECK = Check(
    id="unit-missing",
    title="Unit missing",
    why=(
        "A hook of 3 is 3 mm to one maker and a size number to another; 2.5 may be inches or "
        "centimetres. Amounts carry their unit, metric or imperial, and are worked out exactly: "
        "an inch has 25.4 mm, a yard 0.9144 m, an ounce 28.349523125 g."
    ),
    severity=Severity.ERROR,
    bad=_BAD,
    good=_GOOD,
    source="international yard and pound agreement of 1959",
)
