"""An abbreviation that stands for two things."""

from __future__ import annotations

from roundproof.checks._rounds import worked_rounds
from roundproof.checks.base import Check, Found, quoted
from roundproof.findings import Edit, Severity
from roundproof.proof import Proof
from roundproof.reference import short_name
from roundproof.source import Span


def _run(proof: Proof) -> Found:
    for piece, _, worked in worked_rounds(proof):
        for span in worked.round.doubtful:
            message, clear = _meanings(span, proof)
            yield CHECK.finding(
                span,
                f"{quoted(span.text)} in {worked.label} {message}",
                f"Write `{clear}`.",
                piece=piece.piece.key,
                round=worked.label,
                edits=(Edit(span, clear),),
            )


def _meanings(span: Span, proof: Proof) -> tuple[str, str]:
    if span.text.lower() == "mc":
        said = "may be the magic circle or the main colour; it is taken for the circle."
        return said, "magic ring"
    single = short_name("sc", proof.pattern.written_in.value == "UK")
    said = f"names any stitch, and in some languages a tall one; it is taken for {quoted(single)}."
    return said, single


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in {} (6)
"""

CHECK = Check(
    id="abbreviation-ambiguous",
    title="Abbreviation with two meanings",
    why=(
        "`MC` is the magic circle to some makers and the main colour to others; `st` is any stitch"
        " in English and a certain tall one in some other languages. A maker who takes the other"
        " meaning works another piece, so write the one that is meant."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format("MC"),
    good=_PATTERN.format("magic ring"),
    source="abbreviation lists of the trade: one abbreviation printed with two meanings",
    run=_run,
)
