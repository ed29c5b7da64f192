"""A round that stands twice and fits only once."""

from __future__ import annotations

from roundproof.checks._rounds import worked_rounds
from roundproof.checks._series import doubled, taken_out
from roundproof.checks.base import Check, Found
from roundproof.findings import Severity
from roundproof.measure.figures import stitches
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    for piece, below, worked in worked_rounds(proof):
        before, misfit = doubled(below, worked), worked.misfit
        if before is None or misfit is None:
            continue
        same = before.label == worked.label
        twice = "stands here twice" if same else f"says the same as {before.label}"
        yield CHECK.finding(
            worked.round.work,
            f"{worked.label} {twice}, and cannot be worked again: it needs"
            f" {stitches(misfit.needed)} and {before.label} made {misfit.available}.",
            f"Take {worked.label} out, if it was pasted twice.",
            piece=piece.piece.key,
            round=worked.label,
            edits=taken_out(piece, before, worked),
        )


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: (sc, inc) x 6 (18)
{}"""

CHECK = Check(
    id="round-doubled",
    title="A round that stands twice",
    why=(
        "A line pasted twice looks right by itself. Only the count tells that it cannot be worked"
        " into its own result, and a maker who tries finds stitches left over or missing."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format("    R4: (sc, inc) x 6 (18)\n"),
    good=_PATTERN.format("    R4: (2 sc, inc) x 6 (24)\n"),
    source="common practice, no source: each round uses what the last one left",
    run=_run,
)
