"""A step, a photo or the start of a piece names an edge, piece, round or mark that is not there."""

from __future__ import annotations

from roundproof.checks.base import Check, Found
from roundproof.fabric.named import names, problem, start_problem
from roundproof.findings import Severity
from roundproof.notation.edges import piece_of
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    fabric = proof.fabric
    for worked in fabric.pieces.values():
        for words in worked.piece.starts.in_ if worked.piece.starts else ():
            if (found := start_problem(fabric, worked, words.value)) is not None:
                key = worked.piece.key
                yield CHECK.finding(words.span, found.message, found.mend, piece=key)
    for named in names(proof.pattern):
        if (found := problem(fabric, named)) is not None:
            key = piece_of(named.on or named.said.value, fabric.pieces) or ""
            yield CHECK.finding(named.said.span, found.message, found.mend, piece=key or None)


_PATTERN = """\
title: Pebble
terms: US
pieces:
  upper: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: sc around (12)
  under: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
assembly:
  - join: {edge: under, to: upper %s, by: whipstitch}
notions: [tapestry needle]
"""

CHECK = Check(
    id="edge-unknown",
    title="An edge that is not there",
    why=(
        "When rounds are added or taken out late, the steps that name them are easily forgotten."
        " A maker who is sent to a round, a loop or a mark that does not exist has the finished"
        " pieces in hand and no way to go on."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN % "R5",
    good=_PATTERN % "R3",
    source="common practice, no source: what a step names must exist",
    run=_run,
)
