"""Where the places of a piece are in a view of it: from the side, or from above onto a flat one.

The start is at the top, the front towards whoever looks. Worked right-handed, right side out, later
stitches are then to the right; the mirror image of that is drawn for the other hand.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from math import cos, pi, sin

from roundproof.drawing.profile import Profile, Ring
from roundproof.drawing.views import at_turn
from roundproof.frozen import dataclass
from roundproof.measure.model import Form

_STEPS = 60
"""Straight parts in which a round is drawn that is seen from above."""

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Frame:
    """A view of a piece: `scale` units a mm, the middle of its start at (x, y) from the side, its
    own middle there from above. `view` is the turn that is towards whoever looks, `hand` -1 for
    the mirror image. From above, `below` looks at the other side of the piece."""

    profile: Profile
    scale: float
    x: float
    y: float
    view: float = 0.0
    hand: int = 1
    above: bool = False
    below: bool = False

    @property
    def rings(self) -> Sequence[Ring]:
        return self.profile.rings

    def height(self, rounds: float) -> float:
        """How far from its start the piece has come after so many rounds, in mm."""
        return self._between([0.0, *(ring.height for ring in self.rings)], rounds)

    def radius(self, rounds: float) -> float:
        return self._between([self.profile.opening, *(r.radius for r in self.rings)], rounds)

    def _between(self, values: list[float], rounds: float) -> float:
        first = self.rings[0].number - 1
        numbers = [min(first, 0), *(ring.number for ring in self.rings)]
        at = max(1, min(len(numbers) - 1, bisect_right(numbers, rounds)))
        low, high = numbers[at - 1], numbers[at]
        share = max(0.0, min(1.0, (rounds - low) / (high - low))) if high > low else 1.0
        return values[at - 1] + share * (values[at] - values[at - 1])

    def at(self, turn: float, rounds: float) -> Point:
        """Where a place is drawn; what is turned away lies behind what is not."""
        radius = self.radius(rounds) * self.scale
        if self.profile.form is Form.ROWS:
            x = 2 * radius * (turn - self.view) * self.hand
            return self.x + x, self.y + self.height(rounds) * self.scale
        straight = self.profile.straight * self.scale
        left, up, _, _ = at_turn(turn, radius, straight)
        if self.above:
            side = -self.hand if not self.below else self.hand
            return self.x + side * left, self.y - up
        angle = 2 * pi * self.view
        x = -left * cos(angle) + up * sin(angle)
        return self.x + self.hand * x, self.y + self.height(rounds) * self.scale

    def faces(self, turn: float) -> float:
        """How much a place is turned to whoever looks: 1 wholly, 0 at the edge, -1 away."""
        if self.above or self.profile.form is Form.ROWS:
            return 1.0
        return cos(2 * pi * (turn - self.view))

    def half(self, rounds: float) -> float:
        """Half the width of the piece there, as seen."""
        flat = self.profile.straight / 2 * abs(cos(2 * pi * self.view))
        return (
            self.radius(rounds) + (0.0 if self.profile.form is Form.ROWS else flat)
        ) * self.scale

    def across(self, start: float, end: float, rounds: float) -> list[Point]:
        """The way along a round from one turn to a later one, as far as it can be seen."""
        if not self.above:
            if self.profile.form is not Form.ROWS:
                start, end = self._seen(start, end)
            return [self.at(start, rounds), self.at(end, rounds)]
        steps = max(2, round(abs(end - start) * _STEPS))
        return [self.at(start + (end - start) * n / steps, rounds) for n in range(steps + 1)]

    def _seen(self, start: float, end: float) -> tuple[float, float]:
        middle = ((start + end) / 2 - self.view + 0.5) % 1 - 0.5
        half = (end - start) / 2
        low, high = max(-0.25, middle - half), min(0.25, middle + half)
        return (low + self.view, max(low, high) + self.view)


def turned_away(frame: Frame, turn: float) -> bool:
    return frame.faces(turn) < -1e-6


def rounded(points: Sequence[Point]) -> list[tuple[str | float, ...]]:
    """Steps of a path through points."""
    return [("M" if n == 0 else "L", x, y) for n, (x, y) in enumerate(points)]
