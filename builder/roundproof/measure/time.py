"""How long the making takes, as a range."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import pairwise

from roundproof.fabric.model import Fabric, WorkedPiece
from roundproof.fabric.places import copies
from roundproof.frozen import dataclass
from roundproof.measure.figures import number
from roundproof.measure.model import Fit, PieceSize
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
    """`hours` from the quick to the slow maker, None where a round could not be read; `working`
    how, or why not."""

    hours: tuple[float, float] | None
    working: str


def making_time(
    pattern: Pattern, fabric: Fabric, sizes: Mapping[str, PieceSize], fits: Iterable[Fit]
) -> Time:
    """Working all copies of all pieces, and making up."""
    working = apart = 0.0
    for worked in fabric.pieces.values():
        if worked.stitches is None:
            return Time(None, f"{worked.piece.key} has a round that could not be read")
        working += _stitching(pattern, worked) * worked.piece.make
        apart += _handling(worked) * worked.piece.make
    if not working:
        return Time(None, "there are no rounds yet")
    apart += sum(_seam(fit, fabric) for fit in fits) + _placing(pattern)
    for key in stuffed(pattern, fabric, sizes):
        millilitres = sizes[key].volume or 0.0
        minutes = STUFFING + STUFFING_A_DECILITRE * millilitres / 100
        apart += minutes * fabric.pieces[key].piece.make
    hours = (COUNTING * working + apart) / 60
    return Time(
        (hours * (1 - SPREAD), hours * (1 + SPREAD)),
        f"stitches {number(COUNTING * working / 60, 1)} h at {number(STITCHES_A_MINUTE)} single"
        f" crochets a minute with counting and rests, starts, ends and making up"
        f" {number(apart / 60, 1)} h; {number(SPREAD * 100, 0)} % either way",
    )


def _stitching(pattern: Pattern, worked: WorkedPiece) -> float:
    """Minutes on the hook for one copy."""
    minutes = 0.0
    for entry in worked.rounds:
        units = sum(n / _pace(pattern, stitch) for (stitch, _), n in entry.tally.items())
        units += (SHAPING - 1) * abs((entry.used or 0) - (entry.made or 0)) * bool(entry.available)
        minutes += units * entry.rounds / STITCHES_A_MINUTE
    return minutes


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
