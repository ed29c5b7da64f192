"""Stitches left over that nobody announced."""

from __future__ import annotations

from roundproof.checks._mends import another_number
from roundproof.checks._rounds import needed, source_of, stitches, worked_rounds
from roundproof.checks.base import Check, Found
from roundproof.fabric.model import Base, WorkedRound
from roundproof.findings import Severity
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    for piece, before, worked in worked_rounds(proof):
        left = left_over(worked)
        if not left:
            continue
        mend, edits = another_number(proof, worked)
        otherwise = f"If they are meant to stay, write `leave {left} sts unworked`."
        yield CHECK.finding(
            worked.round.work,
            f"{worked.label} uses {stitches(needed(worked))} and {source_of(before, worked)}:"
            f" {left} {'is' if left == 1 else 'are'} left over.",
            f"{mend} {otherwise}" if mend else otherwise,
            piece=piece.piece.key,
            round=worked.label,
            edits=edits,
        )


def left_over(worked: WorkedRound) -> int:
    """Stitches of the round below that are neither used nor announced as left."""
    if worked.available is None or worked.used is None or worked.over_span or worked.uneven:
        return 0
    if worked.base is Base.RING or worked.unsettled:
        return 0
    return max(0, worked.available - needed(worked))


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: (sc, inc) x {} ({})
"""

CHECK = Check(
    id="count-leftover",
    title="Stitches left over",
    why=(
        "Stitches that a round does not reach are a hole in the work, or the sign of a group worked"
        " too few times. Where they are meant to be left, for a leg or an opening, the words must"
        " say so, or the maker goes looking for the mistake."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format(5, 15),
    good=_PATTERN.format(6, 18),
    source="common practice, no source: each round uses what the last one left",
    run=_run,
)
