"""Things placed round a piece that do not come out even with the rounds they sit on."""

from __future__ import annotations

from roundproof.checks.base import Check, Found
from roundproof.fabric.placing import misplaced, placings, wrong_marks
from roundproof.findings import Severity
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    for placing in placings(proof.pattern, proof.fabric):
        if (fault := misplaced(placing)) is not None:
            yield CHECK.finding(fault.span, fault.message, fault.mend, piece=placing.piece)
    for worked in proof.fabric.pieces.values():
        for fault in wrong_marks(worked):
            yield CHECK.finding(fault.span, fault.message, fault.mend, piece=worked.piece.key)


_PATTERN = """\
title: Starfish
terms: US
pieces:
  body:
    marks: {front: R4 between 1 and 2}
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: inc x 6 (12)
      R3: (sc, inc) x 6 (18)
      R4: (2 sc, inc) x 6 (24)
  foot:
    make: 4
    rounds: |
      R1: 6 sc in magic ring (6)
assembly:
  - join:
      edge: foot
      to: body
      at: {between: [R3, R4], stitches: 3}
      around: {mark: front, free: [%s]}
      by: whipstitch
notions: [tapestry needle]
"""

CHECK = Check(
    id="place-count",
    title="Places that do not come out",
    why=(
        "Gaps and pieces that are counted round a piece must come to the stitches of the round they"
        " stand on. If they do not, the last gap is wider or narrower than told, and the limbs of"
        " one side stand elsewhere than those of the other."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN % "2, 3, 2, 3",
    good=_PATTERN % "3, 3, 3, 3",
    source="common practice, no source: gaps and pieces sum to the round",
    run=_run,
)
