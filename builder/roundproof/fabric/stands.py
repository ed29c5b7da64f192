"""Where what assembly sets on a piece stands on it, in stitches of the round.

Stitch n of a round lies between n - 1 and n. A place on another round than the mark that it goes
by is reckoned by its share of the round.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import ceil

from roundproof.fabric.model import Fabric, WorkedPiece
from roundproof.fabric.places import Site, counts_between, marks_of, site_of
from roundproof.frozen import dataclass
from roundproof.notation.edges import piece_of, read_label
from roundproof.pattern.model import Around, Join, Pattern, Place
from roundproof.source import Span


@dataclass(frozen=True, slots=True)
class Stand:
    """One of the things that a step sets on `host`. It reaches from height `low` to `high`, in
    rounds from the start (a line between R4 and R5 is at 4), and from `start` over `wide`
    stitches of the `count` in the round there. `exact` where its mark is in a round of that
    count; `nth` counts the copies of one step, from 1."""

    what: str
    host: str
    low: float
    high: float
    start: float
    wide: float
    count: int
    exact: bool
    nth: int
    site: Site
    span: Span

    @property
    def middle(self) -> float:
        """The middle of it, in stitches from the start of the round."""
        return (self.start + self.wide / 2) % self.count

    @property
    def on(self) -> str:
        """The rounds it stands on: 'R8-R11', 'between R4 and R5'."""
        first, last = self.site.first, self.site.last
        if self.site.kind == "between" and first != last:
            return f"between R{first} and R{last}"
        return f"R{first}" if first == last else f"R{first}-R{last}"

    @property
    def stitches(self) -> str:
        """'stitches 5 to 8', counted from 1; where it begins or ends within one, that one too."""
        first, last = int(self.start) + 1, ceil(self.start + self.wide) % self.count or self.count
        if not self.wide:
            return f"the gap after stitch {self.start:g}" if self.start else "the start"
        return f"stitch {first}" if first == last else f"stitches {first} to {last}"


def stands(pattern: Pattern, fabric: Fabric) -> tuple[Stand, ...]:
    """Everything whose place round its host is said, and whose round has one count."""
    found: list[Stand] = []
    for step in pattern.assembly:
        if isinstance(step.verb, Join):
            found += _joined(fabric, step.verb)
        elif isinstance(step.verb, Place):
            found += _placed(fabric, step.verb)
    return tuple(found)


def _joined(fabric: Fabric, join: Join) -> Iterator[Stand]:
    site = site_of(fabric, join)
    if site is None or site.kind == "up" or site.stitches is None or join.around is None:
        return
    guest = piece_of(join.edge.value, fabric.pieces) or join.edge.value
    yield from _stood(fabric, site, join.around, guest, join.edge.span)


def _placed(fabric: Fabric, place: Place) -> Iterator[Stand]:
    key = piece_of(place.piece.value, fabric.pieces) if place.piece else None
    numbers = [n for label in place.between if (n := read_label(label.value)) is not None]
    if key is None or not numbers or place.around is None:
        return
    site = Site(key, "between", min(numbers), max(numbers), 0)
    yield from _stood(fabric, site, place.around, place.item.value, place.item.span)


def _stood(fabric: Fabric, site: Site, around: Around, what: str, span: Span) -> Iterator[Stand]:
    worked, wide = fabric.pieces[site.piece], float(site.stitches or 0)
    counts = counts_between(worked, site.first, site.last)
    origin = _origin(worked, around, counts[0]) if len(counts) == 1 and counts[0] else None
    if origin is None:
        return
    between = site.kind == "between"
    low, high = (site.first, site.first) if between else (site.first - 1, site.last)
    place, exact = origin
    for nth, start in enumerate(starts(around, place, wide, counts[0]), 1):
        yield Stand(
            what, site.piece, low, high, start % counts[0], wide, counts[0], exact, nth, site, span
        )


def _origin(worked: WorkedPiece, around: Around, count: int) -> tuple[float, bool] | None:
    """Where counting begins on a round of so many stitches, and whether that is exact."""
    named = around.mark or around.from_
    if named is None:
        return 0.0, True
    marks = {name.lower(): mark for name, mark in marks_of(worked).items()}
    if (mark := marks.get(named.value.strip().lower())) is not None:
        there = counts_between(worked, mark.round, mark.round)
        if len(there) != 1 or not 0 < mark.stitch <= there[0]:
            return None
        return mark.place * count / there[0], there[0] == count
    number = [int(part) for part in named.value.split() if part.isdigit()]
    return (number[0] - 1.0, True) if around.from_ and number else None


def starts(around: Around, origin: float, wide: float, count: int) -> tuple[float, ...]:
    """Where each copy begins, in stitches: `origin` is the mark, or the start that is said."""
    if around.apart is not None:
        half = around.apart.value / 2
        return origin - half - wide, origin + half
    if around.free:
        place, found = origin + around.free[0].value / 2, []
        if around.mark is None:
            place = origin + around.free[0].value
        for gap in (*around.free[1:], around.free[0]):
            found.append(place)
            place += wide + gap.value
        return tuple(found)
    if around.evenly is not None and around.evenly.value > 0:
        return tuple(origin + at for at in evenly(around.evenly.value, count))
    if around.st is not None:
        return (around.st.value - 1.0,) if around.st.value <= count else ()
    return (origin - wide / 2,)


MOST = 1000
"""More things than this on one round are not looked at one by one: the number is a slip."""


def evenly(times: int, count: int) -> tuple[int, ...]:
    """Where so many things begin that are spread over a round, the wider steps apart as well: 5
    over 22 begin at 0, 4, 8, 13, 17. Nothing for more than `MOST`."""
    return tuple(i * count // times for i in range(times)) if 0 < times <= min(count, MOST) else ()


def steps_of(times: int, count: int) -> tuple[int, ...]:
    """From each of them to the next: 5 over 22 go on by 4, 4, 5, 4, 5."""
    at = (*evenly(times, count), count)
    if len(at) == 1:
        return ()
    return tuple(after - before for before, after in pairwise(at))


def shared(one: Stand, two: Stand) -> float:
    """How many stitches two things both stand on; 0 where they do not meet. What has no width
    meets whatever it stands in."""
    if one.host != two.host or one.count != two.count or not _meet(one, two):
        return 0.0
    ahead = (two.start - one.start) % one.count
    back = (one.start - two.start) % one.count
    over = max(min(one.wide - ahead, two.wide), min(two.wide - back, one.wide))
    within = 0 < ahead < one.wide or 0 < back < two.wide
    if not one.wide or not two.wide:
        return 1.0 if within or (not one.wide and not two.wide and not ahead) else 0.0
    return max(over, 0.0)


def _meet(one: Stand, two: Stand) -> bool:
    """Whether they reach to the same height; a line and a place meet where the line runs through
    its inside."""
    low, high = max(one.low, two.low), min(one.high, two.high)
    if one.low == one.high and two.low == two.high:
        return one.low == two.low
    return low < high or (low == high and (one.low < low < one.high or two.low < low < two.high))
