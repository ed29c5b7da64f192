"""What stands side by side in a round: mostly a stitch; else a column of chains, or a spur."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from roundproof.drawing.chart.signs import tall, wide
from roundproof.fabric.courses import Course, Ground
from roundproof.fabric.laid import Laid
from roundproof.frozen import dataclass

FAN, NARROW = 4, 0.72
"""So many stitches in one foot stand closer together than others: how much room each has."""
LEAST = 0.6
"""No round is lower than this."""
AIR = 0.2
"""Between one round and the next."""
LIFT = 0.5
"""From one chain of a column to the next."""


@dataclass(frozen=True, slots=True)
class Member:
    """A stitch of a slot by its place in the course: so far to the left of the slot's middle (in
    the direction of work), its top so far above the ground."""

    stitch: int
    aside: float
    top: float


@dataclass(frozen=True, slots=True)
class Slot:
    """`wide` is the room it needs along the round, `stands` what it stands on."""

    wide: float
    stands: tuple[int, ...]
    members: tuple[Member, ...]


def slots(course: Course) -> tuple[Slot, ...]:
    """In the direction of work; all stitches of the course are in them, once."""
    found: list[Slot] = []
    row = course.stitches
    shares = {} if course.far or course.ground is Ground.RING else _sharing(course.stands)
    lifts = _leading_chains(course)
    at = 0
    if lifts:
        found.append(_column(range(lifts), 0.0))
        at = lifts
    end = len(row) - _trailing_chains(row, at)
    while at < end:
        spur = _spur(course, at)
        if spur > at:
            found.append(_spur_slot(course, at, spur))
            at = spur
            continue
        stitch, stands = row[at], course.stands[at]
        if not stitch.number and stitch.kind != "ch" and not stands and found:
            found[-1] = _on_top(found[-1], at, tall(stitch.kind))  # a picot sits on the last one
        else:
            room = wide(stitch.kind)
            if shares.get(stands, 1) >= FAN and stands:
                room = min(room, NARROW)
            found.append(Slot(room, stands, (Member(at, 0.0, tall(stitch.kind)),)))
        at += 1
    if end < len(row):
        found.append(_column(range(end, len(row)), high_of(found) + AIR))
    return tuple(found)


SKIPPED = 0.6
"""How much room a stitch of the ground takes that nothing stands on."""


def skipped(course: Course, row: Sequence[Slot]) -> list[float]:
    """Before each slot, and after the last: the room of places that are passed over there."""
    order = row if not course.stands or _rises(row) else tuple(reversed(row))
    found, last = list[float](), -1
    for slot in order:
        first = min(slot.stands, default=last)
        found.append(SKIPPED * max(0, first - last - 1))
        last = max(last, *slot.stands) if slot.stands else last
    found.append(SKIPPED * max(0, course.room - last - 1) if last >= 0 else 0.0)
    return found if order is row else found[::-1]


def _rises(row: Sequence[Slot]) -> bool:
    stood = [min(slot.stands) for slot in row if slot.stands]
    return len(stood) < 2 or stood[0] <= stood[-1]


def high_of(row: Sequence[Slot]) -> float:
    """How high the tallest stitch of a round reaches."""
    return max((m.top for slot in row for m in slot.members), default=LEAST)


def line_high(course: Course, row: Sequence[Slot]) -> float:
    """The height of a round's line over its ground. Chains at its end lift the next one and are
    not reckoned."""
    own = row[:-1] if len(row) > 1 and _is_lift(course, row[-1]) else row
    return max(LEAST, high_of(own)) + AIR


def _is_lift(course: Course, slot: Slot) -> bool:
    last = len(course.stitches) - 1
    return (
        slot.members[-1].stitch == last and course.stitches[last].kind == "ch" and not slot.stands
    )


def _sharing(stands: Sequence[tuple[int, ...]]) -> dict[tuple[int, ...], int]:
    counts: dict[tuple[int, ...], int] = {}
    for each in stands:
        counts[each] = counts.get(each, 0) + 1
    return counts


def _leading_chains(course: Course) -> int:
    """Chains that lift the work to the height of its round: they begin it, at most one counts."""
    count = 0
    for stitch, within in zip(course.stitches, course.within, strict=True):
        if stitch.kind != "ch" or within:
            break
        count += 1
    if count == len(course.stitches) or _spur(course, 0) > 0:
        return 0
    return count if sum(s.number > 0 for s in course.stitches[:count]) <= 1 else 0


def _trailing_chains(row: Sequence[Laid], begin: int) -> int:
    count = 0
    while count < len(row) - begin and row[-1 - count].kind == "ch" and not row[-1 - count].number:
        count += 1
    return count


def _spur(course: Course, at: int) -> int:
    """Where a spur ends that begins here: chains, and stitches back down along them."""
    row, within = course.stitches, course.within
    chains = at
    while chains < len(row) and row[chains].kind == "ch" and not within[chains]:
        chains += 1
    end = chains
    while end < len(row) and within[end] and min(within[end]) >= at:
        end += 1
    return end if end > chains > at else at


def _column(places: range, ground: float) -> Slot:
    members = (Member(p, 0.0, ground + LIFT * (n + 1)) for n, p in enumerate(places))
    return Slot(0.8, (), tuple(members))


def _spur_slot(course: Course, begin: int, end: int) -> Slot:
    return Slot(1.5, (), tuple(_spur_members(course, begin, end)))


def _spur_members(course: Course, begin: int, end: int) -> Iterator[Member]:
    """The chains go up on one side, the stitches come down on the other, each beside its chain."""
    tops: dict[int, float] = {}
    for at in range(begin, end):
        own = course.within[at]
        if not own:
            tops[at] = LIFT * (at - begin + 1)
            yield Member(at, -0.35, tops[at])
        else:
            beside = sum(tops.get(chain, LIFT) for chain in own) / len(own)
            yield Member(at, 0.35, beside)


def _on_top(slot: Slot, stitch: int, high: float) -> Slot:
    top = max(member.top for member in slot.members) + high
    return Slot(slot.wide, slot.stands, (*slot.members, Member(stitch, 0.0, top)))
