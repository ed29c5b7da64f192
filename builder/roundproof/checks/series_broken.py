"""An irregular step within a regular series of increases or decreases."""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.checks.base import Check, Found
from roundproof.fabric.model import Base, WorkedPiece, WorkedRound
from roundproof.findings import Severity
from roundproof.measure.figures import stitches
from roundproof.proof import Proof

_SIDE = 2
"""Equal steps on either side that make a series."""


def _run(proof: Proof) -> Found:
    for piece in proof.fabric.pieces.values():
        if piece.of is None:
            yield from _piece(piece)


def _piece(piece: WorkedPiece) -> Found:
    for worked, step, regular in _broken(piece):
        gains = "gains" if step > 0 else "loses"
        lost = " A round may be missing before it." if step % regular == 0 else ""
        yield CHECK.finding(
            worked.round.work,
            f"{worked.label} {gains} {stitches(abs(step))}, and the rounds before and after it"
            f" {'gain' if regular > 0 else 'lose'} {abs(regular)} each.",
            f"Look whether that is meant.{lost}",
            piece=piece.piece.key,
            round=worked.label,
        )


def _broken(piece: WorkedPiece) -> Iterator[tuple[WorkedRound, int, int]]:
    """Rounds whose step is another than that of the rounds around it, both not nothing."""
    steps = [(w, _step(w)) for w in piece.rounds]
    for at in range(_SIDE, len(steps) - _SIDE):
        around = {step for _, step in (*steps[at - _SIDE : at], *steps[at + 1 : at + 1 + _SIDE])}
        worked, step = steps[at]
        if len(around) == 1 and (regular := around.pop()) and step and step != regular:
            yield worked, step, regular


def _step(worked: WorkedRound) -> int | None:
    """What a single round into the one before adds to the count."""
    plain = worked.base is Base.ROUND and worked.rounds == 1 and not worked.onto
    if not plain or not worked.sound or worked.unworked or worked.label.startswith("Row"):
        return None
    if worked.made is None or worked.available is None:
        return None
    return worked.made - worked.available


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: (sc, inc) x 6 (18)
    R4: {}
    R5: ({} sc, inc) x 6 ({})
    R6: ({} sc, inc) x 6 ({})
"""

CHECK = Check(
    id="series-broken",
    title="A step out of a regular series",
    why=(
        "Where rounds gain six stitches each, one that gains twelve among them mostly stands for"
        " two of which one was lost in copying. Its count agrees with the next round, so only the"
        " regular step around it tells. The fabric ripples there, or shows a corner."
    ),
    severity=Severity.NOTE,
    bad=_PATTERN.format("(sc, inc, inc) x 6 (30)", 4, 36, 5, 42),
    good=_PATTERN.format("(2 sc, inc) x 6 (24)", 3, 30, 4, 36),
    source="common practice, no source: an irregular step may be a missing round",
    run=_run,
)
