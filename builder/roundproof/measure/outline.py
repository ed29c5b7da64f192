"""The outline of a piece worked in the round or down both sides of a chain: what its rounds draw
from the start up, and how each of them lies.

All sizes are of the fabric as it comes off the hook. Filling stretches a closed piece by a few
percent; that belongs to the filling (`stuffing.py`), since the edges that are joined, and the
pieces that are never filled, have nothing of it.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import pi

from roundproof.fabric.edges import in_rows
from roundproof.fabric.model import Base, Fabric, WorkedPiece
from roundproof.frozen import dataclass
from roundproof.measure.bands import Band, Bands, round_size
from roundproof.measure.flatness import flatness
from roundproof.measure.meridian import Point, closing_rise, frustum, meridian, stadium_slice
from roundproof.measure.model import Flatness, Form, RoundSize
from roundproof.notation.edges import piece_of, read_edge
from roundproof.pattern.model import Close, Pattern


@dataclass(frozen=True, slots=True)
class Outline:
    """`rounds` from the start up; `points` the same before a disc is pulled flat. `start` is the
    radius it grows from (None: drawn shut), `straight` the straight side of an oval, both in mm;
    `shut`: the last round is drawn together."""

    form: Form
    bands: tuple[Band, ...]
    points: tuple[Point, ...]
    rounds: tuple[RoundSize, ...]
    start: float | None
    straight: float
    shut: bool

    @property
    def frill(self) -> int | None:
        """Where the ruffled rounds at the end begin, as an index; None without any."""
        begins = len(self.rounds)
        while begins and self.rounds[begins - 1].flatness is Flatness.RUFFLED:
            begins -= 1
        return begins if begins < len(self.rounds) else None

    @property
    def reach(self) -> float:
        """How far the piece reaches along its axis, with the tip where it is drawn shut."""
        highest = max(size.height for size in self.rounds)
        return max(highest, self.rounds[-1].height + self._tip) if self.shut else highest

    @property
    def inside(self) -> float:
        """mm³ inside, without a frill at the end: slices between one round and the next, and the
        tip. A second surface grown from loops on the way adds none (textbook frusta)."""
        lower, base, total = self.start or 0.0, 0.0, 0.0
        pairs = list(zip(self.bands, self.rounds, strict=True))[: self.frill]
        for band, size in pairs:
            if band.into is not None:
                return total
            rise = max(size.height - base, 0.0)
            total += stadium_slice(self.straight, lower, size.radius, rise)
            lower, base = size.radius, size.height
        return total + (frustum(lower, 0.0, self._tip) if self.shut and pairs else 0.0)

    @property
    def _tip(self) -> float:
        return closing_rise(self.points[-1], self.bands[-1].height)


def form_of(worked: WorkedPiece) -> Form:
    """What a piece is taken for."""
    if worked.rounds and worked.rounds[0].far_side:
        return Form.OVAL
    return Form.ROWS if in_rows(worked) else Form.TURNED


def outline_of(pattern: Pattern, fabric: Fabric, worked: WorkedPiece, bands: Bands) -> Outline:
    """The outline of a piece that is no flat piece of rows and has at least one band."""
    form, first = form_of(worked), bands.bands[0]
    oval = form is Form.OVAL
    straight = _straight(first) if oval else 0.0
    start = None if oval else _start(pattern, fabric, worked, first)
    natural = [max(b.length - 2 * straight, 0.0) / (2 * pi) for b in bands.bands]
    # An oval starts from the chain, which counts as a line without width.
    points = meridian(bands.bands, natural, 0.0 if oval else start)
    rounds = _rounds(bands.bands, points, start)
    shut = drawn_shut(pattern, worked) and not bands.missing
    return Outline(form, bands.bands, points, rounds, start, straight, shut)


def drawn_shut(pattern: Pattern, worked: WorkedPiece) -> bool:
    """Whether the last round is drawn together, said in the rounds or in the assembly."""
    closes = (step.verb for step in pattern.assembly if isinstance(step.verb, Close))
    return worked.gathered or any(
        close.by is not None
        and close.by.value == "gather"
        and piece_of(close.edge.value, (p.key for p in pattern.pieces)) == worked.piece.key
        for close in closes
    )


def _straight(first: Band) -> float:
    """The straight side of an oval: all chains worked into but the one at each end."""
    usable = first.worked.available or first.worked.chains
    return max(usable - 2, 0) * first.width


def _start(pattern: Pattern, fabric: Fabric, worked: WorkedPiece, first: Band) -> float | None:
    """The radius a round piece starts from: None for a start drawn shut, else that of the chain
    joined into a ring or of the loops it grows from."""
    base, available = first.worked.base, first.worked.available
    if base is Base.CHAIN and first.worked.chains >= 3:
        return first.worked.chains * first.width / (2 * pi)
    if base is not Base.EDGE or not available:
        return None
    return available * _width_below(pattern, fabric, worked, first) / (2 * pi)


def _width_below(pattern: Pattern, fabric: Fabric, worked: WorkedPiece, first: Band) -> float:
    """The stitch width of the round whose loops a piece grows from, in that round's own yarn."""
    starts = worked.piece.starts
    name = read_edge(starts.in_[0].value, fabric.pieces) if starts and starts.in_ else None
    host = fabric.pieces[name.piece] if name else None
    if host is None or name is None or not host.rounds:
        return first.width
    below = host.rounds[-1] if name.round is None else host.at(name.round)
    size = round_size(pattern, host.piece, below) if below else None
    return size.width if size else first.width


def _rounds(
    bands: Sequence[Band], points: Sequence[Point], start: float | None
) -> tuple[RoundSize, ...]:
    classes = flatness(_slopes(bands, points, start), [p.fullness for p in points])
    # A tight ring stands up a little in the middle where all of the piece lies flat: it is pulled
    # flat in practice.
    disc = start is None and all(c is Flatness.FLAT for c in classes)
    lift = points[0].height if disc else 0.0
    return tuple(
        RoundSize(b.number, b.length, p.radius, p.height - lift, c, p.fullness)
        for b, p, c in zip(bands, points, classes, strict=True)
    )


def _slopes(bands: Sequence[Band], points: Sequence[Point], start: float | None) -> list[float]:
    """How far each round goes out over its height. The first of a closed start goes out by no
    more than its height: a larger one leaves a hole in the middle, and does not ruffle."""
    slopes: list[float] = []
    before, reached = start or 0.0, dict[int, float]()
    for band, point in zip(bands, points, strict=True):
        if band.into is not None:
            before = reached.get(band.into, before)
        slope = (point.natural - before) / band.height if band.height > 0 else 0.0
        slopes.append(slope if slopes or start is not None else min(slope, 1.0))
        before = reached[band.number] = point.natural
    return slopes
