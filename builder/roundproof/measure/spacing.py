"""How a difference between two edges is spread."""

from __future__ import annotations


def spread(count: int, events: int) -> tuple[tuple[int, int], ...]:
    """Gaps for so many events over `count` stitches, as (every so many stitches, so many times),
    the shorter gap first: 124 stitches and 14 events are every 8th twice and every 9th 12 times.

    Source: even spacing by division with remainder, as in A. Budd's note (2010) on C. Brunette,
    Sweater 101 (1991). Needs 0 < events <= count."""
    gap, longer = divmod(count, events)
    plans = ((gap, events - longer), (gap + 1, longer))
    return tuple(plan for plan in plans if plan[1])


def partner(stitch: int, longer: int, shorter: int) -> int:
    """Which stitch of the shorter edge a stitch of the longer is sewn to, both counted from 1.

    Source: derived; the middle of each stitch is matched to the stitch that lies against it."""
    return (2 * stitch - 1) * shorter // (2 * longer) + 1
