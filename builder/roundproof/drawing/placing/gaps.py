"""The gaps between neighbours round a piece, in stitches."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import islice

from roundproof.drawing.placing.host import MOST_DRAWN, Item
from roundproof.fabric.stands import Stand
from roundproof.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Gap:
    """`wide` stitches free from `start` on, in a round of `count`, at so many rounds
    from the start of the piece."""

    start: float
    wide: float
    count: int
    level: float = 0.0


def gaps(there: Sequence[Stand]) -> tuple[Gap, ...]:
    """Those after each of some things on one round, in the order in which they stand; none for a
    single one, and none where two lie on one another. See `between` for those worth a figure."""
    in_order = sorted(there, key=lambda stand: stand.start)
    if len(in_order) < 2:
        return ()
    found = []
    for n, stand in enumerate(in_order):
        after = in_order[(n + 1) % len(in_order)]
        wide = (after.start - stand.start) % stand.count - stand.wide
        if wide < -1e-9:
            return ()
        end = (stand.start + stand.wide) % stand.count
        level = (stand.low + stand.high) / 2
        found.append(Gap(end, max(0.0, round(wide, 6)), stand.count, level))
    return tuple(found)


def between(items: Sequence[Item]) -> tuple[Gap, ...]:
    """The gaps worth a figure between all that stands on the same rounds: not the way round the
    back, none where things touch, and none between the points of lines and joints."""
    found = (
        gap
        for group in levels([item for item in items if not item.points])
        for gap in gaps([stand for item in group for stand in item.stands])
        if 0 < gap.wide <= gap.count / 2
    )
    return tuple(islice(found, MOST_DRAWN))


def levels(items: Sequence[Item]) -> tuple[tuple[Item, ...], ...]:
    """Items whose places are known, those on the same rounds together."""
    groups: dict[tuple[float, float, int], tuple[Item, ...]] = {}
    for item in items:
        if item.stands:
            key = (item.low, item.high, item.stands[0].count)
            groups[key] = (*groups.get(key, ()), item)
    return tuple(groups.values())
