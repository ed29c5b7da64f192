"""Things told to be spread evenly where the round does not share out."""

from __future__ import annotations

from roundproof.checks.base import Check, Found
from roundproof.fabric.placing import placings
from roundproof.fabric.stands import steps_of
from roundproof.findings import Severity
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    for placing in placings(proof.pattern, proof.fabric):
        evenly = placing.around.evenly if placing.around else None
        if evenly is None or len(placing.counts) != 1:
            continue
        count, wide = placing.counts[0], placing.covers or 0
        if evenly.value < 1 or count % evenly.value == 0 or count < evenly.value * max(wide, 1):
            continue
        if not (steps := steps_of(evenly.value, count)):
            continue
        gaps = ", ".join(str(step - wide) for step in steps)
        yield CHECK.finding(
            evenly.span,
            f"{evenly.value} do not come out evenly in {count} stitches: {placing.there}.",
            f"Say which gaps are wider, `free: [{gaps}]`.",
            piece=placing.piece,
        )


_PATTERN = """\
title: Starfish
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: (sc, inc) x 6 (18)
    R4: {} ({})
  foot:
    make: 5
    rounds: |
      R1: 6 sc in magic ring (6)
assembly:
  - join:
      edge: foot
      to: body
      at: {{footprint: R4-R4, stitches: 2}}
      around: {{evenly: 5, from: st 1}}
      by: knot
"""

CHECK = Check(
    id="place-uneven",
    title="Evenly where the round does not share out",
    why=(
        "Five arms on a round of 22 cannot be equally far apart. Which gaps get a stitch more is"
        " for the designer to say, or each maker puts the wider gap somewhere else."
    ),
    severity=Severity.NOTE,
    bad=_PATTERN.format("(2 sc, inc) x 6", 24),
    good=_PATTERN.format("(8 sc, inc) x 2", 20),
    source="common practice, no source: 22 stitches in 5 are gaps of 4, 4, 4, 5 and 5",
    run=_run,
)
