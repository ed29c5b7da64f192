"""A word that could be two yarns."""

from __future__ import annotations

from roundproof.checks.base import Check
from roundproof.findings import Severity

_BAD = """\
title: Pebble
terms: US
yarns:
  cotton: {fibre: cotton, colours: {sand: "#d9c7a3", navy: "#27344f"}}
  wool: {colour: {name: navy, shade: "#dcc9a0"}}
pieces:
  body:
    yarn: navy
    rounds: |
      R1: 6 sc in magic ring (6)
      Change to wool.
      R2: inc in each st around (12)
      Change to sand.
      R3: sc around (12)
"""

_GOOD = """\
title: Pebble
terms: US
yarns:
  cotton: {fibre: cotton, colours: {sand: "#d9c7a3", navy: "#27344f"}}
  wool: {colour: {name: buff, shade: "#dcc9a0"}}
pieces:
  body:
    yarn: navy
    rounds: |
      R1: 6 sc in magic ring (6)
      Change to wool.
      R2: inc in each st around (12)
      Change to sand.
      R3: sc around (12)
"""

CHECK = Check(
    id="yarn-word-clash",
    title="Word for two yarns",
    why=(
        "A round calls a yarn by its key, its colour or its letter. Where one of these words "
        "belongs to two yarns, the round has two readings, and the maker may change to the "
        "wrong ball."
    ),
    severity=Severity.ERROR,
    bad=_BAD,
    good=_GOOD,
    source="common practice, no source",
)
