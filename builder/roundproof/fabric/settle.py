"""Which reading of a round holds, and from which count the round goes on.

Only a reading that uses what is there and makes what is stated wins. Settling never hides a
fault: where none fits, the likeliest one is kept with what is wrong with it.
"""

from __future__ import annotations

from collections.abc import Sequence

from roundproof.fabric.once import Outcome, worked
from roundproof.frozen import dataclass
from roundproof.notation.tree import Instruction, Round


@dataclass(frozen=True)
class Settled:
    """The reading that is kept, worked into `available`. `unsettled`: several readings fit and
    come to different counts."""

    instruction: Instruction
    outcome: Outcome
    available: int | None
    unsettled: bool = False


def settle(
    round_: Round, candidates: Sequence[int | None], yarn: str | None, chain_counts: bool
) -> Settled:
    """Work every reading into every count the round below may have left, the likeliest count
    first, and keep the best. `candidates` has at least one count; None stands for unknown."""
    tried = [
        Settled(reading, outcome, outcome.available)
        for available in candidates
        for reading in round_.readings
        for outcome in [worked(reading, available, yarn, chain_counts)]
    ]
    stated = round_.stated.count if round_.stated else None
    best = min(tried, key=lambda t: _faults(t.outcome, stated))
    rivals = {t.outcome.made for t in tried if _faults(t.outcome, stated) == 0
              and t.available == best.available}  # fmt: skip
    if len(rivals) > 1 and stated is None and len(round_.readings) > 1:
        return Settled(best.instruction, best.outcome, best.available, unsettled=True)
    return best


def _agrees(outcome: Outcome, stated: int | None) -> bool:
    """Whether a round makes what it states; chains may be counted or not."""
    return stated is None or stated in (outcome.made, outcome.made - outcome.chains)


def _faults(outcome: Outcome, stated: int | None) -> int:
    """How far an outcome is from one that holds: 0 where nothing is wrong."""
    wrong_fit = bool(outcome.over or outcome.spare or outcome.uneven)
    return 2 * wrong_fit + (not _agrees(outcome, stated))
