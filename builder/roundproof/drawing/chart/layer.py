"""Lays rounds one on the other: each stitch as near over its own as its neighbours let it."""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Callable, Sequence
from itertools import pairwise
from math import atan2, degrees

from roundproof.drawing.chart.frames import Frame, Point, Rings, Strip
from roundproof.drawing.chart.placed import Line, Placed, Section
from roundproof.drawing.chart.slots import LEAST, SKIPPED, Member, Slot, line_high, skipped, slots
from roundproof.drawing.chart.spread import evened, spread
from roundproof.fabric.courses import Course, Ground
from roundproof.fabric.laid import Laid
from roundproof.frozen import replace

Seam = Callable[[Course], float]
"""The room that the number of a round needs between its end and its beginning."""

FARTHEST = 1.0
"""A stitch that would stand farther aside from its own begins another section."""


class Layer:
    """Lays the courses of a section one on the other."""

    def __init__(self, frame: Frame, close: bool, seam: Seam, before: Section | None) -> None:
        """`close` sets the ground's stitches side by side, else they take the whole length."""
        self.frame = frame
        self.close = close
        self.flat = isinstance(frame, Strip)
        self.seam = seam
        self.before = before
        self.forward = before is None or before.lines[-1].forward
        self.lines: list[Line] = []
        self.ghosts: list[Point] = []
        self.founded: list[Placed] = []
        self.z = 0.0

    def lay(self, course: Course) -> bool:
        """Whether its stitches reach what they stand on."""
        self.forward = self.forward != course.back
        row = slots(course)
        row = row if self.forward else tuple(reversed(row))
        high = self.z + line_high(course, row)
        ground, tops = self.ground(course, row)
        wanted = self.wanted(course, row, ground, high)
        gaps = self.gaps(course, row)
        length = self.frame.length(high) if self.frame.closed else None
        places = spread(evened(wanted, gaps, length), gaps, length)
        sharing = Counter(slot.stands for slot in row)
        self.lines.append(self.line(course, row, sharing, places, high, tops))
        self.z = high
        return all(
            abs(place - want) <= FARTHEST + _fan(slot, sharing)
            for place, want, slot in zip(places, wanted, row, strict=True)
        )

    # ---- what a course stands on ----

    def ground(
        self, course: Course, row: Sequence[Slot]
    ) -> tuple[dict[int, float], dict[int, Point]]:
        """Of each place of its ground, as the course numbers them: where it is along the ground's
        line, and its top."""
        if self.lines and course.ground is Ground.BELOW:
            return self.on_line(course)
        if course.ground is Ground.RING:
            return self.on_ring(course)
        if course.far:
            return self.on_both_sides(course)
        along = self.along(course, row)
        points = [self.frame.point(s, 0.0) for s in along]
        if course.founded:
            self.found(course, along)
        else:
            self.ghosts += points
        return dict(enumerate(along)), dict(enumerate(points))

    def along(self, course: Course, row: Sequence[Slot]) -> list[float]:
        """Where the places of a ground are that is drawn anew, along its line: where they were in
        the rings of the section before, else each under what stands on it."""
        room = max(1, course.room)
        if isinstance(self.frame, Rings) and self.before and course.ground is Ground.BELOW:
            last, was = self.before.lines[-1], self.before.frame
            places = last.course.places(room)
            if isinstance(was, Rings) and was.closed and was.straight == self.frame.straight:
                again = [_mean([last.placed[i].s for i in place]) for place in places]
                radius = was.radius(last.high) - self.frame.ground
                turned = Rings(was.radius(last.high), was.straight)
                again = [turned.over(s, 0.0, -radius) for s in again]
                return again if not course.back else again[::-1]
        between = skipped(course, row)
        total = sum(slot.wide for slot in row) + sum(between)
        spare = self.frame.length(0.0) - (self.seam(course) if self.frame.closed else 0.0)
        stretch = 1.0 if self.close else max(spare / total, 0.5)
        at, under = 0.0, dict[int, list[float]]()
        for slot, gap in zip(row, between, strict=False):
            at += gap
            step = slot.wide / (len(slot.stands) + 1)
            for nth, n in enumerate(slot.stands if self.forward else slot.stands[::-1], 1):
                under.setdefault(n, []).append((at + nth * step) * stretch)
            at += slot.wide
        known = {n: _mean(places) for n, places in under.items() if n < room}
        return _filled(known, room, self.forward)

    def on_line(self, course: Course) -> tuple[dict[int, float], dict[int, Point]]:
        under = self.lines[-1]
        places = under.course.places(course.room)
        order = [tuple(under.placed[i] for i in place) for place in places]
        order.sort(key=lambda place: _mean([each.s for each in place]))
        if not self.forward:
            order.reverse()
        along = {n: _mean([each.s for each in place]) for n, place in enumerate(order)}
        tops = {n: _middle([each.up for each in place]) for n, place in enumerate(order)}
        return along, tops

    def on_ring(self, course: Course) -> tuple[dict[int, float], dict[int, Point]]:
        count = len(course.founded)
        for n, chain in enumerate(course.founded):
            if count < 3:
                self.founded.append(
                    Placed(chain, (0.0, 0.45 * n - 0.45), (), 0.0, False, 0.0, (0.0, 0.0))
                )
            else:
                length = self.frame.length(0.0)
                self.founded.append(self.chain(chain, (n + 0.5) * length / count, 0.22))
        return {}, {}

    def on_both_sides(self, course: Course) -> tuple[dict[int, float], dict[int, Point]]:
        assert isinstance(self.frame, Rings)
        room, straight, bent = course.room, self.frame.straight, self.frame.length(0.0) / 2
        over = len(course.founded) - room
        for n, chain in enumerate(course.founded):
            x = straight / 2 - (n - over)
            self.founded.append(Placed(chain, (x, -0.25), (), 0.0, False, 0.0, (0.0, 0.0)))
        along = {n: float(n) for n in range(room)}
        along |= {room + n: bent + straight - n for n in range(room)}
        along[room - 1] = straight + (bent - straight) / 2
        along[room] = 1.5 * bent + straight / 2  # round the end that the work began at
        tops = {n: (straight / 2 - n % room, 0.0) for n in along}
        return along, tops

    def found(self, course: Course, along: Sequence[float]) -> None:
        """The chains of a foundation, under what stands on them; those that are skipped at the hook
        lie before them, on a ring they are left out of its step."""
        count, room = len(course.founded), len(along)
        over = count - room if self.flat else 0
        step = (along[-1] - along[0]) / (room - 1) if room > 1 else 1.0
        for n, chain in enumerate(course.founded):
            if self.flat:
                s = along[n - over] if n >= over else along[0] + (n - over) * step
            else:
                s = along[0] + (along[-1] - along[0]) * n / max(1, count - 1)
            self.founded.append(self.chain(chain, s, 0.0))

    def chain(self, stitch: Laid, s: float, z: float) -> Placed:
        top = self.frame.point(s, z)
        return Placed(stitch, top, (), self.upright(s, z), False, s, top)

    # ---- where its stitches go ----

    def wanted(
        self, course: Course, row: Sequence[Slot], ground: dict[int, float], high: float
    ) -> list[float]:
        """Where each slot would stand: over what it stands on; others between their neighbours."""
        if course.ground is Ground.RING:
            length = self.frame.length(high)
            total = sum(slot.wide for slot in row)
            total += self.seam(course) if self.frame.closed else 0.0
            stretch = length / total
            at, found = 0.0, list[float]()
            for slot in row:
                found.append((at + slot.wide / 2) * stretch)
                at += slot.wide
            return found
        over: list[float | None] = []
        for slot in row:
            places = [ground[n] for n in slot.stands if n in ground]
            # Of what is worked over two neighbours across the end of a round, one is far away.
            middle = self.around(places)
            over.append(None if middle is None else self.frame.over(middle, self.z, high))
        return _between(over, row, self.frame.length(high) if self.frame.closed else None)

    def around(self, places: Sequence[float]) -> float | None:
        if not places:
            return None
        if not self.frame.closed:
            return _mean(places)
        length = self.frame.length(self.z)
        first = places[0]
        near = [s - round((s - first) / length) * length for s in places]
        return _mean(near)

    def gaps(self, course: Course, row: Sequence[Slot]) -> list[float]:
        """From each slot to the next; on a closed line from the last one on to the first too."""
        wide = [slot.wide for slot in row]
        following = [*wide[1:], wide[0]]
        gaps = [(one + other) / 2 for one, other in zip(wide, following, strict=True)]
        if self.frame.closed:
            gaps[-1] += self.seam(course)
        return gaps

    def line(
        self,
        course: Course,
        row: Sequence[Slot],
        sharing: Counter[tuple[int, ...]],
        places: Sequence[float],
        high: float,
        tops: dict[int, Point],
    ) -> Line:
        placed: dict[int, Placed] = {}
        for slot, s in zip(row, places, strict=True):
            shares = bool(slot.stands) and sharing[slot.stands] > 1
            up: Point | None = None
            for member in reversed(slot.members):
                stands = course.stands[member.stitch]
                feet = tuple(tops[n] for n in stands if n in tops)
                made = self.placed(course, member, s, high, feet, shares)
                column = made.stitch.kind == "ch" and up is not None
                placed[member.stitch] = replace(made, up=up) if column and up else made
                up = up or made.top
        begin, end = places[0] - row[0].wide / 2, places[-1] + row[-1].wide / 2
        order = tuple(placed[n] for n in range(len(placed)))
        return Line(course, self.z, high, order, begin, end, self.forward)

    def placed(
        self,
        course: Course,
        member: Member,
        s: float,
        high: float,
        feet: tuple[Point, ...],
        shares: bool,
    ) -> Placed:
        aside = member.aside if self.forward else -member.aside
        z = self.z + member.top
        top = self.frame.point(self.frame.over(s + aside, high, z), z)
        turn = self.upright(s + aside, high)
        # A cross stays upright on its round: leaning, it would look like another sign.
        if len(feet) == 1 and course.ground is not Ground.RING and member.top - LEAST > 0.5:
            turn = _nearest(_lean(feet[0], top), turn)
        return Placed(course.stitches[member.stitch], top, feet, turn, shares, s + aside, top)

    def upright(self, s: float, z: float) -> float:
        """How far a stitch that stands straight on its line is turned."""
        low = max(0.0, z - 0.5)
        return _lean(
            self.frame.point(self.frame.over(s, z, low), low), self.frame.point(s, z + 0.01)
        )


