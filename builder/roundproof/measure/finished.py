"""The finished size in another gauge, from the one that the pattern states.

A stated measure goes with the figure of a piece that it comes near, of the first piece where
several are as near, and with all pieces together where it comes near none: a crab is as many times
as wide as its body, or as all that sits on it (derived). With every stitch k times as large each
measure is k times as large, whatever it goes with.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import log, pi

from roundproof.frozen import dataclass
from roundproof.measure.model import PieceSize
from roundproof.pattern.model import Pattern, Size

NEAR = 1.25
"""How far filling and hands stretch a piece: common practice, no source."""
ALIKE = 0.05
"""Figures that differ by less, as shares, are as near as each other: common practice, no source."""
DIMENSIONS = ("length", "width", "depth", "height", "span_", "around")
FIGURES = ("height_mm", "diameter_mm", "length_mm")
"""Of a piece, straight across."""

Sizes = Mapping[str, PieceSize]


@dataclass(frozen=True, slots=True)
class Stated:
    """A measure that the pattern states, `mm` long, and the piece and the figure of it that it goes
    with: both empty for all pieces together."""

    name: str
    mm: float
    piece: str = ""
    figure: str = ""

    @property
    def word(self) -> str:
        """What the file calls it."""
        return self.name.rstrip("_")


@dataclass(frozen=True, slots=True)
class Finished:
    """A measure of the finished thing: as stated, and as it comes out; None where nothing is known
    of the pieces."""

    stated: Stated
    mm: float | None


def stated(pattern: Pattern, sizes: Sizes) -> tuple[Stated, ...]:
    """The measures of the finished thing that the pattern states."""
    size = pattern.size
    return tuple(_stated(size, name, sizes) for name in DIMENSIONS if getattr(size, name, None))


def _stated(size: Size | None, name: str, sizes: Sizes) -> Stated:
    mm = getattr(size, name).value
    across = mm / pi if name == "around" else mm
    figures = ("diameter_mm",) if name == "around" else FIGURES
    found = [
        (int(apart / ALIKE), place, apart, key, figure)
        for place, (key, piece) in enumerate(sizes.items())
        for figure in figures
        if across > 0 and (value := getattr(piece, figure))
        if (apart := abs(log(across / value))) <= log(NEAR)
    ]
    *_, key, figure = min(found, default=("", ""))
    return Stated(name, mm, key, figure)


def finished(pattern: Pattern, was: Sizes, now: Sizes) -> tuple[Finished, ...]:
    """The finished thing with the pieces as they come out now."""
    return tuple(Finished(each, _now(each, was, now)) for each in stated(pattern, was))


def _now(each: Stated, was: Sizes, now: Sizes) -> float | None:
    if each.piece:
        old, new = (getattr(sizes[each.piece], each.figure) for sizes in (was, now))
        if old and new:
            return each.mm * float(new) / float(old)
    pairs = [(largest(was[key]), largest(now[key])) for key in was]
    known = [(old, new) for old, new in pairs if old and new]
    if not known:
        return None
    return each.mm * sum(new for _, new in known) / sum(old for old, _ in known)


def largest(size: PieceSize) -> float:
    """The largest figure of a piece in mm; 0 where none is known."""
    return max((getattr(size, figure) or 0.0 for figure in FIGURES), default=0.0)
