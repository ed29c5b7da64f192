"""A ball whose metres do not suit its grams."""

from __future__ import annotations

from roundproof.checks._materials import own_yarns
from roundproof.checks.base import Check, Found, quoted
from roundproof.findings import Severity
from roundproof.measure.figures import number
from roundproof.proof import Proof
from roundproof.reference.yarn_weights import yarn_weight
from roundproof.source import Span

_SHORT, _LONG = 0.6, 1.6
"""Times the least and the most metres that shops give: fibres differ in density by as much."""


def _run(proof: Proof) -> Found:
    seen: set[Span] = set()
    for yarn in own_yarns(proof):
        weight = yarn_weight(yarn.weight.value) if yarn.weight else None
        if weight is None or yarn.ball is None or yarn.ball.span in seen:
            continue
        seen.add(yarn.ball.span)
        in_100 = yarn.ball.metres / yarn.ball.grams * 100
        least, most = weight.metres.least, weight.metres.most
        if _SHORT * least <= in_100 <= _LONG * most:
            continue
        runs = f"{least:g} to {most:g}" if least else f"up to {most:g}"
        yield CHECK.finding(
            yarn.ball.span,
            f"{quoted(yarn.key)} runs to {number(in_100, 0)} m in 100 g, and yarns of weight"
            f" {weight.category} to {runs} m.",
            "Look at the label again: its grams, its metres (or yards) and its weight.",
        )


_PATTERN = """\
title: Pebble
terms: US
yarns:
  slate:
    weight: 3
    ball: {}
pieces:
  body: |
    R1: 6 sc in magic ring (6)
"""

CHECK = Check(
    id="put-up-odd",
    title="Grams and metres of a ball hardly agree",
    why=(
        "From the grams and metres of a ball follow how much yarn to buy and which other yarn will"
        " do. Two figures that were swapped, or yards that were written as metres with a number of"
        " their own, make both wrong."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format("125 g / 50 m"),
    good=_PATTERN.format("50 g / 125 m"),
    source="metres in 100 g as yarn shops publish them for each weight; the margin: common"
    " practice, no source",
    run=_run,
)
