"""Rounds that are alike, one after another: of one yarn, or lying in one way; and how that is
hatched."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from roundproof.drawing.outlines.hatch import Lines
from roundproof.drawing.profile import Ring
from roundproof.frozen import dataclass
from roundproof.measure.flatness import frill
from roundproof.measure.model import Flatness, Frill

LIKE_A_FRILL = (Flatness.WAVY, Flatness.RUFFLED)
_PLAIN: tuple[Lines, ...] = ()
_CROSSED = {None: 11.0, Frill.GENTLE: 11.0, Frill.FULL: 8.0, Frill.TIGHT: 5.5}


@dataclass(frozen=True, slots=True)
class Lie:
    """How a round lies, and how full a frill it makes, if it makes one."""

    lies: Flatness
    frill: Frill | None = None

    @property
    def words(self) -> str:
        return f"{self.lies}, a {self.frill} frill" if self.frill else str(self.lies)

    @property
    def lines(self) -> tuple[Lines, ...]:
        """What lies round or flat stays plain; the further from it, the closer the hatching."""
        match self.lies:
            case Flatness.CUPPED:
                return (Lines(-1, 12),)
            case Flatness.WAVY:
                return (Lines(1, 6),)
            case Flatness.RUFFLED:
                gap = _CROSSED[self.frill]
                return Lines(1, gap), Lines(-1, gap)
        return _PLAIN


def lie(ring: Ring) -> Lie | None:
    """None where it cannot be told."""
    if ring.lies is None:
        return None
    return Lie(ring.lies, frill(ring.fullness) if ring.lies in LIKE_A_FRILL else None)


@dataclass(frozen=True, slots=True)
class Run:
    """Rings that are alike, with their places among all of them: from `first` to `last`."""

    first: int
    last: int
    rings: tuple[Ring, ...]

    @property
    def label(self) -> str:
        return rounds(self.rings[0].number, self.rings[-1].number)


def rounds(first: int, last: int) -> str:
    """ "R7", "R7-R12"."""
    return f"R{first}" if first == last else f"R{first}-R{last}"


def runs(rings: Sequence[Ring], alike: Callable[[Ring], object]) -> tuple[Run, ...]:
    """The rings, parted where what `alike` tells of them changes."""
    begins = [
        place
        for place, ring in enumerate(rings)
        if not place or alike(ring) != alike(rings[place - 1])
    ]
    ends = [*begins[1:], len(rings)]
    return tuple(
        Run(begin, end - 1, tuple(rings[begin:end]))
        for begin, end in zip(begins, ends, strict=True)
    )


def numbered(found: Sequence[Run]) -> str:
    """ "R1-R6, R12": the rounds of several runs."""
    return ", ".join(run.label for run in found)
