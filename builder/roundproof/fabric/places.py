"""Places on a piece: which rounds something sits on, and how wide it is there."""

from __future__ import annotations

import re

from roundproof.expressions import expression
from roundproof.fabric.edges import count_of
from roundproof.fabric.model import Fabric, WorkedPiece, WorkedRound
from roundproof.frozen import dataclass
from roundproof.notation.edges import piece_of, read_edge, read_label, read_range
from roundproof.notation.tree import Act, Action
from roundproof.pattern.model import Around, At, Join

_MARK = expression(r"R\s?(\d{1,6}),? (?:between (?:sts )?(\d+) and (\d+)|(?:at )?st (\d+))", re.I)


@dataclass(frozen=True, slots=True)
class Mark:
    """A landmark: its round, the highest stitch it names, and its place in stitches from the start
    of that round (8.5 is the middle of stitch 9, 9 the gap behind it). All 0 where that is not
    said in the usual words."""

    round: int = 0
    stitch: int = 0
    place: float = 0.0


@dataclass(frozen=True, slots=True)
class Site:
    """A place on a piece, on rounds `first` to `last`: a "footprint" goes round so many rounds and
    `stitches`, a place "between" two rounds is a line of `stitches`, one "up" the piece a line
    over its rounds."""

    piece: str
    kind: str
    first: int
    last: int
    stitches: int | None = None

    @property
    def rounds(self) -> int:
        return self.last - self.first + 1

    @property
    def count(self) -> int | None:
        """Stitches and rounds along the line; for a footprint all round it, each corner counted
        on both its sides."""
        if self.kind == "up":
            return self.rounds
        if self.stitches is None:
            return None
        return 2 * (self.rounds + self.stitches) if self.kind == "footprint" else self.stitches

    @property
    def text(self) -> str:
        joint = "up " if self.kind == "up" else ""
        return f"{self.piece} {joint}{self.on}"

    @property
    def on(self) -> str:
        """Its rounds: 'R8-R11', 'between R4 and R5'."""
        if self.kind == "between" and self.first != self.last:
            return f"between R{self.first} and R{self.last}"
        return f"R{self.first}" if self.first == self.last else f"R{self.first}-R{self.last}"


def site_of(fabric: Fabric, join: Join) -> Site | None:
    """The place a join names on its host, or None where it names none, or one that cannot be."""
    piece = piece_of(join.to.value, fabric.pieces) if join.to else None
    if piece is None or join.to is None:
        return None
    if join.at is not None:
        return at_site(piece, join.at)
    return _in_a_round(fabric, join.to.value, join.around)


def at_site(piece: str, at: At) -> Site | None:
    """The place that `at` says on a piece. Two rounds that are not neighbours hold a footprint
    between them."""
    wide = at.stitches.value if at.stitches else None
    if at.between:
        ends = [read_label(label.value) for label in at.between]
        if len(ends) != 2 or ends[0] is None or ends[1] is None:
            return None
        low, high = sorted((ends[0], ends[1]))
        if high - low <= 1:
            return Site(piece, "between", low, high, wide)
        return Site(piece, "footprint", low + 1, high, wide)
    said = at.footprint or at.up
    rounds = read_range(said.value) if said else None
    if rounds is None:
        return None
    return Site(piece, "footprint" if at.footprint else "up", *rounds, wide)


def copies(around: Around | None) -> int:
    """How many copies a placement puts round the piece."""
    if around is None:
        return 1
    if around.free:
        return len(around.free)
    if around.evenly:
        return max(around.evenly.value, 0)
    return 2 if around.apart else 1


def round_counts(fabric: Fabric, site: Site) -> tuple[int, ...]:
    """The stitch counts that the rounds of a site have, each once; empty where one is not known."""
    worked = fabric.pieces.get(site.piece)
    if worked is None:
        return ()
    return counts_between(worked, site.first, site.last)


def counts_between(worked: WorkedPiece, first: int, last: int) -> tuple[int, ...]:
    counts: dict[int, None] = {}
    for entry in worked.rounds:
        label = entry.round.label
        if label.last < first or label.first > last:
            continue
        if (count := count_of(entry)) is None:
            return ()
        counts[count] = None
    return tuple(counts)


def marks_of(worked: WorkedPiece) -> dict[str, Mark]:
    """The landmarks of a piece by name."""
    marks: dict[str, Mark] = {}
    for name, said in (worked.piece.marks or {}).items():
        found = _MARK.fullmatch(said.value.strip())
        ends = [int(found[n]) for n in (2, 3, 4) if found[n]] if found else []
        marks[name] = _mark(int(found[1]), ends) if found else Mark()
    before = 0
    for entry in worked.entries:
        if isinstance(entry, WorkedRound):
            before = entry.round.label.last
        elif isinstance(entry, Action) and entry.act is Act.MARK and entry.name:
            marks[entry.name] = _mark(before, list(entry.between or ()))
    return marks


def _mark(number: int, ends: list[int]) -> Mark:
    """A mark in one stitch, or in the gap between two. The last and the first have theirs at the
    start of the round."""
    if not ends:
        return Mark(number)
    low, high = min(ends), max(ends)
    place = low - 0.5 if low == high else float(low if high - low == 1 else high)
    return Mark(number, high, place)


def _in_a_round(fabric: Fabric, words: str, around: Around | None) -> Site | None:
    """What the gaps of a round leave to the pieces sewn on it."""
    name = read_edge(words, fabric.pieces)
    if name is None or name.round is None or around is None or not around.free:
        return None
    counts = counts_between(fabric.pieces[name.piece], name.round, name.round)
    taken = counts[0] - sum(gap.value for gap in around.free) if len(counts) == 1 else 0
    wide, over = divmod(taken, len(around.free))
    if wide <= 0 or over:
        return None
    return Site(name.piece, "between", name.round, name.round, wide)
