"""Strokes are held to their areas: a point lies in a convex polygon if it is on one side of all its
edges (school geometry)."""

from itertools import pairwise
from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roundproof.drawing.outlines.hatch import Area, Lines, Point, hatch
from roundproof.drawing.shapes import Path

SQUARE = [(0.0, 0.0), (40.0, 0.0), (40.0, 40.0), (0.0, 40.0)]
MIDDLE = [(10.0, 10.0), (30.0, 10.0), (30.0, 30.0), (10.0, 30.0)]


def strokes(path: Path | None) -> list[tuple[Point, Point]]:
    found, at = [], (0.0, 0.0)
    for letter, *numbers in path.steps if path else ():
        x, y = (float(n) for n in numbers) if len(numbers) == 2 else (float(numbers[0]), 0.0)
        to = (x, y) if letter == "M" else (at[0] + x, at[1] + y)
        if letter == "l":
            found.append((at, to))
        at = to
    return found


def inside(point: Point, polygon: list[Point], slack: float = 0.0) -> bool:
    x, y = point
    sides = []
    for (ax, ay), (bx, by) in pairwise([*polygon, polygon[0]]):
        long = hypot(bx - ax, by - ay)
        if long:
            sides.append(((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / long)
    return min(sides) >= -slack or max(sides) <= slack


@pytest.mark.parametrize("rise", [1, -1])
def test_strokes_are_parallel_so_far_apart_and_cover_the_area(rise: int) -> None:
    found = strokes(hatch([Area(SQUARE)], [Lines(rise, 5)]))
    offsets = sorted(y - rise * x for (x, y), _ in found)
    assert all(b - a == pytest.approx(5 * 2**0.5, abs=0.21) for a, b in pairwise(offsets))
    for (x, y), (to_x, to_y) in found:
        assert to_y - y == pytest.approx(rise * (to_x - x), abs=0.11)
    # As long together as an area of 40 by 40 takes with lines 5 apart.
    long = sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in found)
    assert long == pytest.approx(40 * 40 / 5, rel=0.06)


def test_a_hole_stays_empty() -> None:
    for one, other in strokes(hatch([Area(SQUARE, MIDDLE)], [Lines(1, 3), Lines(-1, 3)])):
        middle = ((one[0] + other[0]) / 2, (one[1] + other[1]) / 2)
        assert inside(middle, SQUARE, 0.2)
        assert not inside(middle, MIDDLE, -0.2)


def test_strokes_go_on_from_one_area_to_the_next() -> None:
    upper = [(0.0, 0.0), (40.0, 0.0), (40.0, 20.0), (0.0, 20.0)]
    lower = [(0.0, 20.0), (40.0, 20.0), (40.0, 40.0), (0.0, 40.0)]
    both = hatch([Area(upper), Area(lower)], [Lines(1, 4)])
    assert both == hatch([Area(SQUARE)], [Lines(1, 4)])


def test_no_room_gives_nothing() -> None:
    flat = [(0.0, 5.0), (40.0, 5.0), (40.0, 5.0), (0.0, 5.0)]
    assert hatch([Area(flat)], [Lines(1, 4)]) is None
    assert hatch([], [Lines(1, 4)]) is None
    assert hatch([Area(SQUARE)], []) is None


half = st.floats(0, 200)


@given(half, half, st.floats(0, 100), st.sampled_from((1, -1)), st.floats(3, 12))
def test_no_stroke_leaves_a_band(x: float, to_x: float, y: float, rise: int, gap: float) -> None:
    band = [(-x, 0.0), (x, 0.0), (to_x, y), (-to_x, y)]
    for stroke in strokes(hatch([Area(band)], [Lines(rise, gap)])):
        assert all(inside(end, band, 0.2) for end in stroke)
