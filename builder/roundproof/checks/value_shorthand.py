"""An alias, an anchor or a tag."""

from __future__ import annotations

from roundproof.checks.base import Check
from roundproof.findings import Severity

_BAD = """\
title: "Pebble"
terms: US
summary: *small
pieces:
  body: |
    R1: 6 sc in magic ring (6)
"""

_GOOD = """\
title: "Pebble"
terms: US
summary: "*small"
pieces:
  body: |
    R1: 6 sc in magic ring (6)
"""

CHECK = Check(
    id="value-shorthand",
    title="Shorthand of YAML",
    why=(
        "A value that starts with `*`, `&` or `!` means something of its own in YAML: a value "
        "named elsewhere, the name for it, or its kind. Patterns do without, so such a sign is "
        "nearly always one of the trade that has lost its quotation marks."
    ),
    severity=Severity.ERROR,
    bad=_BAD,
    good=_GOOD,
    source="YAML 1.2, https://yaml.org/spec/1.2.2/",
)
