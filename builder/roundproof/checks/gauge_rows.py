"""A gauge counted in rows for work that goes in rounds."""

from __future__ import annotations

import re

from roundproof.checks.base import Check, Found, quoted
from roundproof.fabric.edges import in_rows
from roundproof.findings import Severity
from roundproof.proof import Proof
from roundproof.source import Span


def _run(proof: Proof) -> Found:
    flat, round_ = set[str | None](), set[str | None]()
    for piece in proof.fabric.pieces.values():
        yarns = {key for worked in piece.rounds for _, key in worked.tally}
        (flat if in_rows(piece) else round_).update(yarns)
    if None in flat:  # rows in a yarn that nobody names
        return
    seen: set[Span] = set()
    for yarn in proof.pattern.yarns:
        gauge = yarn.gauge
        if gauge is None or yarn.key in flat or yarn.key not in round_ or gauge.span in seen:
            continue
        if found := re.search(r"\brows?\b", gauge.span.text, re.I):
            seen.add(gauge.span)
            yield CHECK.finding(
                gauge.span.cut(*found.span()),
                f"The gauge of {quoted(yarn.key)} is counted in rows, and everything in this yarn"
                " is worked in rounds.",
                "Measure it on work in the round, and write `rounds`.",
            )


_PATTERN = """\
title: Pebble
terms: US
yarns:
  slate: {{gauge: 23 sts x 25 {} = 10 cm}}
pieces:
  body: |
    R1: 6 sc in magic ring (6)
"""

CHECK = Check(
    id="gauge-rows",
    title="Gauge in rows for work in rounds",
    why=(
        "Rows are turned and rounds are not, and the same hands make them of different heights. A"
        " gauge helps only if it was measured on the kind of work it is used for."
    ),
    severity=Severity.NOTE,
    bad=_PATTERN.format("rows"),
    good=_PATTERN.format("rounds"),
    source="common practice, no source: the swatch is worked like the piece",
    run=_run,
)
