"""Fewer balls listed than are needed."""

from __future__ import annotations

from roundproof.checks.base import Check, Found
from roundproof.findings import Edit, Severity
from roundproof.measure.model import YarnNeed
from roundproof.proof import Proof

_PATTERN = """\
title: Cushion
terms: US
yarns:
  slate: {{ball: 25 g / 30 m, balls: {}, gauge: 16 sts x 16 rounds = 10 cm}}
pieces:
  panel:
    make: 2
    worked: rows
    yarn: slate
    rounds: |
      Ch 41.
      Row 1: sc in 2nd ch from hook, 39 sc (40)
      Row 2: ch 1, turn, sc in each st across (40)
      Row 3: ch 1, turn, sc in each st across (40)
      Row 4: ch 1, turn, sc in each st across (40)
      Row 5: ch 1, turn, sc in each st across (40)
      Row 6: ch 1, turn, sc in each st across (40)
      Row 7: ch 1, turn, sc in each st across (40)
      Row 8: ch 1, turn, sc in each st across (40)
      Row 9: ch 1, turn, sc in each st across (40)
      Row 10: ch 1, turn, sc in each st across (40)
"""


def _run(proof: Proof) -> Found:
    for yarn in proof.pattern.yarns:
        need = proof.measures.yarns.get(yarn.key)
        if need is None or yarn.balls is None:
            continue
        from roundproof.measure.running_out import shortage  # hardly ever asked for

        if not (message := shortage(proof.pattern, yarn, need)):
            continue
        balls = "1 ball" if need.balls == 1 else f"{need.balls} balls"
        place = need.runs_out
        own = yarn.balls.span.source is proof.pattern.source  # defaults are for other patterns too
        yield CHECK.finding(
            yarn.balls.span,
            message,
            f"List {balls}.",
            severity=_severity(need),
            piece=place.piece if place else None,
            round=place.round if place else None,
            edits=(Edit(yarn.balls.span, str(need.balls)),) if own else (),
        )


def _severity(need: YarnNeed) -> Severity:
    """An estimate may be wrong by more than what is short; a weighed swatch is hardly."""
    if need.runs_out is None:
        return Severity.NOTE
    return Severity.WARNING if need.estimated else Severity.ERROR


CHECK = Check(
    id="balls-short",
    title="Too few balls listed",
    why=(
        "Makers buy what the list says, all of one dye lot. A ball that is missing shows when the"
        " last piece is on the hook, and the shop may have no more of that lot. The yarn of all"
        " pieces is counted in the order of the file, copies one after another, with tails and"
        " seams, so that the round can be named in which it ends. How much is needed is an"
        " estimate, within about 20 %; a weighed `swatch` makes it a measurement, and then too few"
        " balls are an error. Where they hold what is needed and only the margin is missing, that"
        " is a note."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format(1),
    good=_PATTERN.format(2),
    source="common practice, no source; the margin: published guides say 10 to 20 %",
    run=_run,
)
