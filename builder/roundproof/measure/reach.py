"""How a piece comes to end with another count: which round of it has that many, or which round of
increases reaches it, in the multiple it is worked in."""

from __future__ import annotations

from math import gcd

from roundproof.fabric.edges import count_of, in_rows
from roundproof.fabric.model import Base, Edge, WorkedPiece, WorkedRound
from roundproof.frozen import dataclass
from roundproof.notation.tree import Item, Repeat, Stitches

_NEARLY = 1e-9
_FEW = 3
"""A group worked fewer times than this is no multiple that anyone counts in."""


@dataclass(frozen=True, slots=True)
class Reach:
    """A count for the last round of `piece`. `multiple` is what its rounds go up by. `at` is the
    label of the round that has the count already; or else a round after `after` reaches it, worked
    `times` times: `plain` stitches and then an increase."""

    piece: str
    count: int
    multiple: int
    at: str = ""
    after: str = ""
    plain: int = 0
    times: int = 0


def multiple_of(worked: WorkedPiece) -> int:
    """What the rounds of a piece go up or down by, last change first; 1 where there is no such
    number."""
    for entry in reversed(worked.rounds):
        if entry.available and entry.made is not None and entry.made != entry.available:
            return _times(entry)
    return 1


def reach(worked: WorkedPiece, edge: Edge, wanted: int) -> Reach | None:
    """How the piece would end with `wanted` stitches. None for an edge that is not a last round,
    or one that no single round reaches."""
    last = worked.last
    if edge.kind != "round" or last is None or edge.round != last.round.label.last or not wanted:
        return None
    if in_rows(worked) or last.base is Base.EDGE:
        return None
    multiple = multiple_of(worked)
    if (there := _having(worked, wanted)) is not None:
        return Reach(worked.piece.key, wanted, multiple, at=there)
    return _increased(worked, last, wanted, multiple)


def kept(count: int, exact: float, multiple: int, layers: int = 1) -> int | None:
    """The count nearest to `exact` that keeps a piece's multiple, and is even where it lies
    folded; None where the piece does not keep it as it is, or has none."""
    if multiple <= 1 or count % multiple:
        return None
    step = multiple * layers // gcd(multiple, layers)
    return max(1, round(exact / step + _NEARLY)) * step


def _times(entry: WorkedRound) -> int:
    """How often the increases or decreases of a round come; 1 where they do not come evenly."""
    items = entry.instruction.items if entry.instruction else ()
    shaped = [item for item in items if _shapes(item)]
    times = shaped[0].times if len(shaped) == 1 and isinstance(shaped[0], Repeat | Stitches) else 1
    if not isinstance(times, int):  # as often as the round has room for
        times = abs((entry.made or 0) - (entry.available or 0))
    return times if times >= _FEW and (entry.made or 0) % times == 0 else 1


def _shapes(item: Item) -> bool:
    if isinstance(item, Repeat):
        return any(map(_shapes, item.body))
    return isinstance(item, Stitches) and item.unit.made != item.unit.uses


def _having(worked: WorkedPiece, wanted: int) -> str | None:
    """The last round with so many stitches."""
    for entry in reversed(worked.rounds):
        if count_of(entry) == wanted:
            return f"{'Row ' if entry.round.label.row else 'R'}{entry.round.label.last}"
    return None


def _increased(worked: WorkedPiece, last: WorkedRound, wanted: int, multiple: int) -> Reach | None:
    """One round more, of evenly spread increases."""
    there = count_of(last)
    if there is None or not there < wanted <= 2 * there or there % (wanted - there):
        return None
    times, after = wanted - there, f"R{last.round.label.last}"
    return Reach(worked.piece.key, wanted, multiple, "", after, there // times - 1, times)
