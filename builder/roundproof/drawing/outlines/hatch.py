"""Hatching as plain strokes, cut off where an area ends, so that it looks alike on every screen,
on paper and in programs that know no patterns.

The strokes of all areas lie on the same lines: they go on from one round to the next.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil, floor, sqrt

from roundproof.drawing.shapes import Path, compact
from roundproof.frozen import dataclass

Point = tuple[float, float]
Span = tuple[float, float]
SHORTEST = 0.6
"""A stroke shorter than this, along x, is left away."""


@dataclass(frozen=True, slots=True)
class Area:
    """A convex polygon, with a convex hole within or none."""

    edge: Sequence[Point]
    hole: Sequence[Point] = ()


@dataclass(frozen=True, slots=True)
class Lines:
    """Parallel lines: `rise` 1 falls from left to right on the screen, -1 rises; `gap` between."""

    rise: int
    gap: float


def hatch(areas: Sequence[Area], lines: Sequence[Lines], css: str = "hatch") -> Path | None:
    """The strokes over all areas; None where there is no room for one."""
    steps: list[tuple[str | float, ...]] = []
    for each in lines:
        for offset, (start, end) in _strokes(areas, each):
            steps.append(("M", start, each.rise * start + offset))
            steps.append(("L", end, each.rise * end + offset))
    return compact(Path(tuple(steps), css)) if steps else None


def _strokes(areas: Sequence[Area], lines: Lines) -> Iterator[tuple[float, Span]]:
    """Each stroke by where its line crosses x = 0 and by its extent along x."""
    found: dict[int, list[Span]] = {}
    step = lines.gap * sqrt(2)
    for area in areas:
        sums = [y - lines.rise * x for x, y in area.edge]
        for place in range(ceil(min(sums) / step), floor(max(sums) / step) + 1):
            whole = _cut(area.edge, lines.rise, place * step)
            if whole is None:
                continue
            hole = _cut(area.hole, lines.rise, place * step)
            found.setdefault(place, []).extend(_without(whole, hole))
    for place in sorted(found):
        for span in _joined(found[place]):
            if span[1] - span[0] >= SHORTEST:
                yield place * step, span


def _cut(polygon: Sequence[Point], rise: int, offset: float) -> Span | None:
    """Where the line y = rise * x + offset lies in a convex polygon, along x."""
    met: list[float] = []
    for (x, y), (to_x, to_y) in zip(polygon, [*polygon[1:], *polygon[:1]], strict=True):
        here, there = y - rise * x - offset, to_y - rise * to_x - offset
        if here == 0:
            met.append(x)
        elif here * there < 0:
            met.append(x + here / (here - there) * (to_x - x))
    return (min(met), max(met)) if met else None


def _without(whole: Span, hole: Span | None) -> list[Span]:
    if hole is None:
        return [whole]
    return [(whole[0], min(whole[1], hole[0])), (max(whole[0], hole[1]), whole[1])]


def _joined(spans: Sequence[Span]) -> list[Span]:
    """Strokes that touch are one."""
    joined: list[Span] = []
    for start, end in sorted(span for span in spans if span[1] > span[0]):
        if joined and start <= joined[-1][1] + 0.05:
            joined[-1] = (joined[-1][0], max(joined[-1][1], end))
        else:
            joined.append((start, end))
    return joined
