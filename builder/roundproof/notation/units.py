"""Units by their usual names, and small changes to items."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache

from roundproof.frozen import replace
from roundproof.notation.tree import Item, Loop, Onto, Repeat, Stitches, Times, Unit, Where
from roundproof.reference import stitches
from roundproof.source import Span

SINGLE = "sc"
"""The stitch that 'inc', 'dec' and 'work even' are made of."""

_NAMES: dict[tuple[tuple[tuple[str, int], ...], int], str] = {
    (((SINGLE, 2),), 1): "inc",
    (((SINGLE, 1),), 2): "dec",
}


def named(makes: Sequence[tuple[str, int]], uses: int) -> Unit:
    """A unit by its usual name: two single crochets in one are an increase, one over two a
    decrease; equal stitches side by side are counted together."""
    runs: list[tuple[str, int]] = []
    for kind, count in makes:
        if not count:
            continue
        if runs and runs[-1][0] == kind:
            count += runs.pop()[1]
        runs.append((kind, count))
    made = tuple(runs)
    return Unit(made, uses, _NAMES.get((made, uses), ""))


@cache
def one(kind: str) -> Unit:
    """A stitch of the table by its id, once: over as many stitches as it takes; a name that stands
    for several stitches (a shell) makes those."""
    row = stitches()[kind]
    if row.made_of:
        return Unit(row.made_of, row.uses, kind)
    return Unit(((kind, 1),), row.uses)


def in_ring(unit: Unit, times: Times) -> tuple[Unit, Times]:
    """A unit worked into a ring, where several in one place are simply so many stitches."""
    if unit.word or unit.uses != 1 or len(unit.makes) != 1 or not isinstance(times, int):
        return unit, times
    ((kind, count),) = unit.makes
    return Unit(((kind, 1),)), times * count


def in_loop(item: Item, loop: Loop) -> Item:
    """The item worked in a loop, where it names none of its own."""
    if isinstance(item, Repeat):
        return replace(item, body=tuple(in_loop(i, loop) for i in item.body))
    if isinstance(item, Stitches) and item.loop is None and takes_loop(item):
        return replace(item, loop=loop)
    return item


def onto_place(item: Item, onto: Onto) -> Item:
    """The item with its stitches in a place of their own, where they name none."""
    if isinstance(item, Repeat):
        return replace(item, body=tuple(onto_place(i, onto) for i in item.body))
    if isinstance(item, Stitches) and item.onto is None:
        return replace(item, onto=onto)
    return item


def place_of(item: Repeat) -> Onto | None:
    """The one place that all stitches of a group go to, if it is none of the round below."""
    places = {stitch.onto for stitch in every_stitch(item.body)}
    return places.pop() if len(places) == 1 else None


def without_place(item: Repeat) -> Repeat:
    """The group with no places of their own."""
    body = [
        without_place(i)
        if isinstance(i, Repeat)
        else (replace(i, onto=None) if isinstance(i, Stitches) else i)
        for i in item.body
    ]
    return replace(item, body=tuple(body))


def takes_loop(item: Stitches) -> bool:
    """Whether the stitches go under the top of other stitches at all."""
    return item.where not in (Where.RING, Where.HOOK) and item.unit.makes != ()


def every_loop(items: Sequence[Item]) -> set[Loop | None]:
    """The loops that the stitches of these items name."""
    found: set[Loop | None] = set()
    for item in items:
        if isinstance(item, Repeat):
            found |= every_loop(item.body)
        elif isinstance(item, Stitches) and takes_loop(item):
            found.add(item.loop)
    return found


def every_stitch(items: Sequence[Item]) -> Iterator[Stitches]:
    """All stitches of these items in order, those of repeats once."""
    for item in items:
        if isinstance(item, Repeat):
            yield from every_stitch(item.body)
        elif isinstance(item, Stitches):
            yield item


def without_loop(item: Item) -> Item:
    """The item with no loops named."""
    if isinstance(item, Repeat):
        return replace(item, body=tuple(without_loop(i) for i in item.body))
    if isinstance(item, Stitches):
        return replace(item, loop=None)
    return item


def joined(items: Sequence[Item]) -> list[Item]:
    """'sc, sc, sc' says '3 sc': single stitches of one kind side by side are counted together."""
    found: list[Item] = []
    for item in items:
        last = found[-1] if found and isinstance(item, Stitches) and item.times == 1 else None
        if isinstance(item, Stitches) and isinstance(last, Stitches) and _same(last, item):
            assert isinstance(last.times, int)
            found[-1] = replace(last, times=last.times + 1, span=last.span.to(item.span))
        else:
            found.append(item)
    return found


def _same(last: Stitches, item: Stitches) -> bool:
    """Whether a single stitch is one more of those before it."""
    return (
        isinstance(last.times, int)
        and item.onto == last.onto
        and item.where is last.where is Where.NEXT
        and (item.unit, item.loop, item.layers) == (last.unit, last.loop, last.layers)
    )


def spread_from_hook(first: Stitches, nth: int, span: Span) -> list[Item]:
    """Stitches of which the first goes into the nth chain from the hook and the rest on."""
    assert isinstance(first.times, int)
    found: list[Item] = [Stitches(first.unit, 1, span, None, Where.HOOK, nth)]
    if first.times > 1:
        found.append(Stitches(first.unit, first.times - 1, span, first.loop))
    return found
