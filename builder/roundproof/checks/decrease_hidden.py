"""A hidden decrease in a round of back loops."""

from __future__ import annotations

from roundproof.checks._rounds import worked_rounds
from roundproof.checks.base import Check, Found, quoted
from roundproof.findings import Edit, Severity
from roundproof.notation.tree import Loop
from roundproof.notation.units import every_stitch
from roundproof.proof import Proof

_HIDDEN = "inv dec"


def _run(proof: Proof) -> Found:
    for piece, _, worked in worked_rounds(proof):
        work = worked.instruction
        if work is None:
            continue
        for stitch in every_stitch(work.items):
            loop = stitch.loop or work.loop
            if stitch.unit.word != _HIDDEN or loop is not Loop.BACK:
                continue
            words = stitch.span.text
            at = words.lower().find(_HIDDEN)
            edit = Edit(stitch.span.cut(at, at + len(_HIDDEN)), "dec") if at >= 0 else None
            yield CHECK.finding(
                stitch.span,
                f"{worked.label} goes into back loops, and {quoted(words)} takes front loops.",
                "Write `dec`, or say the loops for the other stitches only.",
                piece=piece.piece.key,
                round=worked.label,
                edits=(edit,) if edit else (),
            )
            break


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: (sc, inc) x 6 (18)
    R4: BLO: (sc, {}) x 6 (12)
"""

CHECK = Check(
    id="decrease-hidden",
    title="Hidden decrease under back loops",
    why=(
        "The hidden decrease (invisible decrease, `inv dec`) is worked through the front loops of"
        " two stitches. In a round told to go into back loops only, one of the two instructions"
        " cannot be followed, and makers will not agree on which."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format("inv dec"),
    good=_PATTERN.format("dec"),
    source="common practice, no source: the hidden decrease takes the front loops of two stitches",
    run=_run,
)
