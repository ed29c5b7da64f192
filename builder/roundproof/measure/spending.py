"""What one copy of a piece, and a seam, take of each yarn: the lines of work in their order."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from math import pi, sqrt

from roundproof.fabric.model import Fabric, WorkedPiece, WorkedRound
from roundproof.frozen import dataclass
from roundproof.measure.gauge import diameter, stitch_size, yarn_for
from roundproof.measure.model import Fit
from roundproof.measure.stitching import Sewn, sewn_lines
from roundproof.notation.tree import Act, Action
from roundproof.pattern.model import Pattern, Piece, Yarn
from roundproof.pattern.quantities import in_mm
from roundproof.reference import stitches

TAIL = 150.0
"""mm left at each end of a yarn: common practice, no source."""
SEAM = 3.0
"""Yarn over length of a sewn seam: common practice, no source."""
THREAD = 2.0
"""Yarn over length of an embroidered line, on both sides of the fabric: common practice, no
source."""
DECREASE = 0.5
"""What working two together takes more than one stitch, as a share of a stitch: common practice,
no source. An increase is two stitches and counts as such."""
SQUEEZED = 0.75
"""A yarn's diameter inside the fabric over its diameter (derived with `loop_path`)."""
PER_WIDTH = 6.9
"""Yarn of a single crochet over its width where the yarn's thickness is not known: 45.7 mm over
6.65 mm (shinyhappyworld.com with freshstitches.com, yardage of a toy, and the gauge circle)."""
_TAIL = r"(?i)(\d+(?:[.,]\d+)?)\s*(mm|cm|m|in|inch|inches)\b[- ]*(?:long )?tail"


@dataclass(frozen=True, slots=True)
class Rate:
    """A yarn as it is worked in one piece: `mm` of it in a single crochet, None without a gauge;
    `guessed` where the gauge is."""

    yarn: Yarn
    mm: float | None
    guessed: bool


@dataclass(frozen=True, slots=True)
class Line:
    """One line of work: `first` its number, `rounds` how many it is, and what each takes in single
    crochets, by the keys of the yarns."""

    first: int
    rounds: int
    units: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Spending:
    """One copy of a piece, by the keys of its yarns: `rates`, `lines` in working order, `last` the
    mm of the tail it ends with (each yarn begins with one of `TAIL`), and in `unread` the line that
    could not be counted."""

    piece: Piece
    rates: Mapping[str, Rate]
    lines: tuple[Line, ...]
    last: Mapping[str, float]
    unread: Mapping[str, str]

    def ends(self, key: str) -> float:
        """mm in both tails of a yarn."""
        ends = TAIL + self.last[key] if key in self.last else 0.0
        return ends * _strands(self.piece)


@dataclass(frozen=True, slots=True)
class Seam:
    """A seam that is sewn with a yarn of its own, by the piece that is sewn on: `mm` for a copy,
    two tails included. It is the seam of `fit`, of so many `stitches` where it is crocheted, or
    else the line of embroidery `line`."""

    piece: Piece
    yarn: str
    mm: float
    fit: Fit | None = None
    stitches: int | None = None
    line: Sewn | None = None


def loop_path(width: float, height: float, thick: float) -> float:
    """mm of yarn in one single crochet of `width` x `height` mm in yarn `thick` mm across.

    Source: derived; the loop's path: two strands along the top, four passes between hole and top,
    two half turns round a bundle of two strands, the yarn squeezed to three quarters of its
    thickness. Checked against 45.7 mm measured in worsted (see PER_WIDTH)."""
    squeezed = SQUEEZED * thick
    rise = max(height - squeezed, 0.0)
    return 2 * width + 4 * sqrt(rise**2 + (width / 4) ** 2) + 2 * pi * squeezed


def spending(pattern: Pattern, worked: WorkedPiece) -> Spending:
    """What one copy of a piece takes."""
    rates: dict[str | None, Rate | None] = {}
    lines: list[Line] = []
    unread: dict[str, str] = {}
    shares = _shares(pattern, worked)
    for entry in worked.rounds:
        if entry.made is None or not entry.tally:
            if entry.made is None or not entry.round.readings:
                yarn = yarn_for(pattern, worked.piece, entry.yarn)
                unread.setdefault(yarn.key if yarn else "", f"{entry.label} of {worked.piece.key}")
            continue
        for _, key in entry.tally:
            if key not in rates:
                rates[key] = _rate(pattern, worked.piece, key)
        lines.append(_line(worked.piece, entry, rates, shares))
    known = {rate.yarn.key: rate for rate in rates.values() if rate}
    last = dict.fromkeys(known, TAIL)
    if (ending := last_yarn(pattern, worked)) in last:
        last[ending] = max(long_tail(worked) or TAIL, TAIL)
    return Spending(worked.piece, known, tuple(lines), last, unread)


