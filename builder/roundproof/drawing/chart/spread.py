"""Places in a row for stitches that each want to stand over their own."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate


def spread(
    wanted: Sequence[float], gaps: Sequence[float], round: float | None = None
) -> list[float]:
    """The places nearest to those wanted (least squares) that are in order and at least `gaps`
    apart. With `round`, the length of a closed line, the last gap is that from the last place on to
    the first one; the gaps must have room there.

    The places without their gaps must not fall: that is isotonic regression, which pooling
    neighbours that fall solves exactly (Barlow and others, Statistical Inference under Order
    Restrictions, 1972; from memory)."""
    if not wanted:
        return []
    if round is None:
        offsets = [0.0, *accumulate(gaps[: len(wanted) - 1])]
        return _pooled(wanted, offsets)
    # On a closed line the neighbours of the ends are at the other end: the row three times over.
    times = 3
    offsets = [0.0, *accumulate([*gaps] * times)][: times * len(wanted)]
    all_wanted = [place + turn * round for turn in range(times) for place in wanted]
    middle = _pooled(all_wanted, offsets)[len(wanted) : 2 * len(wanted)]
    return [place - round for place in middle]


def _pooled(wanted: Sequence[float], offsets: Sequence[float]) -> list[float]:
    pools: list[tuple[float, int]] = []
    for place, offset in zip(wanted, offsets, strict=True):
        total, count = place - offset, 1
        while pools and pools[-1][0] / pools[-1][1] > total / count:
            before, more = pools.pop()
            total, count = total + before, count + more
        pools.append((total, count))
    even = [total / count for total, count in pools for _ in range(count)]
    return [place + offset for place, offset in zip(even, offsets, strict=True)]


EVEN = 0.5
"""How much a stitch goes by its neighbours, where there is more room than needed."""
TIMES = 6


def evened(
    wanted: Sequence[float], gaps: Sequence[float], round: float | None = None
) -> list[float]:
    """Places that close up and share out the room there is to spare, so that no gap opens: each is
    partly where it was wanted and partly where its neighbours would have it, a few times over.
    `gaps` and `round` are those of `spread`; on a closed line the gaps are stretched to it."""
    count = len(wanted)
    if count < 2:
        return list(wanted)
    stretch = round / sum(gaps) if round is not None else 1.0
    lap = round or 0.0
    after = [gap * stretch for gap in gaps]
    before = [after[-1], *after[:-1]]
    places = list(wanted)
    for _ in range(TIMES):
        low = [p + gap for p, gap in zip([places[-1] - lap, *places[:-1]], before, strict=True)]
        high = [p - gap for p, gap in zip([*places[1:], places[0] + lap], after, strict=True)]
        if round is None:  # the ends have one neighbour
            low[0], high[-1] = high[0], low[-1]
        drawn = zip(wanted, low, high, strict=True)
        places = [(1 - EVEN) * w + EVEN * ((lo + hi) / 2) for w, lo, hi in drawn]
    return places
