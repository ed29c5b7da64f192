"""A round that is missing, recognised from the rounds around it."""

from __future__ import annotations

from roundproof.checks._rounds import worked_rounds
from roundproof.checks._series import Lost, inserted, lost_before
from roundproof.checks.base import Check, Found
from roundproof.findings import Severity
from roundproof.measure.figures import stitches
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    for piece, before, worked in worked_rounds(proof):
        lost = lost_before(before, worked)
        if lost is None:
            continue
        text, edits = inserted(proof, piece, lost)
        yield CHECK.finding(
            worked.round.work,
            f"{worked.label} needs {stitches(lost.needed)} and {lost.before.label} makes"
            f" {lost.made}; the rounds around it {_change(lost)}: a round is missing between them.",
            f"Write it in: `{text}`."
            if text
            else f"Write in a round that makes {lost.needed}, or change the words of one of them.",
            piece=piece.piece.key,
            round=worked.label,
            edits=edits,
        )


def _change(lost: Lost) -> str:
    return f"{'gain' if lost.step > 0 else 'lose'} {abs(lost.step)} each"


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: (sc, inc) x 6 (18)
{}    R5: (3 sc, inc) x 6 (30)
    R6: sc around (30)
"""

CHECK = Check(
    id="round-lost",
    title="A round that got lost",
    why=(
        "A round left out while typing shows as a count that does not fit, and often in the wrong"
        " place. The rounds around it tell what it was: they gain or lose the same number each."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format(""),
    good=_PATTERN.format("    R4: (2 sc, inc) x 6 (24)\n"),
    source="common practice, no source: each round uses what the last one left",
    run=_run,
)
