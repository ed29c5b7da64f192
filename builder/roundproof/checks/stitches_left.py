"""Stitches left unworked that nobody ever comes back to."""

from __future__ import annotations

from roundproof.checks.base import Check, Found, missing
from roundproof.fabric.edges import in_rows
from roundproof.fabric.model import WorkedPiece, WorkedRound
from roundproof.fabric.named import names
from roundproof.findings import Severity
from roundproof.measure.figures import stitches
from roundproof.notation.edges import EdgeKind, read_edge
from roundproof.notation.tree import Act, Action, Leave, Onto, Spot, Turn
from roundproof.proof import Proof
from roundproof.source import Span


def _run(proof: Proof) -> Found:
    for piece in proof.fabric.pieces.values():
        if piece.of or piece.piece.open_edge:
            continue
        for number, count in piece.left.items():
            worked = piece.at(number)
            if worked is None or _steps(piece, worked):
                continue
            open_ = count - _taken(proof, piece, number)
            if open_ <= 0 or _named(proof, piece, number):
                continue
            yield CHECK.finding(
                _leave(worked),
                f"{worked.label} leaves {stitches(count)} unworked, and {_how_many(open_, count)}"
                " never come to.",
                f"Work them later (`{open_} sc in unworked sts of R{number}`), close them in the"
                f" assembly (`{piece.piece.key} R{number} unworked sts`), or say `open_edge: yes`.",
                severity=missing(proof.pattern.status),
                piece=piece.piece.key,
                round=worked.label,
            )


def _how_many(open_: int, count: int) -> str:
    if open_ == count:
        return "they are" if count > 1 else "it is"
    return f"{open_} of them are" if open_ > 1 else "1 of them is"


def _steps(piece: WorkedPiece, worked: WorkedRound) -> bool:
    """Whether the stitches are a step in the edge: rows that turn before their end."""
    items = worked.instruction.items if worked.instruction else ()
    if any(isinstance(item, Turn) for item in items) or worked.round.label.row:
        return True
    at = piece.entries.index(worked)
    turned = any(isinstance(e, Action) and e.act is Act.TURN for e in piece.entries[at : at + 2])
    return turned or in_rows(piece) or worked is piece.last


def _taken(proof: Proof, piece: WorkedPiece, number: int) -> int:
    """Of the stitches a round left, how many are worked later, here or by other pieces."""
    own = sum(_own(worked.onto, number, piece) for worked in piece.rounds)
    claims = (c for c in proof.fabric.claims if c.piece == piece.piece.key)
    return own + sum(c.count for c in claims if c.kind == "unworked" and c.round == number)


def _own(onto: tuple[tuple[Onto, int, int | None], ...], number: int, piece: WorkedPiece) -> int:
    latest = max(piece.left, default=0)
    return sum(
        count
        for place, count, _ in onto
        if place.spot is Spot.UNWORKED and not place.piece and (place.round or latest) == number
    )


def _named(proof: Proof, piece: WorkedPiece, number: int) -> bool:
    """Whether a step of the assembly closes or joins them."""
    said = (read_edge(n.said.value, proof.fabric.pieces) for n in names(proof.pattern))
    mine = (edge for edge in said if edge and edge.piece == piece.piece.key)
    return any(e.kind is EdgeKind.UNWORKED and e.round in (None, number) for e in mine)


def _leave(worked: WorkedRound) -> Span:
    items = worked.instruction.items if worked.instruction else ()
    return next((i.span for i in items if isinstance(i, Leave)), worked.round.work)


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: 8 sc, leave 4 sts unworked (8)
    R4: sc around (8)
{}"""

CHECK = Check(
    id="stitches-left",
    title="Stitches left and never come to",
    why=(
        "Stitches are left for a leg, a finger or an opening. If nothing in the pattern comes back"
        " to them, the maker has a hole in the finished piece and cannot tell whether it is meant."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format(""),
    good=_PATTERN.format("    Join yarn.\n    R5: 4 sc in unworked sts of R3 (4)\n"),
    source="common practice, no source: stitches left are carried forward and accounted for",
    run=_run,
)
