"""A step that is told at a round, and names rounds that are not made by then."""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.checks.base import Check, Found
from roundproof.fabric.model import Fabric
from roundproof.fabric.named import Named, names_of
from roundproof.findings import Severity
from roundproof.notation.edges import piece_of, read_edge, read_range
from roundproof.pattern.model import Step
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    for step in proof.pattern.assembly:
        if step.after is None:
            continue
        now = read_edge(step.after.value, proof.fabric.pieces)
        worked = proof.fabric.pieces.get(now.piece) if now else None
        if now is None or worked is None or not worked.rounds:
            continue
        number = now.round if now.round is not None else worked.rounds[-1].round.label.last
        for named, needed in _needed(proof.fabric, step, now.piece):
            if number < needed and worked.at(needed) is not None:
                yield CHECK.finding(
                    named.said.span,
                    f"This is done after R{number} of {now.piece}, and R{needed} is not there yet.",
                    f"Say `after: {now.piece} R{needed}`, or a later round.",
                    piece=now.piece,
                )
                break


def _needed(fabric: Fabric, step: Step, piece: str) -> Iterator[tuple[Named, int]]:
    """The last round of the piece that each name in a step needs."""
    for named in names_of(step.verb):
        if piece_of(named.on or named.said.value, fabric.pieces) != piece:
            continue
        if named.kind == "rounds":
            found = read_range(named.said.value)
            if found is not None:
                yield named, found[1]
        elif named.kind == "edge":
            edge = read_edge(named.said.value, fabric.pieces)
            if edge is not None and edge.round is not None:
                yield named, edge.round


_PATTERN = """\
title: Puffin
terms: US
notions: [eyes 2]
pieces:
  head: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: (sc, inc) x 6 (18)
    R4-R6: sc around (18)
assembly:
  - place: {item: eyes, piece: head, between: [R4, R5], around: {st: 3, apart: 4}}
    after: head %s
safety:
  note: The eyes are small parts that can come loose and be swallowed by young children.
"""

CHECK = Check(
    id="order-early",
    title="A step before its round is made",
    why=(
        "A step that is printed between two rounds is done there. If it names a round further on,"
        " the maker has nothing to set the eye between, and has to guess that it can wait."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN % "R4",
    good=_PATTERN % "R5",
    source="common practice, no source: what a step names is made by then",
    run=_run,
)
