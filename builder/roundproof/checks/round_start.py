"""A first round that is worked into nothing; a ring begun again in the middle of a piece."""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.checks.base import Check, Found
from roundproof.fabric.model import Base, WorkedPiece, WorkedRound
from roundproof.findings import Finding, Severity
from roundproof.measure.figures import stitches
from roundproof.notation.tree import Act, Action, Where
from roundproof.notation.units import every_stitch
from roundproof.proof import Proof

_ENDS = (Act.FASTEN_OFF, Act.JOIN_YARN)


def _run(proof: Proof) -> Found:
    for piece in proof.fabric.pieces.values():
        if piece.of:
            continue
        yield from _begun_again(piece)
        first = piece.rounds[0] if piece.rounds else None
        if first is None or not first.round.readings or piece.piece.starts is not None:
            continue
        if first.base is Base.RING and first.available is None:
            yield CHECK.finding(
                first.round.work,
                f"{first.label} does not say what its stitches are worked into.",
                "Start with a ring, like `6 sc in magic ring`, with a chain, like `ch 2, 6 sc in"
                " 2nd ch from hook`, or say with `starts:` which edge the piece grows out of.",
                severity=Severity.WARNING,
                piece=piece.piece.key,
                round=first.label,
            )


def _begun_again(piece: WorkedPiece) -> Iterator[Finding]:
    """A new ring where the round below is still on the hook."""
    before: WorkedRound | None = None
    for entry in piece.entries:
        if isinstance(entry, Action) and entry.act in _ENDS:
            before = None
        if not isinstance(entry, WorkedRound):
            continue
        items = entry.instruction.items if entry.instruction else ()
        ring = next((s for s in every_stitch(items) if s.where is Where.RING), None)
        if before is not None and before.made and ring is not None and entry.round.label.first > 1:
            yield CHECK.finding(
                ring.span,
                f"{entry.label} starts a new ring, and the {stitches(before.made)} of"
                f" {before.label} are never worked.",
                f"Take {entry.label} out, or fasten off before it.",
                severity=Severity.ERROR,
                piece=piece.piece.key,
                round=entry.label,
            )
        before = entry


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc{} (6)
    R2: inc x 6 (12)
"""

CHECK = Check(
    id="round-start",
    title="First round worked into nothing",
    why=(
        "The first stitches need something to go into: a ring, a chain, an edge of another piece."
        " Which one it is decides how the start looks and whether it closes."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format(""),
    good=_PATTERN.format(" in magic ring"),
    source="common practice, no source: the start is stated",
    run=_run,
)
