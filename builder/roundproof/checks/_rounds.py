"""What the checks about counts share: how a round, what it is worked into and its repeats are
called."""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.fabric.model import Base, WorkedPiece, WorkedRound
from roundproof.notation.tree import Instruction, Item, Repeat
from roundproof.notation.writer import written
from roundproof.pattern.model import Terms
from roundproof.proof import Proof


def worked_rounds(proof: Proof) -> Iterator[tuple[WorkedPiece, WorkedRound | None, WorkedRound]]:
    """Every line of work with its piece and the line before it. Mirrored rounds are judged where
    they are written."""
    for piece in proof.fabric.pieces.values():
        before = None
        for worked in piece.rounds:
            yield piece, before, worked
            before = worked


def source_of(before: WorkedRound | None, worked: WorkedRound) -> str:
    """What there is to work into, as a clause: 'R6 made 30', 'the chain has 6 to work into'."""
    count = worked.available or 0
    if worked.base is Base.CHAIN:
        return f"the chain has {count} to work into"
    if worked.base is Base.EDGE:
        return f"there {'is' if count == 1 else 'are'} {count} to work into"
    if before is None:
        return f"there are {count}"
    name = f"R{before.round.label.last}"
    if before.made is None:
        return f"{name} states {count}"
    return f"{name} made {count}"


def needed(worked: WorkedRound) -> int:
    """Stitches a round needs: those it uses and those it leaves on purpose."""
    return (worked.used or 0) + worked.unworked


def in_words(item: Item, proof: Proof) -> str:
    """An item in house style, in the pattern's own terms, with the letters of its yarns."""
    terms = proof.pattern.terms.value if proof.pattern.terms else Terms.US
    return written(Instruction((item,)), terms, lambda key: letter(proof, key))


def letter(proof: Proof, key: str) -> str:
    yarn = proof.pattern.yarn(key)
    return yarn.letter if yarn else key


def counted_repeats(worked: WorkedRound) -> list[Repeat]:
    """The groups of a round that are worked a stated number of times."""
    items = worked.instruction.items if worked.instruction else ()
    return [i for i in items if isinstance(i, Repeat) and isinstance(i.times, int)]


def stitches(count: int) -> str:
    return "1 stitch" if count == 1 else f"{count} stitches"
