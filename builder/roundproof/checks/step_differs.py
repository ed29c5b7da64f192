"""A step whose wording says something else than its entry."""

from __future__ import annotations

from roundproof.checks._prose import span_of
from roundproof.checks._step_words import Claim, at_odds
from roundproof.checks.base import Check, Found
from roundproof.findings import Edit, Severity
from roundproof.proof import Proof
from roundproof.source import Span


def _run(proof: Proof) -> Found:
    for step in proof.pattern.assembly:
        if step.step is None:
            continue
        for claim in at_odds(proof, step):
            span = span_of(step.step, claim.words)
            yield CHECK.finding(
                span,
                f"The step says {claim.said}, and the entry {claim.named}.",
                "Change the one that is wrong, or leave `step` out: its sentence is then made from"
                " the entry.",
                edits=_edits(claim, span),
            )


def _edits(claim: Claim, span: Span) -> tuple[Edit, ...]:
    return (Edit(span, claim.put),) if claim.put and span.text == claim.words else ()


_PATTERN = """\
title: Puffin
terms: US
notions: [eyes 2]
pieces:
  head: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: (sc, inc) x 6 (18)
    R4-R6: sc around (18)
assembly:
  - place: {item: eyes, piece: head, between: [R4, R5], around: {st: 3, apart: 4}}
    step: Set the eyes between R4 and R5, with %s stitches between them.
safety:
  note: The eyes are small parts that can come loose and be swallowed by young children.
"""

CHECK = Check(
    id="step-differs",
    title="A step that says something else than its entry",
    why=(
        "Makers read the sentence; diagrams, fits and counts come from the entry. When a number is"
        " changed in one of them and not in the other, the sentence sends the maker somewhere that"
        " nobody has checked."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN % "6",
    good=_PATTERN % "4",
    source="common practice, no source: the number in the text and in the diagram is one",
    run=_run,
)
