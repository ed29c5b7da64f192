"""A repeat told to fill the round that does not come out even."""

from __future__ import annotations

from roundproof.checks._rounds import stitches, worked_rounds
from roundproof.checks.base import Check, Found
from roundproof.findings import Severity
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
            f"A round of {times * uneven.each} or {(times + 1) * uneven.each} would come out even;"
            f" or stop short with `to last {uneven.over} st{'s' if uneven.over > 1 else ''}` and"
            " say what is worked there.",
            piece=piece.piece.key,
            round=worked.label,
        )


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
