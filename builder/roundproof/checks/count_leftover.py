"""Stitches left over that nobody announced."""

from __future__ import annotations

from roundproof.checks._mends import what_fits
from roundproof.checks._rounds import source_of, worked_rounds
from roundproof.checks._series import told_as_series
from roundproof.checks.base import Check, Found
from roundproof.findings import Severity
from roundproof.measure.figures import stitches
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    for piece, before, worked in worked_rounds(proof):
        misfit = worked.misfit
        if misfit is None or misfit.over or told_as_series(before, worked):
            continue
        left = misfit.left
        mend, edits = what_fits(proof, worked)
        sts = "st" if left == 1 else "sts"
        otherwise = f"If they are meant to stay, write `leave {left} {sts} unworked`."
        yield CHECK.finding(
            misfit.span,
            f"R{misfit.round} uses {stitches(misfit.needed)} and"
            f" {source_of(before, worked, misfit)}: {left} {'is' if left == 1 else 'are'} left"
            " over.",
            f"{mend} {otherwise}" if mend else otherwise,
            piece=piece.piece.key,
            round=worked.label,
            edits=edits,
        )


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
    id="count-leftover",
    title="Stitches left over",
    why=(
        "Stitches that a round does not reach are a hole in the work, or the sign of a group worked"
        " too few times. Where they are meant to be left, for a leg or an opening, the words must"
        " say so, or the maker goes looking for the mistake."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format(5, 15),
    good=_PATTERN.format(6, 18),
    source="common practice, no source: each round uses what the last one left",
    run=_run,
)
