"""Pieces joined on the hook, and stitches taken up, that are not there."""

from __future__ import annotations

from roundproof.checks.base import times
from roundproof.fabric.edges import unknown_piece
from roundproof.fabric.model import WorkedPiece
from roundproof.notation.tree import Onto, Spot
from roundproof.proof import Proof


def not_there(proof: Proof, worked: WorkedPiece, onto: Onto, there: int | None) -> tuple[str, str]:
    """What to say of a place that is not there, and the mend; two empty texts where it is."""
    if onto.piece and onto.piece not in proof.fabric.pieces:
        found = unknown_piece(onto.piece, proof.fabric.pieces)
        return found.message, found.mend
    host = proof.pattern.piece(onto.piece) if onto.piece else None
    if host is not None and onto.copy > host.make:
        return (
            f"{host.key} is made {times(host.make)}, and this goes around number {onto.copy}.",
            f"Say `make: {onto.copy}` in {host.key}.",
        )
    if onto.spot is Spot.PATH and there is None:
        return (
            "The piece has no path to go along.",
            "Say where it runs: `path: {piece: body, from: R14, to: R3}`.",
        )
    if onto.spot is Spot.UNWORKED and not onto.piece and onto.round not in (0, *worked.left):
        others = ", ".join(f"R{n} ({count})" for n, count in sorted(worked.left.items()))
        mend = f"Stitches are left unworked in {others}." if others else ""
        return f"R{onto.round} of {worked.piece.key} leaves no stitches unworked.", mend
    return "", ""
