"""Hairlines that leave room for the words written on them, whatever the ground is."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from roundproof.drawing.shapes import Box, Path, Shape
from roundproof.frozen import replace

_GIVE_WAY = frozenset({"faint", "dashed"})

Point = tuple[float, float]
Steps = list[tuple[str | float, ...]]


def cleared(shapes: Iterable[Shape], words: Sequence[Box]) -> Iterator[Shape]:
    """The shapes, with gaps in straight hairlines where they would run through words."""
    for shape in shapes:
        if isinstance(shape, Path) and shape.css in _GIVE_WAY:
            if all(step[0] in ("M", "L") for step in shape.steps):
                shape = replace(shape, steps=tuple(_steps(shape, words)))
            if not shape.steps:
                continue
        yield shape


def _steps(path: Path, words: Sequence[Box]) -> Steps:
    steps: Steps = []
    at: Point = (0.0, 0.0)
    for letter, *to in path.steps:
        end = float(to[0]), float(to[1])
        if letter == "L":
            for one, two in _kept(at, end, words):
                if not steps or steps[-1][1:] != one:
                    steps.append(("M", *one))
                steps.append(("L", *two))
        at = end
    return steps


def _kept(start: Point, end: Point, words: Sequence[Box]) -> Iterator[tuple[Point, Point]]:
    """The parts of a line that lie outside all words."""
    gone = sorted(gap for box in words if (gap := _within(start, end, box)) is not None)
    at = 0.0
    for low, high in [*gone, (1.0, 1.0)]:
        if low > at:
            yield _point(start, end, at), _point(start, end, low)
        at = max(at, high)


def _point(start: Point, end: Point, share: float) -> Point:
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share


def _within(start: Point, end: Point, box: Box) -> tuple[float, float] | None:
    """From where to where, as shares of it, a line runs through a box (Liang and Barsky, 1984)."""
    low, high = 0.0, 1.0
    sides = ((box.x, box.x + box.width), (box.y, box.y + box.height))
    for axis, (near, far) in enumerate(sides):
        step = end[axis] - start[axis]
        if abs(step) < 1e-12:
            if not near <= start[axis] <= far:
                return None
            continue
        one, two = sorted(((near - start[axis]) / step, (far - start[axis]) / step))
        low, high = max(low, one), min(high, two)
    return (low, high) if low < high else None
