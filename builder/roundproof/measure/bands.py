"""A worked piece as a list of bands, one a round: what the outline is reckoned from."""

from __future__ import annotations

from roundproof.fabric.edges import count_of
from roundproof.fabric.model import WorkedPiece, WorkedRound
from roundproof.frozen import dataclass
from roundproof.measure.gauge import StitchSize, stitch_size
from roundproof.pattern.model import Pattern, Piece

MOST_ROUNDS = 3000
"""More rounds than this are not measured: a slip of the key must not fill the memory."""

MOST_STITCHES = 100_000
"""Nor is a round of more stitches than this, some 400 m of fabric: the count is a slip."""


_Sizes = dict[str | None, StitchSize | None]
"""The size of a stitch in each yarn of a piece."""


@dataclass(frozen=True, slots=True)
class Band:
    """One round: `number` its number, `count` its stitches (those of both layers where it is
    worked through the piece folded flat), `width` and `height` of one stitch in mm."""

    number: int
    count: int
    width: float
    height: float
    worked: WorkedRound

    @property
    def length(self) -> float:
        """Length round the band, in mm: stitches x stitch width."""
        return self.count * self.width

    @property
    def into(self) -> int | None:
        """The number of the earlier round whose free loops this one goes into, if it does."""
        into = self.worked.instruction.into if self.worked.instruction else None
        return into.round if into and self.number == self.worked.round.label.first else None


@dataclass(frozen=True, slots=True)
class Bands:
    """The bands of a piece from the start up. `missing` says why there are none, or no more."""

    bands: tuple[Band, ...]
    guessed: bool
    missing: str = ""
    gauges: tuple[str, ...] = ()
    """Where the sizes of the stitches are from, each once."""


@dataclass(frozen=True, slots=True)
class Widths:
    """Mean width and sc height of a round's stitches in mm, over the yarns in it."""

    width: float
    height: float
    guessed: bool
    gauges: tuple[str, ...]


def bands_of(pattern: Pattern, worked: WorkedPiece) -> Bands:
    """The rounds of a piece as bands, up to the first that cannot be measured."""
    found: list[Band] = []
    guessed, gauges = False, dict[str, None]()
    known: _Sizes = {}
    if not worked.rounds:
        return Bands((), False, f"{worked.piece.key} has no rounds yet")
    if sum(r.rounds for r in worked.rounds) > MOST_ROUNDS:
        return Bands((), False, f"more than {MOST_ROUNDS} rounds are not measured")
    for worked_round in worked.rounds:
        count, size = count_of(worked_round), round_size(pattern, worked.piece, worked_round, known)
        if count is None:
            reason = f"{worked_round.label} could not be read"
            return Bands(tuple(found), guessed, reason, tuple(gauges))
        if count > MOST_STITCHES:
            reason = f"{worked_round.label} has more than {MOST_STITCHES} stitches"
            return Bands(tuple(found), guessed, reason, tuple(gauges))
        if size is None:
            reason = _no_gauge(worked.piece, worked_round)
            return Bands(tuple(found), guessed, reason, tuple(gauges))
        guessed = guessed or size.guessed
        gauges.update(dict.fromkeys(size.gauges))
        found.extend(_rounds(worked_round, count, size))
    return Bands(tuple(found), guessed, "", tuple(gauges))


def round_size(
    pattern: Pattern, piece: Piece, worked: WorkedRound, known: _Sizes | None = None
) -> Widths | None:
    """Width and sc height of the stitches of a round: the mean over its yarns. None without a
    gauge. `known` keeps the sizes of stitches from one round of the piece to the next."""
    shares = [(s.yarn, s.made) for s in worked.stretches if s.made > 0] or [(worked.yarn, 1)]
    sizes = {} if known is None else known
    for yarn, _ in shares:
        if yarn not in sizes:
            sizes[yarn] = stitch_size(pattern, piece, yarn)
    found = [(size, made) for yarn, made in shares if (size := sizes[yarn]) is not None]
    return _mean(found) if len(found) == len(shares) else None


def _mean(shares: list[tuple[StitchSize, int]]) -> Widths:
    if len(shares) == 1:
        size, _ = shares[0]
        return Widths(size.width_mm, size.height_mm, size.guessed, (size.working,))
    total = sum(made for _, made in shares)
    return Widths(
        sum(size.width_mm * made for size, made in shares) / total,
        sum(size.height_mm * made for size, made in shares) / total,
        any(size.guessed for size, _ in shares),
        tuple(dict.fromkeys(size.working for size, _ in shares)),
    )


def _rounds(worked: WorkedRound, count: int, size: Widths) -> list[Band]:
    """Stitches that the next round draws together again add no width. A round through both layers
    lies on twice as many stitches as it makes."""
    layers, height = 2 if worked.folded else 1, size.height * worked.height
    counts = [made for times, made in worked.run for _ in range(times)] or [count]
    numbers = range(worked.round.label.first, worked.round.label.last + 1)
    counts += [count] * (len(numbers) - len(counts))
    counts[len(numbers) - 1] = count
    return [
        Band(number, max(here - worked.absorbed, 0) * layers, size.width, height, worked)
        for number, here in zip(numbers, counts, strict=False)
    ]


def _no_gauge(piece: Piece, worked: WorkedRound) -> str:
    yarn = worked.yarn or (piece.yarn.value if piece.yarn else None)
    if yarn is None:
        return f"no yarn is named for {piece.key}"
    return f"no gauge and no weight is given for {yarn}"
