"""A flat piece seen from above: rings one in the other, each a round; the widest is the edge."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, pi, sin

from roundproof.drawing.outlines.hatch import Area, Point, hatch
from roundproof.drawing.outlines.side import APART, DROP, ROOM, chosen, tone
from roundproof.drawing.profile import Profile, Ring
from roundproof.drawing.runs import lie, runs
from roundproof.drawing.shapes import Circle, Group, Rect, Shape, Text, stadium
from roundproof.drawing.yarns import YarnMark

CORNERS = 24
"""Of each half circle that cuts the hatching off."""


def from_above(profile: Profile, scale: float) -> list[Shape]:
    """The edge touches y = 0, in units."""
    rings = profile.rings[: profile.rings.index(profile.widest) + 1]
    radii = [round(ring.radius * scale, 1) for ring in rings]
    straight, middle = round(profile.straight * scale, 1), round(profile.depth / 2 * scale, 1)
    inner = round(profile.opening * scale, 1)
    shapes = _bands(rings, radii, straight, middle)
    if inner:
        shapes.append(_rim(inner, straight, middle, "paper"))
    shapes += _hatching(rings, [inner, *radii], straight, middle)
    rims = [_rim(radius, straight, middle) for radius in [inner, *radii[:-1]] if radius > 0]
    shapes += [Group(tuple(rims), "thin"), _rim(radii[-1], straight, middle, "edge")]
    marked = profile.whole[: profile.whole.index(profile.widest) + 1]
    numbers = _numbers(marked, [ring.radius * scale for ring in marked], middle)
    return [*shapes, *_letters(rings, [inner, *radii], middle), *numbers]


def _rim(radius: float, straight: float, middle: float, css: str = "") -> Shape:
    return stadium(radius, straight, middle, css) if straight else Circle(0, middle, radius, css)


def _mark(ring: Ring) -> YarnMark:
    return ring.mark


def _bands(
    rings: Sequence[Ring], radii: Sequence[float], straight: float, middle: float
) -> list[Shape]:
    """From the edge inwards: what lies further in is painted over it, with a dashed rim."""
    shapes: list[Shape] = []
    for run in reversed(runs(rings, _mark)):
        radius = radii[run.last]
        shapes.append(_rim(radius, straight, middle, tone(run.rings[0].mark)))
        if run.last < len(rings) - 1:
            shapes.append(_rim(radius, straight, middle, "dashed"))
    return shapes


def _hatching(
    rings: Sequence[Ring], radii: Sequence[float], straight: float, middle: float
) -> list[Shape]:
    shapes: list[Shape] = []
    for run in runs(rings, lie):
        lies = lie(run.rings[0])
        if lies is None or not lies.lines:
            continue
        hole = _corners(radii[run.first], straight, middle) if radii[run.first] else ()
        area = Area(_corners(radii[run.last + 1], straight, middle), hole)
        strokes = hatch([area], lies.lines)
        shapes += [strokes] if strokes else []
    return shapes


def _corners(radius: float, straight: float, middle: float) -> list[Point]:
    """A stadium as a polygon."""
    turns = [pi * (step / CORNERS - 0.5) for step in range(CORNERS + 1)]
    right = [(straight / 2 + radius * cos(t), middle + radius * sin(t)) for t in turns]
    return [*right, *((-x, 2 * middle - y) for x, y in right)]


def _letters(rings: Sequence[Ring], radii: Sequence[float], middle: float) -> list[Shape]:
    """The letter of its yarn in each band, straight below the middle."""
    grounds: list[Shape] = []
    letters: list[Shape] = []
    for run in runs(rings, _mark):
        mark, inner, outer = run.rings[0].mark, radii[run.first], radii[run.last + 1]
        if mark.letter and outer - inner >= ROOM:
            y = middle + (inner + outer) / 2
            grounds.append(Rect(-8, y - 7, 16, 14, tone(mark)))
            letters.append(Text(0, y + DROP, mark.letter, "", "middle"))
    return [*grounds, Group(tuple(letters), "strong")]


def _numbers(rings: Sequence[Ring], radii: Sequence[float], middle: float) -> list[Shape]:
    """Numbers where the rings cross the line straight up from the middle, as depths stand in the
    lines of a chart."""
    grounds: list[Shape] = []
    words: list[Shape] = []
    for place in chosen(rings, radii, APART + 1):
        y, number = middle - radii[place], f"R{rings[place].number}"
        if radii[place] < APART and place == 0:
            y = middle
        half = 4.5 + 3.5 * (len(number) - 1)
        grounds.append(Rect(-half, y - 7, 2 * half, 14, tone(rings[place].mark)))
        words.append(Text(0, y + DROP, number, "", "middle"))
    return [*grounds, Group(tuple(words), "words")]
