"""Which rounds of a chart are drawn together, and how: few sections, none much stretched."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from math import pi

from roundproof.drawing.chart.frames import Frame, Rings, Strip
from roundproof.drawing.chart.slots import line_high, skipped, slots
from roundproof.fabric.courses import Course, Ground
from roundproof.frozen import dataclass

STRETCHED = 2.0
"""So many times the room that its stitches need is the most a round is given."""
LARGEST = 14.5
"""The radius of the largest ring; what is larger is unrolled."""
MOST_LINES = 40
"""Lines of one section."""
SMALL = 0.35
"""The radius of a ring that stitches are worked into."""
COST = 25.0
"""A section more is worth so many rounds stretched to twice their room."""
STEP = 12.0
"""A line that doubles the one before it, among unrolled ones, is worth so many."""


@dataclass(frozen=True, slots=True)
class Plan:
    """The next `count` courses, in a frame."""

    count: int
    frame: Frame


@dataclass(frozen=True, slots=True)
class _Need:
    """The room that a course needs along its line, and how high it is."""

    wide: float
    high: float


def plans(
    courses: Sequence[Course], rows: bool, straight: float, seam: Callable[[Course], float]
) -> Iterator[Plan]:
    """The best way to share out all these courses, in order. `seam` tells how much room the number
    of a round needs between its end and its beginning."""
    needs = [_need(course, 0.0 if rows else seam(course)) for course in courses]
    count = len(courses)
    best: list[tuple[float, int, Frame | None]] = [(0.0, 0, None)] * (count + 1)
    for begin in range(count - 1, -1, -1):
        best[begin] = min(
            (
                (COST + stretched + best[begin + long][0], long, frame)
                for long, stretched, frame in _runs(courses, needs, begin, rows, straight)
            ),
            key=lambda each: each[0],
        )
    at = 0
    while at < count:
        _, long, frame = best[at]
        assert frame is not None
        yield Plan(long, frame)
        at += long


def _need(course: Course, seam: float) -> _Need:
    row = slots(course)
    wide = sum(slot.wide for slot in row)
    if course.ground in (Ground.EDGE, Ground.BELOW):
        wide += sum(skipped(course, row))
    return _Need(wide + seam, line_high(course, row))


def _runs(
    courses: Sequence[Course], needs: Sequence[_Need], begin: int, rows: bool, straight: float
) -> Iterator[tuple[int, float, Frame]]:
    """Every run from `begin` on that may be a section: its length, how much it is stretched, its
    frame. The run of one course alone is always among them."""
    first = courses[begin]
    most = 1
    while (
        begin + most < len(courses)
        and most < MOST_LINES
        and courses[begin + most].ground is Ground.BELOW
    ):
        most += 1
    run = needs[begin : begin + most]
    if first.ground is Ground.RING:
        yield from _fanned(run) if rows else _growing(run, SMALL, 0.0, sure=True)
    elif first.far and first.ground is Ground.CHAIN:
        yield from _growing(run, 0.5, float(first.room - 1), sure=True)
    elif rows:
        for long in range(1, most + 1):
            yield long, 0.0, Strip(max(need.wide for need in run[:long]))
    else:
        yield from _unrolled(run)
        yield from _growing(run, 1.0, straight, first.room)
        yield from _closing(run, straight, first.room)


def _unrolled(run: Sequence[_Need]) -> Iterator[tuple[int, float, Frame]]:
    """Lines one over the other, which suit rounds of the same length best."""
    widest, changes = 0.0, 0.0
    for long, need in enumerate(run, 1):
        if long > 1:
            before = run[long - 2].wide
            changes += abs(need.wide - before) / min(need.wide, before)
        widest = max(widest, need.wide)
        yield long, STEP * changes, Strip(widest)


def _growing(
    run: Sequence[_Need], least: float, straight: float, room: int = 0, sure: bool = False
) -> Iterator[tuple[int, float, Frame]]:
    """Rings from the middle outwards; `sure` where the first course is always drawn so."""
    ground, heights = least, _heights(run)
    for long, (need, high) in enumerate(zip(run, heights, strict=True), 1):
        ground = max(ground, _radius(need.wide, straight) - high)
        found = _in_rings(run, [ground + each for each in heights[:long]], straight)
        if found is None or ground + high > LARGEST or _bare(ground, straight, room):
            if long > 1 or not sure:
                if long > 1:
                    return
                continue
            found = 0.0
        yield long, found, Rings(ground, straight)


def _closing(
    run: Sequence[_Need], straight: float, room: int
) -> Iterator[tuple[int, float, Frame]]:
    """Rings from the outside in. A run that is too short for them may fit when it goes on."""
    outer, heights = 0.0, _heights(run)
    for long, (need, high) in enumerate(zip(run, heights, strict=True), 1):
        outer = max(outer, _radius(need.wide, straight) + high)
        ground = max(high + SMALL, outer)
        if ground > LARGEST:
            return  # it only grows
        found = _in_rings(run, [ground - each for each in heights[:long]], straight)
        if found is not None and not _bare(ground, straight, room):
            yield long, found, Rings(ground, straight, inward=True)


def _bare(ground: float, straight: float, room: int) -> bool:
    """Whether the stitches of the ground would stand too far apart, or over each other."""
    long = 2 * pi * ground + 2 * straight
    return bool(room) and not 0.7 * room <= long <= 2 * STRETCHED * room


def _fanned(run: Sequence[_Need]) -> Iterator[tuple[int, float, Frame]]:
    """Rows from a ring, which stay open: part of a whole turn."""
    for long in range(1, len(run) + 1):
        heights = _heights(run[:long])
        turn = max(
            need.wide / (2 * pi * (SMALL + high)) for need, high in zip(run, heights, strict=False)
        )
        if turn > 0.94:
            if long > 1:
                return
            turn = 0.94
        found = sum(
            turn * 2 * pi * (SMALL + high) / need.wide - 1
            for need, high in zip(run, heights, strict=False)
        )
        yield long, found, Rings(SMALL, turn=turn)


def _heights(run: Sequence[_Need]) -> list[float]:
    total, found = 0.0, list[float]()
    for need in run:
        total += need.high
        found.append(total)
    return found


def _radius(wide: float, straight: float) -> float:
    return (wide - 2 * straight) / (2 * pi)


def _in_rings(run: Sequence[_Need], radii: Sequence[float], straight: float) -> float | None:
    """How much the first courses are stretched on rings; None if one is too much."""
    total = 0.0
    for need, radius in zip(run, radii, strict=False):
        stretch = (2 * pi * radius + 2 * straight) / need.wide
        if stretch > STRETCHED:
            return None
        total += stretch - 1
    return total
