"""How long the making takes, as a range."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import pairwise

from roundproof.fabric.model import Fabric, WorkedPiece
from roundproof.fabric.places import copies
from roundproof.frozen import dataclass
from roundproof.measure.figures import number
from roundproof.measure.model import Fit, PieceSize, Spent
from roundproof.measure.stuffing import stuffed
from roundproof.pattern.model import Embroider, Join, Pattern, Place
from roundproof.reference import stitches

# Minutes. Common practice, no source, but for the sewing ("a couple of minutes per arm",
# worldofwhimsy.net) and the pace: 18 to 20 taller stitches a minute were timed once while only
# working (crochetwithdee.blogspot.com, March 2005), and a whole project came to 5 stitches a
# minute with everything (scienceagogo.com, November 2004: 25,511 stitches in 85 hours).
STITCHES_A_MINUTE = 12.0
COUNTING = 1.3
"""Counting, markers and rests, over the time of working alone."""
SHAPING = 1.5
"""An increase or a decrease takes as long as this many stitches."""
START, FASTEN_OFF, END, COLOUR_CHANGE = 2.0, 1.0, 1.5, 0.5
STUFFING, STUFFING_A_DECILITRE = 2.0, 1.0
SEAM, SEAM_STITCHES_A_MINUTE = 3.0, 8.0
ITEM, LINE = 2.0, 5.0
SPREAD = 0.35
"""Makers differ by this much either way."""


@dataclass(frozen=True, slots=True)
class Time:
    """`whole` is the sum of `pieces`, by their keys, each for all its copies, and `making_up`."""

    whole: Spent
    pieces: Mapping[str, Spent]
    making_up: Spent


@dataclass(frozen=True, slots=True)
class _Minutes:
    """Minutes `stitching`, counting and rests included, and minutes `beside`: starts, ends,
    filling, seams."""

    stitching: float = 0.0
    beside: float = 0.0

    def __add__(self, other: _Minutes) -> _Minutes:
        return _Minutes(self.stitching + other.stitching, self.beside + other.beside)

    @property
    def hours(self) -> tuple[float, float]:
        hours = (self.stitching + self.beside) / 60
        return hours * (1 - SPREAD), hours * (1 + SPREAD)


def making_time(
    pattern: Pattern, fabric: Fabric, sizes: Mapping[str, PieceSize], fits: Iterable[Fit]
) -> Time:
    """Working all copies of all pieces, and making up."""
    filled = stuffed(pattern, fabric, sizes)
    minutes = {
        key: _piece(pattern, worked, sizes[key] if key in filled else None)
        for key, worked in fabric.pieces.items()
        if worked.stitches is not None and worked.rounds
    }
    making_up = _Minutes(beside=sum(_seam(fit, fabric) for fit in fits) + _placing(pattern))
    pace, either = _pace_said(pattern), f"{number(SPREAD * 100, 0)} % either way"
    said = "seams and things placed and embroidered"
    return Time(
        _whole(fabric, sum(minutes.values(), making_up), pace),
        {
            key: _told(worked, minutes.get(key), f"{pace}, starts, ends and filling")
            for key, worked in fabric.pieces.items()
        },
        Spent(making_up.hours, f"{said} {number(making_up.beside / 60, 1)} h; {either}"),
    )


def _whole(fabric: Fabric, minutes: _Minutes, pace: str) -> Spent:
    for worked in fabric.pieces.values():
        if worked.stitches is None:
            return Spent(None, f"{worked.piece.key} has a round that could not be read")
    if not minutes.stitching:
        return Spent(None, "there are no rounds yet")
    return Spent(minutes.hours, _said(minutes, f"{pace}, starts, ends and making up"))


def _told(worked: WorkedPiece, minutes: _Minutes | None, rest: str) -> Spent:
    """The time for all copies of a piece."""
    if minutes is None:
        why = "has a round that could not be read" if worked.rounds else "has no rounds yet"
        return Spent(None, f"{worked.piece.key} {why}")
    copies = f"all {worked.piece.make} copies: " if worked.piece.make > 1 else ""
    return Spent(minutes.hours, copies + _said(minutes, rest))


def _said(minutes: _Minutes, rest: str) -> str:
    return (
        f"stitches {number(minutes.stitching / 60, 1)} h at {rest}"
        f" {number(minutes.beside / 60, 1)} h; {number(SPREAD * 100, 0)} % either way"
    )


def _pace_said(pattern: Pattern) -> str:
    """The pace and who says so."""
    by = "a common pace"
    if pattern.pace is not None:
        name = pattern.pace.span.source.name.rpartition("/")[2]
        by = "as the pattern says" if pattern.pace.span.source == pattern.source else f"by {name}"
    return f"{number(_a_minute(pattern))} single crochets a minute ({by}) with counting and rests"


def _a_minute(pattern: Pattern) -> float:
    return pattern.pace.value if pattern.pace else STITCHES_A_MINUTE


def _piece(pattern: Pattern, worked: WorkedPiece, filled: PieceSize | None) -> _Minutes:
    """All copies of a piece; `filled` its size where it is stuffed."""
    make = worked.piece.make
    beside = _handling(worked)
    if filled is not None:
        beside += STUFFING + STUFFING_A_DECILITRE * (filled.volume_ml or 0.0) / 100
    return _Minutes(COUNTING * _stitching(pattern, worked) * make, beside * make)


def _stitching(pattern: Pattern, worked: WorkedPiece) -> float:
    """Minutes on the hook for one copy."""
    each = {stitch: 1 / _pace(pattern, stitch) for stitch in _kinds(worked)}
    units = 0.0
    for entry in worked.rounds:
        here = sum(n * each[stitch] for (stitch, _), n in entry.tally.items())
        if entry.available:
            here += (SHAPING - 1) * abs((entry.used or 0) - (entry.made or 0))
        units += here * entry.rounds
    return units / _a_minute(pattern)


def _kinds(worked: WorkedPiece) -> set[str]:
    return {stitch for entry in worked.rounds for stitch, _ in entry.tally}


def _pace(pattern: Pattern, stitch: str) -> float:
    own = next((s for s in pattern.stitches if s.key == stitch), None)
    if own is not None:
        return 1 / max(own.height, 1.0)
    kind = stitches().get(stitch)
    return kind.pace if kind else 1.0


def _handling(worked: WorkedPiece) -> float:
    """Minutes for one copy beside the stitches: start, ends, changes of colour."""
    yarns = [stretch.yarn for entry in worked.rounds for stretch in entry.stretches]
    changes = sum(one != two for one, two in pairwise(yarns))
    return START + FASTEN_OFF + 2 * END * max(len(set(yarns)), 1) + COLOUR_CHANGE * changes


def _seam(fit: Fit, fabric: Fabric) -> float:
    make = fabric.pieces[fit.edges[0].piece].piece.make
    return make * (SEAM + (fit.counts[0] or 0) / SEAM_STITCHES_A_MINUTE)


def _placing(pattern: Pattern) -> float:
    minutes = 0.0
    for step in pattern.assembly:
        if isinstance(step.verb, Place):
            minutes += ITEM * copies(step.verb.around)
        elif isinstance(step.verb, Embroider):
            minutes += LINE * max(len(step.verb.lines), 1)
        elif isinstance(step.verb, Join) and step.verb.to is None:
            minutes += SEAM
    return minutes
