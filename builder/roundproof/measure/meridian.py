"""The line a piece draws from its start up: radius and height round by round.

A piece worked in the round is taken for a surface of revolution. Each round is one step of its
height along the surface: it goes out by as much as the circle grows, and up by what is left of
the step (derived; meridian model). A circle that grows faster than the step is long cannot lie
round: it ruffles, and is taken to stand straight out. One that shrinks faster draws the round
below together, and is as wide as its own stitches.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot, pi, sqrt

from roundproof.frozen import dataclass
from roundproof.measure.bands import Band


@dataclass(frozen=True, slots=True)
class Point:
    """The upper edge of a round: `radius` and `height` in mm as the fabric can lie, and `natural`,
    the radius of a circle of the round's own length."""

    radius: float
    height: float
    natural: float

    @property
    def fullness(self) -> float:
        """Length of the round over the circle it lies on."""
        return self.natural / self.radius if self.radius > 0 else 1.0


def step(radius: float, wanted: float, height: float) -> tuple[float, float]:
    """The radius reached and the rise of one round of `height` that starts at `radius` and whose
    own circle has the radius `wanted`, all in mm (derived; meridian model)."""
    change = min(wanted - radius, height)
    return radius + change, sqrt(max(height**2 - change**2, 0.0))


def meridian(
    bands: Sequence[Band], natural: Sequence[float], start: float | None
) -> tuple[Point, ...]:
    """The points of a piece from the start up. `natural` gives each band's own radius; `start` is
    the radius it grows from, or None for a start drawn shut.

    Round 1 of a closed start rises a little where its circle is smaller than a round is high, and
    leaves a hole where it is larger."""
    points: list[Point] = []
    radius, height = start or 0.0, 0.0
    for band, wanted in zip(bands, natural, strict=True):
        if start is None and not points and wanted > band.height:
            radius = wanted - band.height
        if (back := _grows_from(band, points, bands)) is not None:
            radius, height = back
        radius, rise = step(radius, wanted, band.height)
        height += rise
        points.append(Point(radius, height, wanted))
    return tuple(points)


def closing_rise(point: Point, height: float) -> float:
    """How much further a piece reaches when its last round is drawn shut: one more step to the
    axis (derived; meridian model)."""
    return step(point.radius, 0.0, height)[1]


def frustum(lower: float, upper: float, rise: float) -> float:
    """Volume of a slice between two circles, in mm³ (textbook: frustum of a cone)."""
    return pi / 3 * rise * (lower**2 + lower * upper + upper**2)


def band_area(lower: float, upper: float, rise: float) -> float:
    """Surface of a slice between two circles, in mm² (textbook: frustum of a cone)."""
    return pi * (lower + upper) * hypot(upper - lower, rise)


@dataclass(frozen=True, slots=True)
class Stadium:
    """Two half circles joined by straights: `straight` and `radius` in mm (derived; the shape of
    a piece worked down both sides of a chain)."""

    straight: float
    radius: float

    @property
    def length(self) -> float:
        return self.straight + 2 * self.radius

    @property
    def width(self) -> float:
        return 2 * self.radius

    @property
    def perimeter(self) -> float:
        return 2 * self.straight + 2 * pi * self.radius

    @property
    def area(self) -> float:
        return 2 * self.straight * self.radius + pi * self.radius**2


def stadium_slice(straight: float, lower: float, upper: float, rise: float) -> float:
    """Volume of a slice between two stadiums of the same straights, in mm³ (derived: the frustum
    of the ends and the prism between them)."""
    return frustum(lower, upper, rise) + straight * rise * (lower + upper)


def _grows_from(
    band: Band, points: Sequence[Point], bands: Sequence[Band]
) -> tuple[float, float] | None:
    """Where a round starts that goes into loops an earlier round left free: a second surface
    grows from that round's circle."""
    if band.into is None:
        return None
    for earlier, point in zip(reversed(bands[: len(points)]), reversed(points), strict=True):
        if earlier.number == band.into:
            return point.radius, point.height
    return None
