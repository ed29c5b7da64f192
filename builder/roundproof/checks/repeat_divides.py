"""A repeat told to fill the round that does not come out even."""

from __future__ import annotations

from roundproof.checks._rounds import worked_rounds
from roundproof.checks.base import Check, Found
from roundproof.fabric.model import Uneven
from roundproof.findings import Severity
from roundproof.measure.figures import stitches
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    for piece, _, worked in worked_rounds(proof):
        uneven = worked.uneven
        if uneven is None:
            continue
        times = uneven.available // uneven.each
        yield CHECK.finding(
            uneven.span,
            f"The group uses {uneven.each} at a time and {worked.label} has {uneven.available} for"
            f" it: {times} {'time' if times == 1 else 'times'} uses {times * uneven.each},"
            f" {stitches(uneven.over)} over.",
            f"{_groups(uneven)}A round of {times * uneven.each} or {(times + 1) * uneven.each}"
            f" would come out even; or stop short with `to last {uneven.over}"
            f" st{'s' if uneven.over > 1 else ''}` and say what is worked there.",
            piece=piece.piece.key,
            round=worked.label,
        )


def _groups(uneven: Uneven) -> str:
    """The sizes of group, nearest to this one, that divide the round."""
    there = uneven.available
    smaller = next((n for n in range(min(uneven.each, there), 1, -1) if there % n == 0), None)
    larger = next((n for n in range(uneven.each, 3 * uneven.each) if n and there % n == 0), None)
    fit = " or ".join(str(n) for n in (smaller, larger) if n)
    return f"A group that uses {fit} comes out even. " if fit else ""


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: *{}, inc; rep from * around
"""

CHECK = Check(
    id="repeat-divides",
    title="Repeat does not come out even",
    why=(
        "A group that is repeated around must use a whole divisor of the round. If it does not, the"
        " last time stops in the middle of the group, and each maker ends it in another way."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format("4 sc"),
    good=_PATTERN.format("3 sc"),
    source="common practice, no source: a repeat uses a whole divisor of the round",
    run=_run,
)
