"""A weighed swatch that weighs far more, or far less, than its stitches can."""

from __future__ import annotations

from roundproof.checks._materials import own_yarns
from roundproof.checks.base import Check, Found, quoted
from roundproof.findings import Severity
from roundproof.measure.figures import number
from roundproof.measure.gauge import diameter
from roundproof.measure.spending import loop_path
from roundproof.pattern.model import Yarn
from roundproof.proof import Proof

_TIMES = 2.0
"""Estimates are within about 20 % of what a maker uses; twice as much is a slip."""


def _run(proof: Proof) -> Found:
    for yarn in own_yarns(proof):
        estimate = _estimate(yarn)
        if yarn.swatch is None or not estimate:
            continue
        grams = yarn.swatch.grams
        if estimate / _TIMES <= grams <= estimate * _TIMES:
            continue
        yield CHECK.finding(
            yarn.swatch.span,
            f"{quoted(yarn.key)}: {yarn.swatch.stitches} stitches weigh {number(grams, 1)} g here,"
            f" and by gauge and ball it would be about {number(estimate, 1)} g.",
            "Weigh the swatch again and count its stitches; all yarn needed is reckoned from it.",
        )


def _estimate(yarn: Yarn) -> float | None:
    """What the swatch would weigh in grams, by its gauge and the yarn's metres a gram."""
    thick, gauge = diameter(yarn), yarn.gauge
    if yarn.swatch is None or gauge is None or yarn.ball is None or thick is None:
        return None
    if gauge.stitch != "sc":
        return None
    metres = loop_path(gauge.stitch_width, gauge.round_height, thick) / 1000
    return yarn.swatch.stitches * metres * yarn.ball.grams / yarn.ball.metres


_PATTERN = """\
title: Pebble
terms: US
yarns:
  slate:
    ball: 50 g / 125 m
    gauge: 23 sts x 25 rounds = 10 cm
    swatch: {{stitches: 460, grams: {}}}
pieces:
  body: |
    R1: 6 sc in magic ring (6)
"""

CHECK = Check(
    id="swatch-odd",
    title="Swatch that weighs too much or too little",
    why=(
        "The weighed swatch takes the place of the estimate, so the metres, grams and balls that a"
        " maker buys all follow from it. A point in the wrong place makes ten balls of one."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format("46"),
    good=_PATTERN.format("4.6"),
    source="derived: the way of the yarn through a stitch of the gauge, as in the estimate of yarn",
    run=_run,
)
