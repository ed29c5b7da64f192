"""Mends for counts that do not come out: the number of times that would."""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.checks._rounds import in_words
from roundproof.expressions import expression
from roundproof.fabric.model import WorkedRound
from roundproof.fabric.once import worked as work_once
from roundproof.findings import Edit
from roundproof.frozen import dataclass, replace
from roundproof.notation.tree import Instruction, Item, Repeat, Stitches
from roundproof.notation.units import SINGLE, named
from roundproof.proof import Proof
from roundproof.source import Span

_NUMBER = expression(r"\d+")


def what_fits(proof: Proof, worked: WorkedRound) -> tuple[str, tuple[Edit, ...]]:
    """What would mend a round that does not come out: another number, or one word exchanged."""
    mend, edits = another_number(proof, worked)
    if mend or worked.stated is None:
        return mend, edits
    return another_count(proof, worked, worked.stated) or ("", ())


def another_number(proof: Proof, worked: WorkedRound) -> tuple[str, tuple[Edit, ...]]:
    """'(4 sc, inc) x 5 would use 30 and make 36.', with the edit, for the one number in the round
    that, put right, uses exactly what there is: of a group, or else of stitches in a row. Nothing
    where there is none, or where several would do and nothing is stated to tell them apart."""
    instruction, available = worked.instruction, worked.available
    if instruction is None or available is None:
        return "", ()
    found = [m for i in instruction.items for m in _mended(instruction, i, available, worked)]
    stated = [m for m in found if m.made == worked.stated]
    groups = [m for m in found if isinstance(m.item, Repeat)]
    best = stated[:1] or (groups if len(groups) == 1 else found if len(found) == 1 else [])
    if not best:
        return "", ()
    mend = best[0]
    words = in_words(mend.item, proof)
    if len(instruction.items) > 1:
        return f"With {words} the round would use {available} and make {mend.made}.", mend.edits
    return f"{words} would use {available} and make {mend.made}.", mend.edits


def another_count(
    proof: Proof, worked: WorkedRound, count: int
) -> tuple[str, tuple[Edit, ...]] | None:
    """'With 5 sc the round would make 36.', with the edit, for the one number or the one word
    (`inc` for `dec`) that, put right, uses what there is and makes `count`; None where there is
    none, or more than one."""
    work, available = worked.instruction, worked.available
    if work is None or available is None or worked.rounds > 1:
        return None
    found = []
    for (old, put), edit in _changes(work.items):
        new = replace(work, items=_put(work.items, old, put))
        out = work_once(new, available, worked.yarn, worked.lifted)
        if not out.over and not out.spare and not out.uneven and out.made == count:
            found.append((put, edit))
    if len(found) != 1:
        return None
    ((item, edit),) = found
    return f"With {in_words(item, proof)} the round would make {count}.", edit


_Change = tuple[tuple[Item, Item], tuple[Edit, ...]]


def _changes(items: tuple[Item, ...]) -> Iterator[_Change]:
    """Every item of a round with another number, or with an increase for a decrease."""
    for item in items:
        if isinstance(item, Repeat):
            yield from _changes(item.body)
        if isinstance(item, Repeat | Stitches) and isinstance(item.times, int):
            for times in range(1, 2 * item.times + 6):
                edit = _edit(item.span, item.times, times)
                if times != item.times and edit:
                    yield (item, replace(item, times=times)), edit
        if isinstance(item, Stitches) and item.unit.word in _OTHER:
            word, unit = _OTHER[item.unit.word]
            at = item.span.text.lower().find(item.unit.word)
            if at >= 0:
                place = item.span.cut(at, at + len(item.unit.word))
                yield (item, replace(item, unit=unit)), (Edit(place, word),)


_OTHER = {
    "inc": ("dec", named(((SINGLE, 1),), 2)),
    "dec": ("inc", named(((SINGLE, 2),), 1)),
}


def _put(items: tuple[Item, ...], old: Item, new: Item) -> tuple[Item, ...]:
    """The items with one in the place of another, wherever it stands."""
    found: list[Item] = []
    for item in items:
        if item is old:
            found.append(new)
        elif isinstance(item, Repeat):
            found.append(replace(item, body=_put(item.body, old, new)))
        else:
            found.append(item)
    return tuple(found)


@dataclass(frozen=True, slots=True)
class _Mend:
    """An item with another number, and what the round would then make."""

    item: Item
    made: int
    edits: tuple[Edit, ...]


def _mended(
    instruction: Instruction, old: Item, available: int, worked: WorkedRound
) -> list[_Mend]:
    if not isinstance(old, Repeat | Stitches) or not isinstance(old.times, int):
        return []
    fit = _times_that_fit(instruction, old, available)
    if fit is None:
        return []
    new = replace(old, times=fit)
    outcome = work_once(_with(instruction, old, new), available, worked.yarn, worked.lifted)
    return [_Mend(new, outcome.made, _edit(old.span, old.times, fit))]


def _times_that_fit(instruction: Instruction, old: Repeat | Stitches, available: int) -> int | None:
    """The number of times at which the round comes out, by proportion from one and two times."""
    one = _needs(instruction, old, 1, available)
    each = _needs(instruction, old, 2, available) - one
    if each <= 0 or (available - one) % each:
        return None
    times = (available - one) // each + 1
    return times if times > 0 and times != old.times else None


def _needs(instruction: Instruction, old: Repeat | Stitches, times: int, available: int) -> int:
    out = work_once(_with(instruction, old, replace(old, times=times)), available, None, False)
    return out.used + out.left


def _with(instruction: Instruction, old: Item, new: Item) -> Instruction:
    return replace(instruction, items=tuple(new if i is old else i for i in instruction.items))


def _edit(words: Span, times: int, new: int) -> tuple[Edit, ...]:
    """The number put right, where it stands plainly in the words: at the end of a group, or as
    their only number."""
    numbers = list(_NUMBER.finditer(words.text))
    if not numbers or int(numbers[-1].group()[:12]) != times:
        return ()
    start, end = numbers[-1].span()
    return (Edit(words.cut(start, end), str(new)),)
