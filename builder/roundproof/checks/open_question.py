"""A question still open in a published pattern."""

from __future__ import annotations

from roundproof.checks.base import Check
from roundproof.findings import Severity

_BAD = """\
title: Pebble
status: published
open: [Is R3 one round too few?]
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

_GOOD = """\
title: Pebble
status: published
open: []
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
    id="open-question",
    title="Question still open",
    why=(
        "What stands under `open:` is what the designer has still to settle: whether a count is "
        "right, which eye fits. It never reaches a page, and a pattern that is published has "
        "nothing left to settle."
    ),
    severity=Severity.ERROR,
    bad=_BAD,
    good=_GOOD,
    source="common practice, no source",
)
