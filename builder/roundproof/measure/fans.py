"""Fans: pieces worked to and fro whose first row goes into one point (derived; each row an arc
round that point, one row higher than the one before)."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, pi, sin

from roundproof.fabric.model import Base, WorkedPiece
from roundproof.frozen import dataclass
from roundproof.measure.bands import Band


@dataclass(frozen=True, slots=True)
class Arc:
    """A row of `length` mm at `radius` mm from the point."""

    radius: float
    length: float

    @property
    def angle(self) -> float:
        """How far it goes round, in radians; once round at most."""
        return min(self.length / self.radius, 2 * pi) if self.radius > 0 else 0.0

    @property
    def width(self) -> float:
        """Straight across, in mm: the chord, and from half round on the whole circle."""
        return 2 * self.radius * (sin(self.angle / 2) if self.angle < pi else 1.0)

    @property
    def reach(self) -> float:
        """From its top to the point, or to its ends where they lie beyond the point, in mm."""
        return self.radius * (1 - min(cos(self.angle / 2), 0.0))


def is_fan(worked: WorkedPiece) -> bool:
    """Whether the first row of a piece in rows goes into a ring or into one chain alone."""
    first = worked.rounds[0]
    one_chain = first.base is Base.CHAIN and first.available == 1
    return first.base is Base.RING or (one_chain and (first.made or 0) >= 3)


def arcs_of(bands: Sequence[Band]) -> tuple[Arc, ...]:
    """The rows of a fan from the point out."""
    arcs, radius = [], 0.0
    for band in bands:
        radius += band.height
        arcs.append(Arc(radius, band.length))
    return tuple(arcs)
