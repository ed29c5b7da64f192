"""What a line of work comes to: its misfits, its tally, its heights, stitches drawn in again."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from itertools import groupby, islice

from roundproof.fabric.laid import laid
from roundproof.fabric.model import Misfit, Stretch, WorkedRound
from roundproof.fabric.outcome import MOST_STRETCHES, Outcome
from roundproof.frozen import replace
from roundproof.notation.tree import Instruction, Round, Unit
from roundproof.notation.units import every_stitch
from roundproof.pattern.model import Pattern
from roundproof.reference import stitches

_MOST = 20_000
"""Stitches of a round that are told one by one to find their yarns."""


def absorbed(below: WorkedRound, worked: WorkedRound) -> int:
    """Stitches of the round below that share a loop and are all closed together again: each place
    with three in it is one in the next round."""
    if not below.made or not worked.made or below.made < 2 * worked.made:
        return 0
    several, closed = _alike(below.instruction), _alike(worked.instruction)
    if several is None or closed is None:
        return 0
    wide = several.uses == 1 and several.made > 1 and closed.made == 1
    return below.made - worked.made if wide and closed.uses == several.made else 0


def _alike(instruction: Instruction | None) -> Unit | None:
    """What all stitches of a round are, if they are alike."""
    units = {stitch.unit for stitch in every_stitch(instruction.items)} if instruction else set()
    return units.pop() if len(units) == 1 else None


def without_chains(worked: WorkedRound) -> WorkedRound:
    """A round whose chains count for nothing, with its yarns told of its other stitches alone."""
    if len({stretch.yarn for stretch in worked.stretches}) == 1:
        return replace(worked, stretches=(Stretch(worked.stretches[0].yarn, worked.made or 0),))
    counted = (s.yarn for s in islice(laid(worked), _MOST) if s.number and s.kind != "ch")
    runs = [Stretch(yarn, len(list(same))) for yarn, same in groupby(counted)]
    if len(runs) > MOST_STRETCHES or sum(run.made for run in runs) != worked.made:
        return worked
    return replace(worked, stretches=tuple(runs))


def mean_height(tally: Mapping[tuple[str, str | None], int], pattern: Pattern) -> float:
    """Mean height of stitches in single crochets; chains and slip joins have none."""
    heights = {kind: stitches()[kind].height for kind, _ in tally if kind in stitches()}
    heights |= {own.key: own.height for own in pattern.stitches}
    counted = {k: n for k, n in tally.items() if heights.get(k[0], 0) > 0}
    total = sum(counted.values())
    return sum(heights[k[0]] * n for k, n in counted.items()) / total if total else 1.0


def misfit(outcomes: list[Outcome], round_: Round) -> Misfit | None:
    """The first round of a line that does not come out with what there is."""
    for number, out in enumerate(outcomes, round_.label.first):
        if out.available is not None and (out.over or out.spare) and not out.uneven:
            span = out.over_at or round_.work
            needed = out.used + out.left + out.short
            return Misfit(number, out.available, needed, out.over, out.spare, span)
    return None


def counted(out: Outcome, stated: int | None) -> int:
    """Stitches made; without its chains where that is what the text states."""
    if stated is not None and stated == out.made - out.chains:
        return stated
    return out.made


def run_of(outcomes: list[Outcome], rounds: int, stated: int | None) -> tuple[tuple[int, int], ...]:
    if len(outcomes) == 1:
        return ((rounds, counted(outcomes[0], stated)),)
    rest = rounds - len(outcomes) + 1
    return (*((1, o.made) for o in outcomes[:-1]), (max(1, rest), outcomes[-1].made))


def one_round(outcomes: list[Outcome], rounds: int) -> Mapping[tuple[str, str | None], int]:
    """The tally of one round; for a range whose rounds differ, their mean, rounded."""
    if len(outcomes) == 1:
        return outcomes[0].tally
    total: Counter[tuple[str, str | None]] = Counter()
    for index, out in enumerate(outcomes):
        weight = rounds - len(outcomes) + 1 if index == len(outcomes) - 1 else 1
        for key, count in out.tally.items():
            total[key] += count * max(1, weight)
    return {key: round(count / rounds) for key, count in total.items()}
