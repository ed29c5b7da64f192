"""The outline of a piece worked in the round or down both sides of a chain: what its rounds draw
from the start up, and how each of them lies.

All sizes are of the fabric as it comes off the hook. Filling stretches a closed piece by a few
percent; that belongs to the filling (`stuffing.py`), since the edges that are joined, and the
pieces that are never filled, have nothing of it.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import pi

from roundproof.fabric.edges import count_of, in_rows
from roundproof.fabric.model import Base, Fabric, WorkedPiece, WorkedRound
from roundproof.frozen import dataclass
from roundproof.measure.bands import Band, Bands, round_size
from roundproof.measure.flatness import FRILL, flatness
from roundproof.measure.meridian import Point, closing_rise, frustum, meridian, stadium_slice
from roundproof.measure.model import Flatness, Form, RoundSize
from roundproof.notation.edges import piece_of, read_edge
from roundproof.pattern.model import Close, Pattern


@dataclass(frozen=True, slots=True)
class Outline:
    """`rounds` from the start up; `points` the same before a disc is pulled flat. `start` is the
    radius it grows from (None: drawn shut), `straight` the straight side of an oval, both in mm;
    `shut`: the last round is drawn together. `hung` are the indices of frills and collars that
    hang off the wall, `rows` the number of rows worked to and fro before the rounds begin."""

    form: Form
    bands: tuple[Band, ...]
    points: tuple[Point, ...]
    rounds: tuple[RoundSize, ...]
    start: float | None
    straight: float
    shut: bool
    hung: frozenset[int] = frozenset()
    rows: int = 0

    @property
    def wall(self) -> tuple[int, ...]:
        """The indices of the rounds that are the piece itself."""
        return tuple(i for i in range(len(self.rounds)) if i not in self.hung)

    @property
    def widest(self) -> int:
        """The index of the widest round of the wall."""
        return max(self.wall, key=lambda i: self.points[i].radius)

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
        highest = max(self.rounds[i].height_mm for i in self.wall)
        return max(highest, self.rounds[-1].height_mm + self._tip) if self.shut else highest

    @property
    def inside(self) -> float:
        """mm³ inside, without a frill at the end and rows at the start: slices between one round
        and the next, and the tip. A second surface grown from loops on the way adds none (textbook
        frusta)."""
        lower, base, total, before = self.start or 0.0, 0.0, 0.0, 0
        pairs = [(self.bands[i], self.rounds[i]) for i in self.wall if i < self._ends]
        for at, (band, size) in enumerate(pairs):
            if band.into not in (None, before):
                return total
            rise = max(size.height_mm - base, 0.0)
            if at >= self.rows:
                total += stadium_slice(self.straight, lower, size.radius_mm, rise)
            lower, base, before = size.radius_mm, size.height_mm, band.number
        return total + (frustum(lower, 0.0, self._tip) if self.shut and pairs else 0.0)

    @property
    def _ends(self) -> int:
        return len(self.rounds) if self.frill is None else self.frill

    @property
    def _tip(self) -> float:
        return closing_rise(self.points[-1], self.bands[-1].height)


def form_of(worked: WorkedPiece) -> Form:
    """What a piece is taken for."""
    if worked.rounds and worked.rounds[0].far_side:
        return Form.OVAL
    return Form.ROWS if in_rows(worked) and rounds_begin(worked) is None else Form.TURNED


def rounds_begin(worked: WorkedPiece) -> int | None:
    """Where a piece in rows goes on in rounds: the index of the first line that is called a round,
    or joined to one, after rows, and goes all over the last of them. None for any other piece."""
    lines = worked.rounds
    if not in_rows(worked) or worked.piece.worked is not None or not lines[0].round.label.row:
        return None
    begins = next((i for i, line in enumerate(lines) if not line.round.label.row), None)
    if begins is None or any(line.round.label.row for line in lines[begins:]):
        return None
    first, below = lines[begins], lines[begins - 1]
    if first.onto or not first.available or first.available != count_of(below):
        return None
    return begins


def outline_of(pattern: Pattern, fabric: Fabric, worked: WorkedPiece, bands: Bands) -> Outline:
    """The outline of a piece that is no flat piece of rows and has at least one band."""
    form, first = form_of(worked), bands.bands[0]
    oval, rows = form is Form.OVAL, _rows(worked)
    straight = straights(first) * first.width if oval else 0.0
    start = None if oval else _start(pattern, fabric, worked, first)
    if rows:
        start = first.length / (2 * pi)
    natural = [max(b.length - 2 * straight, 0.0) / (2 * pi) for b in bands.bands]
    # An oval starts from the chain, which counts as a line without width.
    points = meridian(bands.bands, natural, 0.0 if oval else start)
    hung = hanging(bands.bands, points)
    rounds = _rounds(bands.bands, points, start, hung)
    shut = drawn_shut(pattern, worked) and not bands.missing
    return Outline(form, bands.bands, points, rounds, start, straight, shut, hung, rows)


def hanging(bands: Sequence[Band], points: Sequence[Point]) -> frozenset[int]:
    """The rounds that hang off the wall: those between a round and the one that passes them by and
    goes into its free loops, where they ruffle or are fewer than what follows, and do not close."""
    hung: set[int] = set()
    for i, band in enumerate(bands):
        if band.into is None:
            continue
        below = next((k for k in range(i - 1, -1, -1) if bands[k].number == band.into), i)
        passed = [k for k in range(below + 1, i) if k not in hung]
        if not passed or 2 * bands[passed[-1]].count <= bands[below].count:
            continue
        if points[passed[0]].fullness >= FRILL or len(passed) < len(bands) - i:
            hung.update(passed)
    return frozenset(hung)


def drawn_shut(pattern: Pattern, worked: WorkedPiece) -> bool:
    """Whether the last round is drawn together, said in the rounds or in the assembly."""
    closes = (step.verb for step in pattern.assembly if isinstance(step.verb, Close))
    return worked.gathered or any(
        close.by is not None
        and close.by.value == "gather"
        and piece_of(close.edge.value, (p.key for p in pattern.pieces)) == worked.piece.key
        for close in closes
    )


def _rows(worked: WorkedPiece) -> int:
    """How many rows there are before the rounds of a piece that begins flat."""
    begins = rounds_begin(worked) or 0
    return sum(line.rounds for line in worked.rounds[:begins])


def straights(first: Band) -> int:
    """The stitches in the straight side of an oval: all chains worked into but one at each end."""
    usable = first.worked.available or first.worked.chains
    return max(usable - 2, 0)


def _start(pattern: Pattern, fabric: Fabric, worked: WorkedPiece, first: Band) -> float | None:
    """The radius a round piece starts from: None for a start drawn shut, else that of the chain
    joined into a ring or of the loops it grows from."""
    base, available = first.worked.base, first.worked.available
    if base is Base.CHAIN and first.worked.chains >= 3:
        return first.worked.chains * first.width / (2 * pi)
    if base is not Base.EDGE or not available:
        return None
    below = grown_from(fabric, worked)
    size = round_size(pattern, below[0].piece, below[1]) if below else None
    return available * (size.width if size else first.width) / (2 * pi)


def grown_from(fabric: Fabric, worked: WorkedPiece) -> tuple[WorkedPiece, WorkedRound] | None:
    """The piece, and its round, whose loops another grows from; its stitches are that wide."""
    starts = worked.piece.starts
    name = read_edge(starts.in_[0].value, fabric.pieces) if starts and starts.in_ else None
    host = fabric.pieces[name.piece] if name else None
    if host is None or name is None or not host.rounds:
        return None
    below = host.rounds[-1] if name.round is None else host.at(name.round)
    return (host, below) if below else None


def _rounds(
    bands: Sequence[Band], points: Sequence[Point], start: float | None, hung: frozenset[int]
) -> tuple[RoundSize, ...]:
    classes = _classes(_slopes(bands, points, start), points, hung)
    # A tight ring stands up a little in the middle where all of the piece lies flat: it is pulled
    # flat in practice.
    disc = start is None and all(c is Flatness.FLAT for c in classes)
    lift = points[0].height if disc else 0.0
    return tuple(
        RoundSize(b.number, b.length, p.radius, p.height - lift, c, p.fullness)
        for b, p, c in zip(bands, points, classes, strict=True)
    )


def _classes(
    slopes: Sequence[float], points: Sequence[Point], hung: frozenset[int]
) -> list[Flatness]:
    """How each round lies; what hangs off the wall by itself, not as part of the wall's run."""
    found: dict[int, Flatness] = {}
    for inside in (True, False):
        here = [i for i in range(len(points)) if (i in hung) is inside]
        told = flatness([slopes[i] for i in here], [points[i].fullness for i in here])
        found.update(zip(here, told, strict=True))
    return [found[i] for i in range(len(points))]


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