def _fan(slot: Slot, sharing: Counter[tuple[int, ...]]) -> float:
    """How far those at the ends of a fan stand from its foot anyway."""
    return (sharing[slot.stands] - 1) * slot.wide / 2 if slot.stands else 9.0


def _between(
    over: Sequence[float | None], row: Sequence[Slot], length: float | None
) -> list[float]:
    """Those that stand on nothing are spread out between their neighbours."""
    known = [n for n, place in enumerate(over) if place is not None]
    if not known:
        at, found = 0.0, list[float]()
        stretch = length / sum(s.wide for s in row) if length else 1.0
        for slot in row:
            found.append((at + slot.wide / 2) * stretch)
            at += slot.wide
        return found
    found = [0.0 if place is None else place for place in over]
    for n in range(known[0] - 1, -1, -1):
        found[n] = found[n + 1] - (row[n].wide + row[n + 1].wide) / 2
    for n in range(known[-1] + 1, len(row)):
        found[n] = found[n - 1] + (row[n].wide + row[n - 1].wide) / 2
    for one, other in pairwise(known):
        for n in range(one + 1, other):
            found[n] = found[one] + (found[other] - found[one]) * (n - one) / (other - one)
    return found


def _filled(known: dict[int, float], room: int, rising: bool) -> list[float]:
    """A place for each of the ground's stitches: those that nothing stands on between the others,
    or on from them."""
    step = SKIPPED if rising else -SKIPPED
    if not known:
        return [n * step / SKIPPED for n in range(room)]
    order = sorted(known)
    found: list[float] = []
    for n in range(room):
        at = bisect_left(order, n)
        if n in known:
            found.append(known[n])
        elif at == 0:
            found.append(known[order[0]] - step * (order[0] - n))
        elif at == len(order):
            found.append(known[order[-1]] + step * (n - order[-1]))
        else:
            one, other = order[at - 1], order[at]
            share = (n - one) / (other - one)
            found.append(known[one] + (known[other] - known[one]) * share)
    return found


def _mean(values: Sequence[float]) -> float:
    return values[0] if len(values) == 1 else sum(values) / len(values)


def _middle(points: Sequence[Point]) -> Point:
    if len(points) == 1:
        return points[0]
    return _mean([x for x, _ in points]), _mean([y for _, y in points])


def _lean(foot: Point, top: Point) -> float:
    """How far the way from a foot to a top is turned from upright, clockwise."""
    return degrees(atan2(top[0] - foot[0], foot[1] - top[1]))


def _nearest(lean: float, upright: float) -> float:
    """A stitch leans no farther than 60 degrees."""
    off = (lean - upright + 180) % 360 - 180
    return upright + max(-60.0, min(60.0, off))
