"""The outline of a piece, to scale over a ruler, with a dot for each round.

The start is at the top, as in the column of bars. Flat pieces are drawn from above.
"""

from __future__ import annotations

from math import pi

from roundproof.drawing.profile import Profile, Ring
from roundproof.drawing.shapes import (
    Box,
    Circle,
    Drawing,
    Line,
    Path,
    Shape,
    Text,
    polygon,
)
from roundproof.frozen import dataclass
from roundproof.measure.model import Form

HALF = 138.0
TALLEST = 300.0
LARGER = 2.5
MOST_DOTS = 60
RULES = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 100_000)
"""Divisions a ruler may have, in mm."""


@dataclass(frozen=True, slots=True)
class Outline:
    """`above`: seen from above; `ruled`: has a ruler; `dot`: rounds a dot stands for."""

    drawing: Drawing
    above: bool
    ruled: bool
    dot: int


def outline(profile: Profile, id: str, title: str, across: float = 0.0) -> Outline | None:
    """None for a piece without extent. `across` is the width of the pattern's widest piece: small
    pieces are drawn up to LARGER times as large as that one, and no more."""
    above = profile.flat and profile.form is not Form.ROWS
    wide, high = _extent(profile, above)
    if wide <= 0:
        return None
    scale = 2 * HALF / max(wide, across / LARGER)
    scale = min(scale, TALLEST / high) if high > 0 else scale
    shapes = _above(profile, scale) if above else _side(profile, scale)
    bottom = max(high * scale, 1.0)
    if profile.measured:
        shapes += _ruler(scale, bottom + 20)
    box = Box(-172, -12, 344, bottom + 12 + (58 if profile.measured else 12))
    dot = profile.every * max(1, -(-len(profile.rings) // MOST_DOTS))
    return Outline(Drawing(tuple(shapes), "outline", box, title, id), above, profile.measured, dot)


def _extent(profile: Profile, above: bool) -> tuple[float, float]:
    return profile.width, profile.depth if above else profile.height


def _side(profile: Profile, scale: float) -> list[Shape]:
    half = profile.straight / 2
    start = profile.opening if profile.opening else 0.0
    right = [((start + half) * scale, 0.0)]
    right += [((ring.radius + half) * scale, ring.height * scale) for ring in profile.rings]
    points = right + [(-x, y) for x, y in reversed(right)]
    every = max(1, -(-len(profile.rings) // MOST_DOTS))
    dots = [Circle(side * x, y, 2, "dot") for x, y in right[1::every] for side in (-1, 1)]
    return [polygon(points, "body"), *_turns(profile, scale), *dots, _number(profile, scale)]


def _turns(profile: Profile, scale: float) -> list[Shape]:
    """A dashed line where the yarn changes, and the letters on either side of it."""
    half, shapes = profile.straight / 2, list[Shape]()
    runs = _runs(profile.rings)
    for place, run in enumerate(runs):
        top, low = run[0], run[-1]
        if place:
            before = runs[place - 1][-1]
            x, y = (before.radius + half) * scale, before.height * scale
            shapes.append(Line(-x, y, x, y, "turn"))
            top = before
        middle = (top.height + low.height) / 2 * scale
        if low.mark.letter and len(runs) > 1 and (low.height - top.height) * scale >= 16:
            shapes.append(Text(0, middle, low.mark.letter, anchor="middle", dy=".36em"))
    return shapes


def _runs(rings: tuple[Ring, ...]) -> list[list[Ring]]:
    runs: list[list[Ring]] = []
    for ring in rings:
        if runs and runs[-1][-1].mark == ring.mark:
            runs[-1].append(ring)
        else:
            runs.append([ring])
    return runs


def _number(profile: Profile, scale: float) -> Text:
    """The number of the widest round, inside where there is room, beside it where not."""
    ring = profile.widest
    x = (ring.radius + profile.straight / 2) * scale
    inside = x > 66 and profile.height * scale > 30
    y = max(14.0, min(ring.height * scale, max(profile.height * scale - 8, 14.0)))
    label = f"R{ring.number}"
    return Text(x - 10 if inside else x + 8, y, label, "", "end" if inside else "start", ".36em")


def _above(profile: Profile, scale: float) -> list[Shape]:
    """Rings one in the other, each a round; the widest is the edge."""
    middle, edge = profile.depth / 2 * scale, profile.widest
    rings = profile.rings[: profile.rings.index(edge) + 1]
    shapes: list[Shape] = [stadium(edge.radius * scale, profile.straight * scale, middle, "body")]
    shapes += [
        stadium(ring.radius * scale, profile.straight * scale, middle, "scale")
        for ring in rings[:-1]
        if ring.radius > 0
    ]
    return shapes


def stadium(radius: float, straight: float, y: float = 0.0, css: str = "") -> Path:
    """A circle of `radius`, or two half circles with straight sides between them."""
    half = straight / 2
    return Path(
        (
            ("M", -half, y - radius),
            ("L", half, y - radius),
            ("A", radius, radius, 0, 0, 1, half, y + radius),
            ("L", -half, y + radius),
            ("A", radius, radius, 0, 0, 1, -half, y - radius),
            ("Z",),
        ),
        css,
    )


def perimeter(radius: float, straight: float) -> float:
    return 2 * pi * radius + 2 * straight


def _ruler(scale: float, y: float) -> list[Shape]:
    """Whole divisions, as many as the drawing is wide: labelled at both ends."""
    least = 2 * HALF / scale / 12
    step = next((rule for rule in RULES if rule >= least), RULES[-1])
    count = max(1, int(2 * HALF / scale / step + 1e-9))
    left, width = -count * step * scale / 2, step * scale
    way: list[tuple[str | float, ...]] = [("M", left, y), ("L", left + count * width, y)]
    for place in range(count + 1):
        long = place in (0, count)
        way += [("M", left + place * width, y), ("L", left + place * width, y + (8 if long else 5))]
    return [
        Path(tuple(way), "scale"),
        Text(left, y + 26, "0", anchor="middle"),
        Text(-left, y + 26, length_words(count * step), anchor="middle"),
    ]


def length_words(millimetres: float) -> str:
    """ "6 cm", "5 mm", "1.2 m"."""
    if millimetres < 10:
        return f"{millimetres:g} mm"
    if millimetres < 1000:
        return f"{millimetres / 10:g} cm"
    return f"{millimetres / 1000:g} m"