def seams(pattern: Pattern, fabric: Fabric, fits: Iterable[Fit]) -> Iterator[Seam]:
    """Seams sewn with a length of their own, those of pieces that leave no tail for it, and lines
    of embroidery."""
    for fit in fits:
        worked = fabric.pieces[fit.edges[0].piece]
        length = fit.lengths_mm[0]
        named = fit.join.with_.value if fit.join.with_ else last_yarn(pattern, worked)
        yarn = pattern.yarn(named)
        if yarn is None or length is None:
            continue
        if fit.join.with_ is None and long_tail(worked) is not None:
            continue
        rate = _rate(pattern, worked.piece, yarn.key)
        count = _stitches(fit, rate)
        mm = SEAM * length if rate is None or rate.mm is None or count is None else count * rate.mm
        yield Seam(worked.piece, yarn.key, mm + 2 * TAIL, fit, count)
    for line in sewn_lines(pattern, fabric):
        mm = THREAD * line.mm * line.times + 2 * TAIL
        yield Seam(line.worked.piece, line.yarn, mm, line=line)


def _stitches(fit: Fit, rate: Rate | None) -> int | None:
    """The stitches of a crocheted seam, which takes as much yarn as they; None for a sewn one."""
    if fit.join.by is None or fit.join.by.value != "crochet" or rate is None or not rate.mm:
        return None
    return fit.join.count.value if fit.join.count else fit.counts[0] or 0


def long_tail(worked: WorkedPiece) -> float | None:
    """The length in mm of a tail that the piece is told to leave, or None."""
    for entry in reversed(worked.entries):
        if isinstance(entry, Action) and entry.act is Act.FASTEN_OFF:
            found = re.search(_TAIL, entry.text) if "tail" in entry.text.lower() else None
            return in_mm(found[1], found[2]) if found else None
    return None


def last_yarn(pattern: Pattern, worked: WorkedPiece) -> str:
    """The key of the yarn that a piece ends in; empty where it is not known."""
    last = worked.last
    key = last.stretches[-1].yarn if last and last.stretches else (last.yarn if last else None)
    yarn = yarn_for(pattern, worked.piece, key)
    return yarn.key if yarn else ""


def _strands(piece: Piece) -> int:
    """Strands held together; each goes the whole way of every stitch."""
    return max(piece.strands.value, 1) if piece.strands else 1


def _line(
    piece: Piece,
    entry: WorkedRound,
    rates: Mapping[str | None, Rate | None],
    shares: Mapping[str, float],
) -> Line:
    pairs = max((entry.used or 0) - (entry.made or 0), 0) if entry.available else 0
    together = DECREASE * pairs / sum(entry.tally.values())
    strands = _strands(piece)
    units: dict[str, float] = {}
    for (stitch, key), count in entry.tally.items():
        if (rate := rates[key]) is not None:
            here = count * (shares[stitch] + together) * strands
            units[rate.yarn.key] = units.get(rate.yarn.key, 0.0) + here
    return Line(entry.round.label.first, entry.rounds, units)


def _shares(pattern: Pattern, worked: WorkedPiece) -> dict[str, float]:
    """Yarn of each stitch over that of a single crochet; a stitch of the pattern's own takes as
    much as its height says (equal areas take equal yarn: windchilde.com, "Crochet Yarn
    Estimating")."""
    kinds, own = stitches(), {stitch.key: stitch.height for stitch in pattern.stitches}
    named = {stitch for entry in worked.rounds for stitch, _ in entry.tally}
    return {s: own.get(s, kinds[s].yarn if s in kinds else 1.0) for s in named}


def _rate(pattern: Pattern, piece: Piece, key: str | None) -> Rate | None:
    yarn = yarn_for(pattern, piece, key)
    if yarn is None:
        return None
    size, thick = stitch_size(pattern, piece, key), diameter(yarn)
    if size is None:
        return Rate(yarn, None, False)
    each = loop_path(size.width_mm, size.height_mm, thick) if thick else PER_WIDTH * size.width_mm
    return Rate(yarn, each, size.guessed)
