"""Pieces as they look, to scale, in mm: from the side (a little from above), from above, as limbs.

Every ring is a round, or as many rounds as the profile says. Shapes come in the order in which
they are painted.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import cos, pi, sin, sqrt

from roundproof.drawing.profile import Profile, Ring
from roundproof.drawing.shapes import Path, Shape, polygon, stadium
from roundproof.drawing.yarns import YarnMark
from roundproof.frozen import dataclass
from roundproof.measure.model import Form

TILT = 0.2
"""Sine of the angle from which a side view looks down."""
LEAN = sqrt(1 - TILT * TILT)
WAVES = 144

Steps = tuple[tuple[str | float, ...], ...]


@dataclass(frozen=True, slots=True)
class Skirt:
    """A piece grown out of a ring of another, seen on that other: so far out from it, and wavy if
    there is more of it than the circle holds."""

    depth: float
    mark: YarnMark
    wavy: bool


Skirts = Mapping[int, Skirt]
"""By the place of the ring, in the host's profile, that a skirt grows from."""


def from_side(profile: Profile, skirts: Skirts) -> list[Shape]:
    """Painted from the end of the piece up to its start, which is at the top, at y = 0."""
    rings = _with_start(profile)
    edge: list[Shape] = []
    inner: list[Shape] = []
    for place in range(len(rings) - 1, 0, -1):
        band = _band(rings[place - 1], rings[place])
        css = f"yarn {rings[place].mark.css}"
        edge.append(Path(band, css))
        inner.append(Path(band, css + " inner"))
        inner.append(Path(_front(rings[place]), f"seam {rings[place].mark.css}"))
        if (skirt := skirts.get(place - 1)) is not None:
            inner.append(_wavy_ellipse(rings[place], skirt))
            inner.append(Path(_ellipse(rings[place]), f"seam {skirt.mark.css}"))
    return [*edge, *inner]


def _with_start(profile: Profile) -> list[Ring]:
    first = profile.rings[0]
    return [Ring(0, profile.opening, 0.0, first.mark), *profile.rings]


def _band(upper: Ring, lower: Ring) -> Steps:
    """Between two rings, with the whole ellipse of each."""
    top, low = upper.height * LEAN, lower.height * LEAN
    return (
        ("M", -upper.radius, top),
        ("L", -lower.radius, low),
        ("A", lower.radius, TILT * lower.radius, 0, 0, 0, lower.radius, low),
        ("L", upper.radius, top),
        ("A", upper.radius, TILT * upper.radius, 0, 0, 0, -upper.radius, top),
        ("Z",),
        *_ellipse(lower),
    )


def _ellipse(ring: Ring) -> Steps:
    y, across = ring.height * LEAN, TILT * ring.radius
    return (
        ("M", -ring.radius, y),
        ("A", ring.radius, across, 0, 0, 0, ring.radius, y),
        ("A", ring.radius, across, 0, 0, 0, -ring.radius, y),
        ("Z",),
    )


def _front(ring: Ring) -> Steps:
    y = ring.height * LEAN
    return (
        ("M", -ring.radius, y),
        ("A", ring.radius, TILT * ring.radius, 0, 0, 0, ring.radius, y),
    )


def _wavy_ellipse(ring: Ring, skirt: Skirt) -> Path:
    """A frill stands out and waves up and down."""
    count = _waves(2 * pi * ring.radius, skirt)
    points = []
    for step in range(WAVES):
        angle = 2 * pi * step / WAVES
        rise = 0.3 * skirt.depth * sin(count * angle) if skirt.wavy else 0.0
        reach = ring.radius + skirt.depth
        y = ring.height * LEAN + TILT * reach * cos(angle) + rise
        points.append((reach * sin(angle), y))
    return polygon(points, f"yarn {skirt.mark.css}")


