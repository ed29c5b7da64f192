"""Which reading of a round holds, and from which count the round goes on.

Only a reading that uses what is there and makes what is stated wins. Settling never hides a
fault: where none fits, the likeliest one is kept with what is wrong with it.
"""

from __future__ import annotations

from collections.abc import Sequence

from roundproof.fabric.lifting import ways_to_count
from roundproof.fabric.once import Places, fills, nowhere, worked
from roundproof.fabric.outcome import Outcome
from roundproof.frozen import dataclass, replace
from roundproof.notation.tree import Fill, Instruction, Item, Repeat, Round, Stitches, Where


@dataclass(frozen=True)
class Settled:
    """The reading that is kept, worked into `available`. `unsettled`: several readings fit and
    come to different counts."""

    instruction: Instruction
    outcome: Outcome
    available: int | None
    unsettled: bool = False
    counting: bool = False
    """Whether a chain that lifts the work was taken for a stitch."""


def settle(
    round_: Round,
    candidates: Sequence[int | None],
    yarn: str | None,
    chain_counts: bool | None,
    infer: bool = True,
    places: Places = nowhere,
) -> Settled:
    """Work every reading into every count the round below may have left, the likeliest count
    first, and keep the best. `candidates` has at least one count; None stands for unknown, and
    with `infer` the count is then found from what the round states that it makes. `chain_counts`
    is what the piece says of a chain that lifts the work; None where it says nothing. `places`
    tells how many stitches there are at places that are not the round below."""
    stated = round_.stated.count if round_.stated else None
    tried: list[Settled] = []
    for available in candidates:
        for reading in round_.readings:
            for counting in ways_to_count(reading, chain_counts):
                out = worked(reading, available, yarn, counting, places)
                tried.append(Settled(reading, out, out.available, counting=counting))
        plain = len(round_.readings) == 1 and tried[-1].available is not None
        if plain and not _faults(tried[-1].outcome, stated) and len(tried) == 1:
            return tried[0]  # the likeliest holds, and nothing else can be meant
    tried += _otherwise(tried, stated, yarn, infer)
    best = min(tried, key=lambda t: _faults(t.outcome, stated))
    rivals = {t.outcome.made for t in tried if _faults(t.outcome, stated) == 0
              and t.available == best.available}  # fmt: skip
    if len(rivals) > 1 and stated is None and len(round_.readings) > 1:
        return Settled(best.instruction, best.outcome, best.available, unsettled=True)
    return best


def _otherwise(
    tried: Sequence[Settled],
    stated: int | None,
    yarn: str | None,
    infer: bool,
) -> list[Settled]:
    """What else a round with a stated count may be: '2 sc, inc (24)' said once for all of it; and,
    where it is not known what there is to work into, the count that makes what is stated."""
    if stated is None or any(
        _faults(t.outcome, stated) == 0 and t.available is not None for t in tried
    ):
        return []
    found: list[Settled] = []
    for each in tried:
        available: int | None = each.available
        if available is None:
            needed = _needed(each.instruction, stated, yarn, each.counting) if infer else None
            if needed:
                out = worked(each.instruction, needed, yarn, each.counting)
                found.append(Settled(each.instruction, out, needed, counting=each.counting))
        elif filled := _filled(each):
            out = worked(filled, available, yarn, each.counting)
            found.append(Settled(filled, out, out.available, counting=each.counting))
    return [f for f in found if _faults(f.outcome, stated) == 0]


def _filled(each: Settled) -> Instruction | None:
    """'2 sc, inc' and '2 sc, inc around' taken over and over, where the words leave that open."""
    work = each.instruction
    *before, last = work.items
    if isinstance(last, Stitches) and last.times == Fill() and last.unit.word and before:
        last = replace(last, times=1)
    elif not each.outcome.spare:
        return None
    items = (*before, last)
    if not all(_once(item) for item in items):
        return None
    return replace(work, items=(Repeat(items, Fill(), items[0].span.to(last.span)),))


def _once(item: Item) -> bool:
    """Plain stitches that go on to the next ones: nothing is said of how often."""
    return isinstance(item, Stitches) and item.where is Where.NEXT and isinstance(item.times, int)


def _needed(work: Instruction, stated: int, yarn: str | None, chain_counts: bool) -> int | None:
    """How many stitches there have to be for a round that fills them to make so many."""
    if not fills(work.items):
        return None
    low, high = (worked(work, n, yarn, chain_counts).made for n in (stated, 2 * stated))
    if high == low or stated * (stated - low) % (high - low):
        return None
    return stated + stated * (stated - low) // (high - low)


def _agrees(outcome: Outcome, stated: int | None) -> bool:
    """Whether a round makes what it states; chains may be counted or not."""
    return stated is None or stated in (outcome.made, outcome.made - outcome.chains)


def _faults(outcome: Outcome, stated: int | None) -> int:
    """How far an outcome is from one that holds: 0 where nothing is wrong."""
    wrong_fit = bool(outcome.over or outcome.spare or outcome.uneven)
    return 2 * wrong_fit + (not _agrees(outcome, stated))
