"""How long a line of embroidery is on the fabric (derived: the straight way over the unrolled
rounds, the shorter way round)."""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot

from roundproof.fabric.model import Fabric, WorkedPiece, WorkedRound
from roundproof.fabric.points import Line, Point, lines_of
from roundproof.frozen import dataclass
from roundproof.measure.bands import MOST_ROUNDS, round_size
from roundproof.notation.edges import piece_of
from roundproof.pattern.model import Embroider, Pattern


@dataclass(frozen=True, slots=True)
class Way:
    """From one point to another over the fabric: so many rounds up and stitches across, of the size
    that those of the round `here` have."""

    up: float
    across: float
    here: WorkedRound


@dataclass(frozen=True, slots=True)
class Sewn:
    """A line of embroidery on a piece: `mm` from end to end, worked over `times` times."""

    worked: WorkedPiece
    yarn: str
    mm: float
    times: int
    way: Way


def sewn_lines(pattern: Pattern, fabric: Fabric) -> Iterator[Sewn]:
    """Every line whose ends and whose gauge are known."""
    for step in pattern.assembly:
        if not isinstance(step.verb, Embroider) or step.verb.with_ is None:
            continue
        key = piece_of(step.verb.piece.value, fabric.pieces)
        yarn = pattern.yarn(step.verb.with_.value)
        if key is None or yarn is None:
            continue
        for line, _ in lines_of(fabric, step.verb):
            worked, way = fabric.pieces[key], _way(fabric.pieces[key], line)
            size = round_size(pattern, worked.piece, way.here) if way else None
            if way is None or size is None:
                continue
            mm = hypot(way.up * size.height, way.across * size.width)
            times = line.thread.times.value if line.thread.times else 1
            yield Sewn(worked, yarn.key, mm, times, way)


def _way(worked: WorkedPiece, line: Line) -> Way | None:
    """From one end of a line to the other; None where an end is not known."""
    if line.start is None or line.end is None:
        return None
    low, high = sorted((line.start, line.end), key=lambda point: point.height)
    here = worked.at(int(low.height) + 1) or worked.last
    if here is None or high.height - low.height > MOST_ROUNDS:
        return None
    return Way(high.height - low.height, _across(low, high), here)


def _across(low: Point, high: Point) -> float:
    """Stitches from one point to the other, the shorter way round, counted in the lower round."""
    if low.place is None or high.place is None or not low.count or not high.count:
        return 0.0
    apart = abs(low.place / low.count - high.place / high.count) % 1.0
    return min(apart, 1.0 - apart) * low.count
