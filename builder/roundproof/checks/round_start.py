"""A first round that is worked into nothing."""

from __future__ import annotations

from roundproof.checks.base import Check, Found
from roundproof.fabric.model import Base
from roundproof.findings import Severity
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    for piece in proof.fabric.pieces.values():
        first = piece.rounds[0] if piece.rounds else None
        if first is None or not first.round.readings or piece.piece.starts is not None:
            continue
        if first.base is Base.RING and first.available is None:
            yield CHECK.finding(
                first.round.work,
                f"{first.label} does not say what its stitches are worked into.",
                "Start with a ring, like `6 sc in magic ring`, with a chain, like `ch 2, 6 sc in"
                " 2nd ch from hook`, or say with `starts:` which edge the piece grows out of.",
                piece=piece.piece.key,
                round=first.label,
            )


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc{} (6)
    R2: inc x 6 (12)
"""

CHECK = Check(
    id="round-start",
    title="First round worked into nothing",
    why=(
        "The first stitches need something to go into: a ring, a chain, an edge of another piece."
        " Which one it is decides how the start looks and whether it closes."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format(""),
    good=_PATTERN.format(" in magic ring"),
    source="common practice, no source: the start is stated",
    run=_run,
)
