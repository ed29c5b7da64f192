"""An unknown word within a round, without which the round would read."""

from __future__ import annotations

from roundproof.checks._rounds import worked_rounds
from roundproof.checks.base import Check, Found, missing, quoted
from roundproof.findings import Severity
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    for piece, _, worked in worked_rounds(proof):
        for stray in worked.round.stray:
            yield CHECK.finding(
                stray,
                f"{quoted(stray.text)} in {worked.label} is not known here; without it the round"
                " would read, so it is not counted and the piece goes on from its stated count.",
                "Leave the word out, or put it behind the count as a remark.",
                severity=missing(proof.pattern.status),
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
    R3: sc {}in each st around (12)
"""

CHECK = Check(
    id="word-stray",
    title="Word passed over in a round",
    why=(
        "A round is counted only if every word of it is understood: a word that is passed over"
        " may be the one that changes what is worked. Words that say how (loosely, firmly) are"
        " known; another one stands in the way of the count."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format("nicely "),
    good=_PATTERN.format("loosely "),
    source="common practice, no source: every term used is in the key",
    run=_run,
)
