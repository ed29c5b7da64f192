"""A level that promises less than the techniques ask for."""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.checks.base import Check, Found
from roundproof.fabric.model import WorkedPiece, WorkedRound
from roundproof.findings import Severity
from roundproof.notation.tree import Spot
from roundproof.pattern.model import Insert, Joint, Pattern, Worked
from roundproof.proof import Proof
from roundproof.reference import stitches

_LEVELS = ("basic", "easy", "intermediate", "complex")


def _run(proof: Proof) -> Found:
    level = proof.pattern.level
    if level is None or level.value not in _LEVELS:
        return
    for asks, technique in sorted(_techniques(proof), key=lambda t: -_LEVELS.index(t[0])):
        if _LEVELS.index(asks) - _LEVELS.index(level.value) > 1:
            yield CHECK.finding(
                level.span,
                f"The level is `{level.value}`, and the pattern has {technique}: that is commonly"
                f" called {asks}.",
                f"Write `level: {asks}`, or `{_LEVELS[_LEVELS.index(asks) - 1]}` if it is little.",
            )
            return


def _techniques(proof: Proof) -> Iterator[tuple[str, str]]:
    """What the pattern asks for beyond plain shaping and sewing, with the level that has it."""
    yield from _in_assembly(proof.pattern)
    for piece in proof.fabric.pieces.values():
        yield from _of_piece(piece)
        for worked in piece.rounds:
            yield from _of_round(worked)


def _in_assembly(pattern: Pattern) -> Iterator[tuple[str, str]]:
    for step in pattern.assembly:
        if isinstance(step.verb, Joint):
            yield "complex", "a joint that moves"
        elif isinstance(step.verb, Insert) and "wire" in step.verb.item.value.lower():
            yield "complex", "a frame of wire"


def _of_piece(piece: WorkedPiece) -> Iterator[tuple[str, str]]:
    if piece.piece.worked and piece.piece.worked.value is Worked.SURFACE:
        yield "complex", "work on the surface"
    if piece.piece.starts is not None:
        yield "intermediate", "pieces that grow out of others"


def _of_round(worked: WorkedRound) -> Iterator[tuple[str, str]]:
    if any(onto.spot is Spot.PIECE for onto, _, _ in worked.onto):
        yield "intermediate", "pieces joined on the hook"
    if worked.far_side:
        yield "intermediate", "an oval worked down both sides of a chain"
    if len({stretch.yarn for stretch in worked.stretches}) > 1:
        yield "intermediate", "colours changed within rounds"
    if any(_post(kind) for kind, _ in worked.tally):
        yield "intermediate", "post stitches"


def _post(kind: str) -> bool:
    return kind in stitches() and kind.startswith(("FP", "BP"))


_PATTERN = """\
title: Pebble
terms: US
level: {}
yarns:
  slate: {{colour: {{name: slate}}}}
  chalk: {{colour: {{name: chalk}}}}
pieces:
  body:
    yarn: slate
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: inc x 6 (12)
      R3: with slate 6 sc, with chalk 6 sc (12)
"""

CHECK = Check(
    id="level-low",
    title="Level lower than the techniques",
    why=(
        "A maker who chooses a basic project and meets colourwork or wire in it feels cheated, and"
        " often gives up. The published levels describe the project, not the person; this tells"
        " only of what is two levels away."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format("basic"),
    good=_PATTERN.format("intermediate"),
    source="Craft Yarn Council, project levels; which level a technique of stuffed work belongs to:"
    " common practice, no source",
    run=_run,
)
