"""The profile of a piece: ring by ring how wide it is and where it lies, for drawings to scale.

Taken from the measures, in mm. Where there are none it is worked out from the counts alone, as if
a stitch were as high as it is wide, in stitch widths; `measured` is then False.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from itertools import accumulate
from math import pi, sqrt

from roundproof.drawing.yarns import BARE, Marks, YarnMark, mark_of
from roundproof.fabric.model import Base, WorkedPiece, WorkedRound
from roundproof.frozen import dataclass
from roundproof.measure.model import Flatness, Form, PieceSize, RoundSize

MOST_RINGS = 60
"""A piece with more rounds is drawn with this many rings."""


@dataclass(frozen=True, slots=True)
class Ring:
    """The upper edge of a round. `radius` is half its width (of an oval: of its round ends),
    `height` its distance from the start along the axis; `lies` how the round lies, where that can
    be told."""

    number: int
    radius: float
    height: float
    mark: YarnMark
    lies: Flatness | None = None
    fullness: float = 1.0


@dataclass(frozen=True, slots=True)
class Profile:
    """`straight` is the length of an oval's straight sides; `every` how many rounds a ring stands
    for, `whole` has a ring for each of them; `opening` is the radius it starts from, 0 for a closed
    start; `tip` how far it goes on beyond the last ring where that is drawn shut."""

    piece: str
    form: Form
    rings: tuple[Ring, ...]
    measured: bool
    straight: float = 0.0
    opening: float = 0.0
    every: int = 1
    guessed: bool = False
    tip: float = 0.0
    whole: tuple[Ring, ...] = ()

    @property
    def widest(self) -> Ring:
        return max(self.rings, key=lambda ring: ring.radius)

    @property
    def width(self) -> float:
        """Across the widest ring, the long way."""
        return 2 * self.widest.radius + self.straight

    @property
    def depth(self) -> float:
        """Across the widest ring, the short way."""
        return 2 * self.widest.radius

    @property
    def height(self) -> float:
        return max(ring.height for ring in self.rings)

    @property
    def flat(self) -> bool:
        """Flat enough to be drawn from above."""
        return self.form is Form.OVAL or self.height < 0.25 * self.width

    def ring_at(self, number: int) -> int:
        """The place, in `rings`, of the ring that stands for a round."""
        numbers = [ring.number for ring in self.rings]
        return max(0, min(len(numbers) - 1, bisect_right(numbers, number) - 1))


def profile(piece: WorkedPiece, size: PieceSize | None, marks: Marks) -> Profile | None:
    """None where not a single round could be read."""
    if size is not None and size.outline and any(r.radius_mm > 0 for r in size.outline):
        return _measured(piece, size, marks)
    return _from_counts(piece, marks)


def _measured(piece: WorkedPiece, size: PieceSize, marks: Marks) -> Profile:
    straight = 0.0
    if size.form is Form.OVAL and size.length_mm and size.diameter_mm:
        straight = max(0.0, size.length_mm - size.diameter_mm)
    yarns = _yarn_of(piece, len(size.outline), marks)
    rows = size.form is Form.ROWS
    whole = tuple(
        Ring(
            at.number,
            _radius(at, size.form, straight),
            at.height_mm,
            yarns(place),
            None if rows else at.flatness,
            at.fullness,
        )
        for place, at in enumerate(size.outline)
    )
    widest = max(range(len(whole)), key=lambda place: size.outline[place].length_mm)
    rings, every = _thinned(whole, widest)
    highest = max(ring.height for ring in whole)
    tip = max(0.0, (size.height_mm or 0.0) - highest) if whole[-1].height == highest else 0.0
    opening, guessed = _opening(piece, rings), size.guessed
    return Profile(
        size.piece, size.form, rings, True, straight, opening, every, guessed, tip, whole
    )


def _radius(at: RoundSize, form: Form, straight: float) -> float:
    if form is Form.OVAL:
        return max(0.0, at.length_mm - 2 * straight) / (2 * pi)
    return at.radius_mm


def _opening(piece: WorkedPiece, rings: Sequence[Ring]) -> float:
    closed = not piece.rounds or piece.rounds[0].base in (Base.RING, Base.ROUND)
    return 0.0 if closed else rings[0].radius


def _thinned(whole: Sequence[Ring], widest: int) -> tuple[tuple[Ring, ...], int]:
    """Every nth ring, always with the first, the widest and the last."""
    every = -(-len(whole) // MOST_RINGS)
    kept = {*range(0, len(whole), every), widest, len(whole) - 1}
    return tuple(whole[place] for place in sorted(kept)), every


class _yarn_of:
    """The mark of the yarn that the round at a place of the outline is mostly in."""

    def __init__(self, piece: WorkedPiece, rounds: int, marks: Marks) -> None:
        self.rounds = piece.rounds
        self.ends = list(accumulate(worked.rounds for worked in piece.rounds))
        self.marks = marks
        self.same = bool(self.ends) and self.ends[-1] == rounds

    def __call__(self, place: int) -> YarnMark:
        if not self.rounds:
            return BARE
        at = bisect_right(self.ends, place) if self.same else place
        return main_mark(self.rounds[min(at, len(self.rounds) - 1)], self.marks)


def main_mark(worked: WorkedRound, marks: Marks) -> YarnMark:
    """The yarn most of a round's stitches are in."""
    made: dict[str | None, int] = {}
    for stretch in worked.stretches:
        made[stretch.yarn] = made.get(stretch.yarn, 0) + stretch.made
    return mark_of(marks, max(made, key=lambda key: made[key]) if made else worked.yarn)


def _from_counts(piece: WorkedPiece, marks: Marks) -> Profile | None:
    worked = [w for w in piece.rounds if w.made]
    if not worked:
        return None
    rings: list[Ring] = []
    radius = height = 0.0
    for each, number, rounds in _steps(worked):
        wanted = (each.made or 0) / (2 * pi)
        step = max(-float(rounds), min(float(rounds), wanted - radius))
        height += sqrt(max(0.0, rounds * rounds - step * step)) if rings else 0.0
        radius = max(0.0, radius + step) if rings else wanted
        rings.append(Ring(number, radius, height, main_mark(each, marks)))
    every = -(-sum(w.rounds for w in worked) // MOST_RINGS)
    return Profile(
        piece.piece.key, Form.TURNED, tuple(rings), False, every=every, whole=tuple(rings)
    )


def _steps(worked: Sequence[WorkedRound]) -> Iterable[tuple[WorkedRound, int, int]]:
    """Rounds with their numbers, in at most so many steps of some rounds each."""
    every = max(1, -(-sum(w.rounds for w in worked) // MOST_RINGS))
    waiting = 0
    for each in worked:
        first, left = each.round.label.first, each.rounds
        while waiting + left >= every:
            taken = every - waiting
            first, left, waiting = first + taken, left - taken, 0
            yield each, first - 1, every
        waiting += left
    if waiting:
        yield worked[-1], worked[-1].round.label.last, waiting
