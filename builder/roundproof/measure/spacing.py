"""How a difference between two edges is spread."""

from __future__ import annotations

from roundproof.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Plan:
    """How the stitches of a longer edge go into those of a shorter one: `each` into every stitch,
    and one more into every so many-th (`more`: (every so many stitches, so many times)). `short`
    is the place of the shorter edge in the pair, 0 or 1."""

    short: int
    each: int
    more: tuple[tuple[int, int], ...]


def plan(one: int, two: int) -> Plan | None:
    """How two edges of unlike counts are brought together, evenly; None where they are alike.

    Source: derived from `spread`; 6 to 5 is one stitch of the shorter doubled every 5."""
    if one == two or not one or not two:
        return None
    short = 0 if one < two else 1
    each, over = divmod(max(one, two), min(one, two))
    return Plan(short, each, spread(min(one, two), over) if over else ())


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
