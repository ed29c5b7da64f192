"""What the checks about counts share: how a round, what it is worked into and its repeats are
called."""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.fabric.model import Base, Misfit, WorkedPiece, WorkedRound
from roundproof.notation.tree import Instruction, Item, Onto, Spot
from roundproof.notation.writer import which_copy, written
from roundproof.pattern.model import Status
from roundproof.proof import Proof


def worked_rounds(proof: Proof) -> Iterator[tuple[WorkedPiece, WorkedRound | None, WorkedRound]]:
    """Every line of work with its piece and the line before it. Mirrored rounds are judged where
    they are written."""
    for piece in proof.fabric.pieces.values():
        before = None
        if piece.of:
            continue
        for worked in piece.rounds:
            yield piece, before, worked
            before = worked


def under_way(proof: Proof) -> bool:
    """Whether a draft is still being written, as far as it shows: no piece of it is fastened off.
    What it comes to as a whole is not known yet."""
    ended = any(piece.fastened or piece.gathered for piece in proof.fabric.pieces.values())
    return proof.pattern.status is Status.DRAFT and not ended


def source_of(before: WorkedRound | None, worked: WorkedRound, misfit: Misfit) -> str:
    """What there is to work into, as a clause: 'R6 made 30', 'the chain has 6 to work into'."""
    count = misfit.available
    if len(worked.onto) == 1 and misfit.round == worked.round.label.first:
        return f"{_place(worked.onto[0][0])} {count}"
    within = misfit.round > worked.round.label.first
    if within or (worked.base is Base.ROUND and before is not None):
        number = misfit.round - 1 if within or before is None else before.round.label.last
        unread = not within and before is not None and before.made is None
        return f"R{number} {'states' if unread else 'made'} {count}"
    if worked.base is Base.CHAIN:
        return f"the chain has {count} to work into"
    return f"there {'is' if count == 1 else 'are'} {count} to work into"


def _place(onto: Onto) -> str:
    """A place of its own, as the subject of how many stitches it has: 'R8 left', 'the leg has'."""
    if onto.spot is Spot.UNWORKED and onto.round and not onto.piece:
        return f"R{onto.round} left"
    if onto.spot is Spot.PIECE:
        return f"the {which_copy(onto.copy)}{onto.piece} has"
    if onto.spot is Spot.CHAIN:
        return "the chain has"
    return "the path crosses" if onto.spot is Spot.PATH else "there are"


def in_words(item: Item, proof: Proof) -> str:
    """An item in house style, in the pattern's own terms, with the letters of its yarns."""
    return work_in_words(Instruction((item,)), proof)


def work_in_words(work: Instruction, proof: Proof) -> str:
    """The same of all the work of a round."""

    return written(work, proof.pattern.written_in, proof.letter)
