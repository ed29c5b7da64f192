"""A piece worked around a foundation chain whose second side nobody works."""

from __future__ import annotations

from roundproof.checks.base import Check, Found
from roundproof.fabric.edges import in_rows, turns
from roundproof.fabric.model import Base, WorkedPiece, WorkedRound
from roundproof.findings import Severity
from roundproof.measure.figures import stitches
from roundproof.notation.tree import JoinRound, Stitches, Where
from roundproof.pattern.model import Worked
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    for piece in proof.fabric.pieces.values():
        first = piece.rounds[0] if piece.rounds else None
        if first is None or piece.of or not _one_sided(piece, first):
            continue
        if any(c.piece == piece.piece.key and c.kind in _SIDES for c in proof.fabric.claims):
            continue
        usable = first.available or 0
        yield CHECK.finding(
            first.round.work,
            f"{first.label} works {stitches(usable)} along one side of the chain; the other side is"
            " never worked, so the rounds do not close.",
            f"Go on along the other side: `…, on the other side: {max(1, usable - 1)} sc`, or say"
            " `worked: rows`.",
            piece=piece.piece.key,
            round=first.label,
        )


_SIDES = ("far side", "foundation")


def _one_sided(piece: WorkedPiece, first: WorkedRound) -> bool:
    """Whether a piece in rounds begins along one side of a chain and never comes to the other."""
    if first.base is not Base.CHAIN or first.far_side or first.chains < 3 or not first.used:
        return False
    items = first.instruction.items if first.instruction else ()
    if any(isinstance(item, JoinRound) for item in items[:2]) or len(piece.rounds) < 2:
        return False
    said = piece.piece.worked
    if said is not None:
        return said.value in (Worked.SPIRAL, Worked.JOINED)
    rounded = any(
        isinstance(i, Stitches) and i.where is Where.LAST and i.unit.made > 2 for i in items
    )
    return (
        rounded
        and not any(w.round.label.row for w in piece.rounds)
        and in_rows(piece)
        and not turns(piece)
    )


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: ch 6, sc in 2nd ch from hook, 3 sc, 3 sc in last ch{}
    R2: sc around
"""

CHECK = Check(
    id="far-side",
    title="The second side of a chain",
    why=(
        "An oval begins along one side of a chain, turns at its end and comes back along the other."
        " If the way back is not said, the maker stands at the far end with a row, not a round."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format(" (7)"),
    good=_PATTERN.format(", on the other side: 3 sc, inc in last ch (12)"),
    source="common practice, no source: an oval is worked down both sides of its chain",
    run=_run,
)
