"""Weight category, hook and gauge of a yarn that hardly go together."""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.checks._materials import own_yarns
from roundproof.checks.base import Check, Found, quoted
from roundproof.findings import Severity
from roundproof.measure.figures import number
from roundproof.pattern.model import Pattern, Yarn
from roundproof.proof import Proof
from roundproof.reference.yarn_weights import YarnWeight, yarn_weight
from roundproof.source import Span

_TIGHT = 1.75
"""Times the most stitches of the range: stuffed work is tighter than the label says, and in the
patterns seen by no more than 1.4 times."""
_THIN = 0.5
"""Times the thinnest hook of the range: about two sizes below is usual."""
_RATIO = (0.7, 2.6)
"""Width of a stitch over the hook: from 0.74 to 2.1 over all published ranges."""


def _run(proof: Proof) -> Found:
    seen: set[Span] = set()
    for yarn in own_yarns(proof):
        weight = yarn_weight(yarn.weight.value) if yarn.weight else None
        said = next(_said(proof.pattern, yarn, weight), None)
        if said is None or said[0] in seen:
            continue
        span, message, mend = said
        seen.add(span)
        yield CHECK.finding(span, f"{quoted(yarn.key)}: {message}", mend)


def _said(
    pattern: Pattern, yarn: Yarn, weight: YarnWeight | None
) -> Iterator[tuple[Span, str, str]]:
    """What is odd about a yarn, the plainest first: place, message and mend."""
    gauge, hook = yarn.gauge, yarn.hook
    per = gauge.stitches * 100 / gauge.over if gauge else 0.0
    if weight and gauge and gauge.stitch == weight.gauge_stitch and not _doubled(pattern):
        stitches = f"{number(per, 1)} stitches to 10 cm"
        told = f"yarns of weight {weight.category} make {_range(weight)}"
        if per < weight.gauge.least:
            yield gauge.span, f"{stitches} are loose; {told}, and stuffed work more.", _LOOSE
        if weight.gauge.most and per > _TIGHT * weight.gauge.most:
            yield gauge.span, f"{stitches} are very many; {told}.", _CHECK
    if weight and hook and weight.category:
        least, most = weight.hook.least, weight.hook.most
        told = f"a hook of {hook.value:g} mm, and for weight {weight.category} labels name"
        mm = f"{least:g} mm and more" if not most else f"{least:g} to {most:g} mm"
        if (most and hook.value > most) or hook.value < _THIN * least:
            yield hook.span, f"{told} {mm}.", _CHECK
    if gauge and hook and per and not _RATIO[0] < 100 / per / hook.value < _RATIO[1]:
        wide = number(100 / per, 1)
        message = f"stitches {wide} mm wide, and a hook of {hook.value:g} mm."
        yield gauge.span, message, "One of the two is hardly right: measure again."


_LOOSE = "Measure again, or take a thinner hook: filling shows between loose stitches."
_CHECK = "Look at the weight, the hook and the gauge again: one of them is hardly right."


def _range(weight: YarnWeight) -> str:
    least, most = weight.gauge.least, weight.gauge.most
    return f"{least:g} to {most:g}" if least else f"up to {most:g}"


def _doubled(pattern: Pattern) -> bool:
    """Whether anything is worked with several strands, which a gauge may be of."""
    return any(piece.strands and piece.strands.value > 1 for piece in pattern.pieces)


_PATTERN = """\
title: Pebble
terms: US
yarns:
  slate:
    weight: 3
    hook: {} mm
    gauge: {} sts x 25 rounds = 10 cm
pieces:
  body: |
    R1: 6 sc in magic ring (6)
"""

CHECK = Check(
    id="gauge-odd",
    title="Weight, hook and gauge hardly go together",
    why=(
        "A maker who has to find another yarn goes by the weight, and by the hook and the gauge to"
        " see whether it will do. If one of the three is a slip, the object comes out at another"
        " size. Stuffed work is tighter than the ranges of the standard, so more stitches and a"
        " thinner hook than they name are usual; fewer stitches or a thicker hook are not."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format("3", "9"),
    good=_PATTERN.format("3", "23"),
    source="Craft Yarn Council, Standard Yarn Weight System; how far stuffed work leaves its"
    " ranges: common practice, no source",
    run=_run,
)
