"""A round that needs more stitches than there are."""

from __future__ import annotations

from roundproof.checks._mends import what_fits
from roundproof.checks._rounds import source_of, worked_rounds
from roundproof.checks._series import told_as_series
from roundproof.checks.base import Check, Found
from roundproof.fabric.model import Misfit
from roundproof.findings import Severity
from roundproof.measure.figures import stitches
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    for piece, before, worked in worked_rounds(proof):
        misfit = worked.misfit
        if misfit is None or not misfit.over or told_as_series(before, worked):
            continue
        mend, edits = what_fits(proof, worked)
        yield CHECK.finding(
            misfit.span,
            f"R{misfit.round} needs {_need(misfit)} and {source_of(before, worked, misfit)}.",
            mend or _short(misfit),
            piece=piece.piece.key,
            round=worked.label,
            edits=edits,
        )


def _need(misfit: Misfit) -> str:
    if misfit.needed <= misfit.available:
        return "more chains on the other side than are left there"
    return stitches(misfit.needed)


def _short(misfit: Misfit) -> str:
    if misfit.needed <= misfit.available:
        return "Work fewer stitches on the other side; its last chain is the one the end turns in."
    return f"Work {misfit.over} fewer here, or make {misfit.over} more in the round below."


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: (sc, inc) x {} ({})
"""

CHECK = Check(
    id="count-overrun",
    title="More stitches needed than there are",
    why=(
        "A round can only be worked into what the round below has left. If it needs more, the maker"
        " runs out of stitches before the words run out and cannot tell which of the two is wrong."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format(7, 21),
    good=_PATTERN.format(6, 18),
    source="common practice, no source: each round uses what the last one left",
    run=_run,
)
