"""Left and right, without whose left is meant."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from roundproof.checks._prose import span_of
from roundproof.checks.base import Check, Found, missing
from roundproof.findings import Severity
from roundproof.pattern.model import Pattern
from roundproof.proof import Proof
from roundproof.source import Span


def _run(proof: Proof) -> Found:
    if proof.pattern.left_right is not None:
        return
    for words, span in _said(proof.pattern):
        yield CHECK.finding(
            span,
            f"`{words}`: whose left and right are meant is not said.",
            "Say `left_right: wearer` for the object's own sides, or `left_right: viewer` for"
            " those of whoever looks at it.",
            severity=missing(proof.pattern.status),
        )
        return


def _said(pattern: Pattern) -> Iterator[tuple[str, Span]]:
    """Pieces that are told apart by their side, and steps that name one."""
    for piece in pattern.pieces:
        if found := _side().search(piece.key):
            yield found[0], piece.span
    for step in pattern.assembly:
        if step.step is not None and (found := _of_the_object().search(step.step.value)):
            yield found[0], span_of(step.step, found[0])


@cache
def _side() -> re.Pattern[str]:
    return re.compile(r"\b(?:left|right)(?:-hand)?\b", re.IGNORECASE)


@cache
def _of_the_object() -> re.Pattern[str]:
    """Sides of the object; the right side of the fabric and what is left over are not meant."""
    return re.compile(
        r"\b(?:the|its|her|his|one|each) (?:left|right)(?:-hand)?"
        r" (?!sides? (?:of the (?:fabric|work)|out|together|facing|up)|over\b|loop)\w+",
        re.IGNORECASE,
    )


_PATTERN = """\
title: Crab
terms: US
{}pieces:
  left claw: |
    R1: 6 sc in magic ring (6)
  right claw: {{mirror: left claw}}
"""

CHECK = Check(
    id="left-right-unsaid",
    title="Left and right without whose",
    why=(
        "The left claw of a crab that looks at its maker is on the right of the picture. Patterns"
        " that name sides say once whether they mean those of the object or of whoever looks at"
        " it, and the pages repeat it."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format(""),
    good=_PATTERN.format("left_right: wearer\n"),
    source="common practice, no source: left and right defined as the wearer's or the viewer's",
    run=_run,
)
