"""What stands where in a chart, in stitch widths: stitches on lines, lines in sections."""

from __future__ import annotations

from roundproof.drawing.chart.frames import Frame, Point
from roundproof.fabric.courses import Course
from roundproof.fabric.laid import Laid
from roundproof.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Placed:
    """A stitch: its top, the tops of what it stands on, how far it is turned from upright
    (degrees, clockwise), whether others stand on the same. `s` is its place on its line, `up` where
    the next round goes into it: of chains in a column that is the last one's top."""

    stitch: Laid
    top: Point
    feet: tuple[Point, ...]
    turn: float
    shares: bool
    s: float
    up: Point


@dataclass(frozen=True, slots=True)
class Line:
    """A course in its place: `low` and `high` bound its band, `begin` and `end` are its ends along
    the upper line, `forward` tells which of them it starts at."""

    course: Course
    low: float
    high: float
    placed: tuple[Placed, ...]
    begin: float
    end: float
    forward: bool


@dataclass(frozen=True, slots=True)
class Section:
    """`ghosts` are the tops of stitches of the course before that the first line stands on,
    `founded` the chains of the foundation."""

    frame: Frame
    lines: tuple[Line, ...]
    ghosts: tuple[Point, ...]
    founded: tuple[Placed, ...]
