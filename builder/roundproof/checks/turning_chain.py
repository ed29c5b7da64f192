"""A chain that lifts the work, of which nobody says whether it counts as a stitch."""

from __future__ import annotations

from roundproof.checks._rounds import worked_rounds
from roundproof.checks.base import Check, Found, missing
from roundproof.fabric.lifting import chain_disputed
from roundproof.findings import Severity
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    told: set[str] = set()
    for piece, _, worked in worked_rounds(proof):
        key = piece.piece.key
        if piece.piece.chain_counts or key in told or worked.instruction is None:
            continue
        chain = chain_disputed(worked.instruction)
        if chain is None:
            continue
        told.add(key)
        yield CHECK.finding(
            chain.span,
            f"{worked.label} begins with `ch {chain.count}`, and makers differ on whether that"
            " counts as a stitch.",
            "Say `chain_counts: yes` or `chain_counts: no` in the piece.",
            severity=missing(proof.pattern.status),
            piece=key,
            round=worked.label,
        )


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body:
{}    rounds: |
      R1: ch 9, hdc in 3rd ch from hook, 6 hdc, turn (7)
      R2: ch 2, 7 hdc, turn (7)
"""

CHECK = Check(
    id="turning-chain",
    title="Turning chain that may count or not",
    why=(
        "The chain before a single crochet counts for nothing and the three before a double (UK:"
        " treble) for a stitch; of the two before a half double (UK: half treble) books and"
        " teachers say both. A maker who takes it the other way gains or loses a stitch a row."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format(""),
    good=_PATTERN.format("    chain_counts: no\n"),
    source="turning-chain tables of the trade: four count the two chains, two do not",
    run=_run,
)
