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
from roundproof.notation.edges import piece_of, read_edge, read_label
from roundproof.pattern.model import Around, Join, Pattern, Place
from roundproof.source import Span


@dataclass(frozen=True, slots=True)
class Setting:
    """What one step sets on `host`, and where: `copies` of `what`, a piece (`thing` False) or a
    thing. `wide` is how many stitches each covers, `guessed` where half its edge was taken for
    that because the step does not say. `placed` is whether it says where on the host."""

    what: str
    host: str
    site: Site
    around: Around | None
    wide: float
    guessed: bool
    copies: int
    thing: bool
    placed: bool
    span: Span

    @property
    def low(self) -> float:
        """How far up it begins, in rounds from the start (a line between R4 and R5 is at 4)."""
        return self.site.first if self.site.kind == "between" else self.site.first - 1

    @property
    def high(self) -> float:
        return self.site.first if self.site.kind == "between" else self.site.last


@dataclass(frozen=True, slots=True)
class Stand:
    """One of the things that a step sets on `host`. It reaches from height `low` to `high`, in
    rounds from the start (a line between R4 and R5 is at 4), and from `start` over `wide`
    stitches of the `count` in the round there. `exact` where its mark is in a round of that
    count; `nth` counts the copies of one step, from 1. `said` is False where the step leaves
    open where round its host it goes and the place is only the likeliest; `even` False where its
    rounds have several counts, of which `count` is the first."""

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
    said: bool = True
    even: bool = True

    @property
    def middle(self) -> float:
        """The middle of it, in stitches from the start of the round."""
        return (self.start + self.wide / 2) % self.count

    @property
    def on(self) -> str:
        """The rounds it stands on: 'R8-R11', 'between R4 and R5'."""
        return self.site.on

    @property
    def stitches(self) -> str:
        """'stitches 5 to 8', counted from 1; where it begins or ends within one, that one too."""
        first, last = int(self.start) + 1, ceil(self.start + self.wide) % self.count or self.count
        if not self.wide:
            return f"the gap after stitch {self.start:g}" if self.start else "the start"
        return f"stitch {first}" if first == last else f"stitches {first} to {last}"


def stands(pattern: Pattern, fabric: Fabric) -> tuple[Stand, ...]:
    """Everything whose place round its host is said, and whose round has one count."""
    return tuple(
        stand
        for setting in settings(pattern, fabric)
        if setting.placed and setting.site.kind != "up"
        for stand in stood(fabric, setting)
        if stand.said and stand.even
    )


def settings(pattern: Pattern, fabric: Fabric) -> Iterator[Setting]:
    """What joins and placements set on pieces, in working order. A join that names no place on its
    host sets the piece on the round it names, or on the last."""
    for step in pattern.assembly:
        found = None
        if isinstance(step.verb, Join):
            found = _joined(fabric, step.verb)
        elif isinstance(step.verb, Place):
            found = _placed(fabric, step.verb)
        if found is not None:
            yield found


def _joined(fabric: Fabric, join: Join) -> Setting | None:
    guest = piece_of(join.edge.value, fabric.pieces)
    site = site_of(fabric, join)
    placed = site is not None
    if site is None and (join.at is not None or (site := _whole_round(fabric, join)) is None):
        return None
    worked = fabric.pieces[guest] if guest else None
    wide = site.stitches if site.kind != "up" else 0
    edge = (worked.last.made or 0) if worked and worked.last else 0
    return Setting(
        what=guest or join.edge.value,
        host=site.piece,
        site=site,
        around=join.around,
        wide=edge / 2 if wide is None else float(wide),
        guessed=wide is None,
        copies=max(1, worked.piece.make) if worked else 1,
        thing=False,
        placed=placed,
        span=join.edge.span,
    )


def _whole_round(fabric: Fabric, join: Join) -> Site | None:
    name = read_edge(join.to.value, fabric.pieces) if join.to else None
    if name is None or (last := fabric.pieces[name.piece].last) is None:
        return None
    number = last.round.label.last if name.round is None else name.round
    return Site(name.piece, "between", number, number)


def _placed(fabric: Fabric, place: Place) -> Setting | None:
    key = piece_of(place.piece.value, fabric.pieces) if place.piece else None
    numbers = [n for label in place.between if (n := read_label(label.value)) is not None]
    if key is None or not numbers:
        return None
    site = Site(key, "between", min(numbers), max(numbers), 0)
    return Setting(
        what=place.item.value,
        host=key,
        site=site,
        around=place.around,
        wide=0.0,
        guessed=False,
        copies=1,
        thing=True,
        placed=True,
        span=place.item.span,
    )


def stood(fabric: Fabric, setting: Setting) -> tuple[Stand, ...]:
    """Each copy of it where it stands. Where that is not said, pieces stand evenly from the front
    on; a thing stands nowhere. None for more than `MOST`, nor where a count is not known."""
    worked, site, around = fabric.pieces[setting.host], setting.site, setting.around
    counts = counts_between(worked, site.first, site.last)
    count = counts[0] if counts else 0
    origin = origin_of(worked, around, count) if around and count else None
    if not count or (around is None and setting.thing) or (around is not None and origin is None):
        return ()
    if around is None or origin is None:
        front = place_of(worked, "front", count) or (0.0, True)
        copies, origin = min(setting.copies, MOST), front
        half = setting.wide / 2
        found = tuple(front[0] + (n + 0.5) * count / copies - half for n in range(copies))
    else:
        found = starts(around, origin[0], setting.wide, count)
    return tuple(
        Stand(
            setting.what, setting.host, setting.low, setting.high, start % count, setting.wide,
            count, origin[1], nth, site, setting.span,
            said=around is not None and not setting.guessed, even=len(counts) == 1,
        )
        for nth, start in enumerate(found, 1)
    )  # fmt: skip


def origin_of(worked: WorkedPiece, around: Around, count: int) -> tuple[float, bool] | None:
    """Where counting begins on a round of so many stitches, and whether that is exact."""
    named = around.mark or around.from_
    if named is None:
        return 0.0, True
    if named.value.strip().lower() in {name.lower() for name in marks_of(worked)}:
        return place_of(worked, named.value, count)
    number = [int(part) for part in named.value.split() if part.isdigit()]
    return (number[0] - 1.0, True) if around.from_ and number else None


def place_of(worked: WorkedPiece, name: str, count: int) -> tuple[float, bool] | None:
    """Where a mark is on a round of so many stitches, and whether that is exact. None where there
    is no such mark, or none that its round can have."""
    marks = {known.lower(): mark for known, mark in marks_of(worked).items()}
    if (mark := marks.get(name.strip().lower())) is None:
        return None
    there = counts_between(worked, mark.round, mark.round)
    if len(there) != 1 or not 0 < mark.stitch <= there[0]:
        return None
    return mark.place * count / there[0], there[0] == count


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
