"""The colours of a piece, stitch by stitch: a row for each round, or for rounds that are alike.

Told from the stitches as they lie, so that a map of them is the fabric itself.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import groupby, islice

from roundproof.drawing.runs import rounds
from roundproof.drawing.yarns import Marks, YarnMark, mark_of
from roundproof.fabric.edges import in_rows
from roundproof.fabric.laid import Laid, laid
from roundproof.fabric.model import WorkedPiece, WorkedRound
from roundproof.frozen import dataclass, replace
from roundproof.notation.tree import Act, Action, Chain, Colour, JoinRound, Repeat, Turn

MOST_CELLS = 10_000
"""A piece of more stitches has no map, rounds that are alike counted once."""

Cells = tuple[YarnMark, ...]


@dataclass(frozen=True, slots=True)
class Row:
    """Rounds `first` to `last`, each with the same `cells` in the order of the work. `back`: worked
    the other way, from the wrong side; `nth`: how often the piece has such a number by now. No
    cells where the round could not be read."""

    first: int
    last: int
    cells: Cells
    back: bool = False
    nth: int = 1

    @property
    def label(self) -> str:
        return rounds(self.first, self.last)

    @property
    def stretches(self) -> tuple[tuple[YarnMark, int], ...]:
        """The yarns in working order, each with its stitches in a row."""
        return tuple((mark, len(list(same))) for mark, same in groupby(self.cells))


def colour_rows(piece: WorkedPiece, marks: Marks) -> tuple[Row, ...] | None:
    """From the first round on; None where no round holds two yarns, or there is too much."""
    if not any(_mixed(worked) for worked in piece.rounds):
        return None
    found: list[Row] = []
    left = MOST_CELLS
    for row in _all(piece, marks):
        if found and _alike(found[-1], row):
            found[-1] = replace(found[-1], last=row.last)
            continue
        left -= max(1, len(row.cells))
        if left < 0:
            return None
        found.append(row)
    mixed = any(len(set(row.cells)) > 1 for row in found)
    return tuple(found) if mixed else None


def _mixed(worked: WorkedRound) -> bool:
    """Whether a round may hold two yarns: told without its stitches, of which there may be many."""
    told = {stretch.yarn for stretch in worked.stretches} | {yarn for _, yarn in worked.tally}
    return len(told) > 1


def _alike(one: Row, other: Row) -> bool:
    follows = other.first == one.last + 1 and one.back == other.back
    return follows and one.cells == other.cells


def _all(piece: WorkedPiece, marks: Marks) -> Iterator[Row]:
    """A row for each round; one for the rest of a range whose rounds stay the same, unless the
    work is turned in it. One row follows another turned, whether that is said or not."""
    flat, back, seen = in_rows(piece), False, Counter[int]()
    turned = was_row = False
    for entry in piece.entries:
        if isinstance(entry, Action) and entry.act is Act.TURN:
            turned = not turned
        if not isinstance(entry, WorkedRound):
            continue
        begins, ends = _turned(entry)
        is_row = flat and entry.round.label.row
        seen[entry.round.label.first] += 1
        nth = seen[entry.round.label.first]
        for row in _line(entry, marks):
            each = is_row or begins or ends
            for number in range(row.first, row.last + 1 if each else row.first + 1):
                if seen.total() > 1 or number > entry.round.label.first:
                    back ^= turned or begins or (is_row and was_row)
                last = number if each else row.last
                yield replace(row, first=number, last=last, back=back, nth=nth)
                turned, was_row = ends, is_row


def _turned(worked: WorkedRound) -> tuple[bool, bool]:
    """Whether the work is turned before the first stitch of a round, and after its last."""
    items = worked.instruction.items if worked.instruction else ()
    found = [item for item in items if not isinstance(item, Colour | Chain | JoinRound)]
    turns = [isinstance(item, Turn) for item in (found[:1] + found[-1:])]
    return (turns[0], turns[1]) if len(found) > 1 else (False, any(turns))


def _line(worked: WorkedRound, marks: Marks) -> Iterator[Row]:
    """The rounds of one line. The counts of a range may change from round to round, and so may the
    yarn that is in hand when a round begins; once neither does, the rest are as the last."""
    number, last = worked.round.label.first, worked.round.label.last
    made = [count for rounds, count in worked.run for _ in range(min(rounds, MOST_CELLS))]
    before: WorkedRound | None = None
    while number <= last:
        place = number - worked.round.label.first
        count = made[place] if place < len(made) else worked.made or 0
        cells = tuple(mark_of(marks, stitch.yarn) for stitch in _counted(worked, count))
        same = before is not None and _begins(before) == _begins(worked)
        if same and len(set(made[place:])) <= 1:
            yield Row(number, last, cells)
            return
        yield Row(number, number, cells)
        before, number = worked, number + 1
        worked = replace(worked, available=count, yarn=_in_hand(worked))


def _begins(worked: WorkedRound) -> tuple[int | None, str | None]:
    return worked.available, worked.yarn


def _in_hand(worked: WorkedRound) -> str | None:
    """The yarn that the next round begins with."""
    items = worked.instruction.items if worked.instruction else ()
    while items:
        last = items[-1]
        if isinstance(last, Colour):
            return last.yarn
        if isinstance(last, Turn | JoinRound | Chain):
            items = items[:-1]
            continue
        items = last.body if isinstance(last, Repeat) else ()
    yarn = worked.yarn
    for stitch in islice(laid(worked), 2 * MOST_CELLS):
        yarn = stitch.yarn
    return yarn


def _counted(worked: WorkedRound, made: int) -> Sequence[Laid]:
    """The stitches that count; chains do not where the count is that of the others alone."""
    found = [stitch for stitch in islice(laid(worked), 2 * MOST_CELLS) if stitch.number]
    if len(found) != made:
        others = [stitch for stitch in found if stitch.kind != "ch"]
        return others if len(others) == made else found
    return found
