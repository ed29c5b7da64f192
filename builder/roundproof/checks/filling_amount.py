"""How much filling is listed, against what the pieces hold."""

from __future__ import annotations

from roundproof.checks._materials import is_filling
from roundproof.checks._rounds import under_way
from roundproof.checks.base import Check, Found, missing, quoted
from roundproof.findings import Severity
from roundproof.measure.figures import number
from roundproof.pattern.model import Notion
from roundproof.pattern.quantities import weight
from roundproof.proof import Proof

_LESS, _MORE, _SPARE = 0.5, 3.0, 5.0
"""Less than half of what the pieces hold, or more than three times and 5 g: estimates of filling
are that rough (common practice, no source)."""


def _run(proof: Proof) -> Found:
    fillings = [n for n in proof.pattern.notions if is_filling(n)]
    if len(fillings) != 1 or under_way(proof):
        return
    (notion,) = fillings
    if notion.amount is not None:
        yield from _odd(proof, notion)
    elif not notion.size and not any(map(str.isdigit, notion.item.value)):
        yield from _unsaid(proof, notion)


def _odd(proof: Proof, notion: Notion) -> Found:
    grams = weight(notion.amount.value) if notion.amount else 0.0
    holds = proof.measures.stuffing_g
    if not isinstance(grams, float) or not holds or notion.amount is None:
        return
    if _LESS * holds <= grams <= _MORE * holds + _SPARE:
        return
    yield CHECK.finding(
        notion.amount.span,
        f"{notion.amount.value} of {quoted(notion.item.value)} are listed, and the pieces hold"
        f" about {number(holds, 0 if holds >= 2 else 1)} g.",
        "Weigh the filling again. Pieces that stay empty say so in a note.",
        severity=Severity.WARNING,
    )


def _unsaid(proof: Proof, notion: Notion) -> Found:
    if proof.measures.stuffing_g is None:
        yield CHECK.finding(
            notion.item.span,
            f"{quoted(notion.item.value)} has no amount, and none can be reckoned.",
            "Add how much of it, for instance `fibrefill 20 g`.",
            severity=missing(proof.pattern.status),
        )


_PATTERN = """\
title: Pebble
terms: US
yarns:
  slate: {{gauge: 23 sts x 25 rounds = 10 cm}}
notions: [fibrefill {}]
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: (sc, inc) x 6 (18)
    R4-R8: sc around (18)
    Stuff firmly.
    R9: (sc, dec) x 6 (12)
    R10: dec x 6 (6)
    Fasten off.
"""

CHECK = Check(
    id="filling-amount",
    title="Amount of filling",
    why=(
        "Filling is bought by weight. A list that says far too little sends the maker back to the"
        " shop with an open seam; one that says ten times too much is mostly a slip of the keys."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format("200 g"),
    good=_PATTERN.format("2 g"),
    source="volumes reckoned from the gauge, 20 to 50 g of filling in a litre: see `measure`",
    run=_run,
)
