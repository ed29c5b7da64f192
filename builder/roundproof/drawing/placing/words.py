"""What a placement diagram shows, in words that are good enough to work from."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil

from roundproof.drawing.placing.gaps import gaps
from roundproof.drawing.placing.host import Host, Item, Landmark
from roundproof.fabric.points import Point
from roundproof.fabric.stands import Stand
from roundproof.measure.figures import stitches

MOST_TOLD = 40
"""Copies of one step that are told one by one."""


def words_of(host: Host) -> tuple[str, ...]:
    """A line for how it is counted, one for each landmark, and one for each thing."""
    counted = (
        "Stitches are counted in the direction of work from the start of the round; rounds from the"
        " start of the piece."
    )
    marks = (_landmark(mark, host) for mark in host.marks)
    return (counted, *marks, *(told(item, host) for item in host.items))


def _landmark(mark: Landmark, host: Host) -> str:
    if mark.place % 1:
        where = f"in stitch {int(mark.place) + 1}"
    elif 0 < mark.place < mark.count:
        where = f"between stitches {mark.place:.0f} and {mark.place + 1:.0f}"
    else:
        where = "at the start"
    return (
        f"The mark {mark.name}: {where} of R{mark.number} of {host.name}, {stitches(mark.count)}."
    )


def told(item: Item, host: Host) -> str:
    """ "a. Safety eyes: between R7 and R8 of Body, 4 stitches free between them, centred on the
    mark front: after stitches 6 and 10 of the 44 of R7." """
    if item.site is None:
        return f"{item.letter}. {item.name}: {_path(item.points, host)}{_often(item)}."
    many = f" ({item.copies})" if item.copies > 1 else ""
    parts = [f"{(item.site.kind == 'up' and 'up ') or ''}{on_words(item)} of {host.name}"]
    if item.stands and item.stands[0].wide:
        each = "each " if item.copies > 1 else ""
        parts.append(f"{each}{stitches(round(item.stands[0].wide))} wide")
    parts += _spacing(item)
    if not item.stands:
        return (
            f"{item.letter}. {item.name}{many}: {', '.join(parts)}; at which stitches is not said."
        )
    return f"{item.letter}. {item.name}{many}: {', '.join(parts)}: {_places(item)}."


def on_words(item: Item) -> str:
    """ "between R4 and R5", "on R8 to R11"."""
    assert item.site is not None
    first, last, kind = item.site.first, item.site.last, item.site.kind
    if kind == "between" and first != last:
        return f"between R{first} and R{last}"
    rounds = f"R{first}" if first == last else f"R{first} to R{last}"
    return rounds if kind == "up" else f"on {rounds}"


def _spacing(item: Item) -> Iterator[str]:
    around = item.around
    if around is None:
        return
    free = [gap.wide for gap in gaps(item.stands)]
    if around.apart is not None:
        yield f"{stitches(around.apart.value)} free between them"
    elif len(free) > 1 and len(set(free)) == 1:
        yield f"{stitches(round(free[0]))} free after each" if free[0] else "close together"
    elif around.mark is None and free and len(free) <= MOST_TOLD:
        yield f"{_listed([f'{gap:g}' for gap in free])} stitches free after them in turn"
    elif around.free and len(around.free) <= MOST_TOLD:
        said = _listed([str(gap.value) for gap in around.free])
        yield (
            f"with gaps of {said} stitches, the first lying across the mark {around.mark.value}"
            if around.mark
            else f"with gaps of {said} stitches"
        )
        return
    if around.mark is not None:
        yield f"centred on the mark {around.mark.value}"


def _places(item: Item) -> str:
    """Where each copy stands, stitch by stitch."""
    first = item.stands[0]
    about = "" if first.exact else "about "
    shown = item.stands[:MOST_TOLD]
    more = f" and {len(item.stands) - len(shown):,} more" if len(item.stands) > len(shown) else ""
    counted = f"of R{item.site.first if item.site else 0}, which has {stitches(first.count)}"
    return f"{about}{_each(shown)}{more} {counted}"


def _each(shown: Sequence[Stand]) -> str:
    if shown[0].wide:
        named = [_stretch(stand) for stand in shown]
        one = all(" to " not in words for words in named)
        return f"{'stitch' if one and len(named) == 1 else 'stitches'} {_listed(named)}"
    places = [stand.start % stand.count for stand in shown]
    if all(place % 1 for place in places):
        return _numbered("in stitch", [str(int(place) + 1) for place in places])
    named = [f"{place or shown[0].count:g}" for place in places]
    return _numbered("after stitch", named)


def _numbered(what: str, named: Sequence[str]) -> str:
    return f"{what}{'es' if len(named) > 1 else ''} {_listed(named)}"


def _stretch(stand: Stand) -> str:
    first = int(stand.start) + 1
    last = ceil(stand.start + stand.wide - 1e-9)
    last = last - stand.count if last > stand.count else last
    return f"{first:,}" if first == last else f"{first:,} to {last:,}"


def _path(points: Sequence[Point], host: Host) -> str:
    found = [_point(point) for point in points]
    if len(found) == 1:
        return f"at {found[0]} of {host.name}"
    return f"from {' to '.join(found)} of {host.name}"


def _point(point: Point) -> str:
    whole = point.height % 1 == 0
    low = int(point.height) if whole else int(point.height + 0.5)
    rounds = f"between R{low} and R{low + 1}" if whole else f"R{low}"
    if point.place is None:
        return rounds
    if point.place % 1:
        return (
            f"stitch {int(point.place) + 1} of {rounds}"
            if not whole
            else (f"{rounds}, in stitch {int(point.place) + 1}")
        )
    return f"the gap after stitch {point.place:g} of {rounds}"


def _often(item: Item) -> str:
    return f", {item.times:,} times over" if item.times > 1 else ""


def _listed(words: Sequence[str]) -> str:
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"
