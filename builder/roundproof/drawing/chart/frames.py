"""What the rounds of a chart run along: straight lines one over the other, or rings round a middle.

A frame has a line for every height `z` above its ground, and places `s` along each line in the
direction of work, all in stitch widths. A point is x to the right and y down, as in SVG.
"""

from __future__ import annotations

from itertools import pairwise
from math import cos, pi, sin
from typing import Protocol

from roundproof.frozen import dataclass

Point = tuple[float, float]
Steps = tuple[tuple[str | float, ...], ...]


class Frame(Protocol):
    @property
    def closed(self) -> bool:
        """Whether the end of a line meets its beginning."""

    def length(self, z: float) -> float:
        """How long the line at a height is."""

    def over(self, s: float, low: float, high: float) -> float:
        """The place on the line `high` that lies straight over the place `s` of the line `low`."""

    def point(self, s: float, z: float) -> Point:
        """Where a place is."""

    def way(self, start: float, end: float, z: float) -> Steps:
        """From one place of a line to another, for a path that has come there."""


@dataclass(frozen=True, slots=True)
class Strip:
    """Straight lines, worked from right to left; the next lies above."""

    wide: float

    @property
    def closed(self) -> bool:
        return False

    def length(self, z: float) -> float:
        return self.wide

    def over(self, s: float, low: float, high: float) -> float:
        return s

    def point(self, s: float, z: float) -> Point:
        return -s, -z

    def way(self, start: float, end: float, z: float) -> Steps:
        return (("L", *self.point(end, z)),)


@dataclass(frozen=True, slots=True)
class Rings:
    """Rings about a middle, or about a straight piece in the middle of an oval. Worked outwards and
    anticlockwise; seen from the end that closes, `inward`, the same work goes the other way round.
    `turn` is the part of a whole turn that rows take which are no rings. The ground has the radius
    `ground`; places begin at the top, on the right end of the straight piece."""

    ground: float
    straight: float = 0.0
    inward: bool = False
    turn: float = 1.0

    @property
    def closed(self) -> bool:
        return self.turn == 1.0

    def radius(self, z: float) -> float:
        radius = self.ground - z if self.inward else self.ground + z
        return radius if radius > 0.05 else 0.05

    def length(self, z: float) -> float:
        return 2 * pi * self.radius(z) * self.turn + 2 * self.straight

    def over(self, s: float, low: float, high: float) -> float:
        if not self.straight:
            return s * self.radius(high) / self.radius(low)
        lap, part, along = self._part(s, low)
        start = (0.0, self.straight, self.straight + pi * self.radius(high))
        begin = (*start, 2 * self.straight + pi * self.radius(high))[part]
        if part % 2:
            along *= self.radius(high) / self.radius(low)
        return lap * self.length(high) + begin + along

    def point(self, s: float, z: float) -> Point:
        radius, half = self.radius(z), self.straight / 2
        if not self.straight:
            # Rows that are no rings are centred on the top.
            turn = s / radius - (pi * self.turn if self.turn < 1 else 0.0)
            x, y = -radius * sin(turn), -radius * cos(turn)
        else:
            _, part, along = self._part(s, z)
            if part == 0:
                x, y = half - along, -radius
            elif part == 1:
                x, y = -half - radius * sin(along / radius), -radius * cos(along / radius)
            elif part == 2:
                x, y = along - half, radius
            else:
                x, y = half + radius * sin(along / radius), radius * cos(along / radius)
        return (-x if self.inward else x), y

    def way(self, start: float, end: float, z: float) -> Steps:
        radius, back = self.radius(z), end < start
        stops = [min(start, end), *self._stops(min(start, end), max(start, end), z)]
        sweep = int(self.inward != back)
        steps: list[tuple[str | float, ...]] = []
        for one, other in pairwise(reversed(stops) if back else stops):
            if self._part((one + other) / 2, z)[1] % 2 or not self.straight:
                steps.append(("A", radius, radius, 0, 0, sweep, *self.point(other, z)))
            else:
                steps.append(("L", *self.point(other, z)))
        return tuple(steps)

    def _stops(self, start: float, end: float, z: float) -> list[float]:
        """Where a way changes between straight and bent, or has gone a third of a turn, and its
        end."""
        radius, length = self.radius(z), self.length(z)
        if not self.straight:
            parts = max(1, int((end - start) / (2 * radius)) + 1)
            return [start + (end - start) * (n + 1) / parts for n in range(parts)]
        bent = pi * radius
        marks = [0.0, self.straight, self.straight + bent, 2 * self.straight + bent]
        marks += [mark + bent / 2 for mark in (marks[1], marks[3])]
        laps = range(int(start // length) - 1, int(end // length) + 2)
        between = sorted(
            mark + lap * length
            for lap in laps
            for mark in marks
            if start + 1e-6 < mark + lap * length < end - 1e-6
        )
        return [*between, end]

    def _part(self, s: float, z: float) -> tuple[int, int, float]:
        """Which time round, which of the four parts (straight, bent, straight, bent), how far along
        it."""
        bent, length = pi * self.radius(z), self.length(z)
        lap, left = divmod(s, length)
        for part, long in enumerate((self.straight, bent, self.straight)):
            if left < long:
                return int(lap), part, left
            left -= long
        return int(lap), 3, left
