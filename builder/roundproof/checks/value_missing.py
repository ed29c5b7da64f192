"""What a pattern does not say yet."""

from __future__ import annotations

from roundproof.checks.base import Check
from roundproof.findings import Severity

_BAD = """\
title: Pebble
status: published
summary: A small round stone.
designer: Roundproof examples
contact: https://example.org/errata
terms: US
licence: CC-BY-4.0
size: {height: 1 cm, width: 1.6 cm}
yarns:
  slate:
    colour: {name: slate grey, shade: "#6d7680"}
    fibre: 100 % cotton
    weight: 3
    ball: 50 g / 125 m
    hook: 3 mm
    gauge: 23 sts x 25 rounds = 10 cm
safety:
  note: Nothing hard is used. Keep loose ends from young children.
care: Hand wash cool, dry flat.
pieces:
  body:
    yarn: slate
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: inc in each st around (12)
      R3: (sc, dec) x 4 (8)
      Fasten off, draw the last round shut.
changes:
  - {version: 1.0.0, date: 2026-05-04, note: First edition.}
"""

_GOOD = """\
title: Pebble
status: published
summary: A small round stone.
designer: Roundproof examples
contact: https://example.org/errata
terms: US
level: basic
licence: CC-BY-4.0
size: {height: 1 cm, width: 1.6 cm}
yarns:
  slate:
    colour: {name: slate grey, shade: "#6d7680"}
    fibre: 100 % cotton
    weight: 3
    ball: 50 g / 125 m
    hook: 3 mm
    gauge: 23 sts x 25 rounds = 10 cm
safety:
  note: Nothing hard is used. Keep loose ends from young children.
care: Hand wash cool, dry flat.
pieces:
  body:
    yarn: slate
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: inc in each st around (12)
      R3: (sc, dec) x 4 (8)
      Fasten off, draw the last round shut.
changes:
  - {version: 1.0.0, date: 2026-05-04, note: First edition.}
"""

CHECK = Check(
    id="value-missing",
    title="Still to say",
    why=(
        "A maker buys by the materials, chooses by the level and writes to the address when "
        "something is wrong; whatever is not said has to be guessed. In a draft it is only "
        "listed, in one note; a pattern in testing is warned of each thing, and a published one "
        "says all of it. What testers cannot do without, such as the gauge, they have to be "
        "told."
    ),
    severity=Severity.ERROR,
    bad=_BAD,
    good=_GOOD,
    source="common practice, no source",
)