def _waves(length: float, skirt: Skirt) -> int:
    """A wave is about three times as long as the frill is deep."""
    return max(6, min(WAVES // 4, round(length / max(3 * skirt.depth, 1e-6))))


def from_above(profile: Profile, skirts: Skirts) -> list[Shape]:
    """Centred on (0, 0): what can be seen, from the start as far as the widest round."""
    edge = profile.widest
    last = profile.rings.index(edge)
    shapes: list[Shape] = [
        _wavy_stadium(profile.rings[min(place, last)], profile.straight, skirt)
        for place, skirt in skirts.items()
    ]
    shapes.append(stadium(edge.radius, profile.straight, 0, f"yarn {edge.mark.css}"))
    before = edge.mark
    for ring in reversed(profile.rings[:last]):
        if ring.radius <= 0 or ring.radius >= edge.radius:
            continue
        if ring.mark != before:
            css = f"yarn {ring.mark.css} inner"
            shapes.append(stadium(ring.radius, profile.straight, 0, css))
        shapes.append(stadium(ring.radius, profile.straight, 0, f"seam {ring.mark.css}"))
        before = ring.mark
    return shapes


def _wavy_stadium(ring: Ring, straight: float, skirt: Skirt) -> Path:
    count = _waves(perimeter(ring.radius, straight), skirt)
    points = []
    for step in range(WAVES):
        turn = step / WAVES
        x, y, out_x, out_y = at_turn(turn, ring.radius, straight)
        wave = 0.3 * skirt.depth * cos(2 * pi * count * turn) if skirt.wavy else 0.0
        reach = skirt.depth + wave
        points.append((x + out_x * reach, y + out_y * reach))
    return polygon(points, f"yarn {skirt.mark.css}")


def at_turn(turn: float, radius: float, straight: float) -> tuple[float, float, float, float]:
    """A point of a stadium and the way out from there: x, y, and a unit vector. `turn` 0 is the
    top, 0.25 about the left."""
    way, half = (turn % 1) * perimeter(radius, straight), straight / 2
    arc = pi * radius
    if way <= half:
        return -way, -radius, 0.0, -1.0
    if way <= half + arc:
        angle = (way - half) / radius if radius else 0.0
        return -half - radius * sin(angle), -radius * cos(angle), -sin(angle), -cos(angle)
    if way <= half + arc + straight:
        return way - half - arc - half, radius, 0.0, 1.0
    if way <= half + 2 * arc + straight:
        angle = (way - half - arc - straight) / radius if radius else 0.0
        return half + radius * sin(angle), radius * cos(angle), sin(angle), cos(angle)
    return perimeter(radius, straight) - way, -radius, 0.0, -1.0


def limb(profile: Profile) -> list[Shape]:
    """Lying on the page: the end of the piece at (0, 0), its start away from there, upwards."""
    top, rings = profile.height, _with_start(profile)
    half = profile.straight / 2
    shapes: list[Shape] = []
    for run in _runs(rings):
        right = [(ring.radius + half, ring.height - top) for ring in run]
        points = right + [(-x, y) for x, y in reversed(right)]
        shapes.append(polygon(points, f"yarn {run[-1].mark.css}"))
        shapes += [_seam(ring, half, top, profile.form) for ring in run[1:-1]]
    return shapes


def perimeter(radius: float, straight: float) -> float:
    """Round a circle, or two half circles and the straight sides between them."""
    return 2 * pi * radius + 2 * straight


def _runs(rings: Sequence[Ring]) -> list[list[Ring]]:
    """Rings of one yarn; each run begins with the ring that the one before it ends with."""
    runs: list[list[Ring]] = [[rings[0]]]
    for ring in rings[1:]:
        if len(runs[-1]) > 1 and ring.mark != runs[-1][-1].mark:
            runs.append([runs[-1][-1]])
        runs[-1].append(ring)
    return runs


def _seam(ring: Ring, half: float, top: float, form: Form) -> Path:
    x, y = ring.radius + half, ring.height - top
    sag = 0.0 if form is Form.ROWS else 0.3 * x
    return Path((("M", -x, y), ("Q", 0, y + sag, x, y)), f"seam {ring.mark.css}")
