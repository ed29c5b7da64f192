"""Pieces that no step closes, joins or leaves open."""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.fabric.closing import openings
from roundproof.fabric.model import WorkedPiece
from roundproof.fabric.named import mentioned
from roundproof.notation.tree import Act, Action
from roundproof.pattern.model import Stuff
from roundproof.proof import Proof

SMALL = 6
"""An end of so many stitches is drawn shut with its tail, told or not: common practice, no
source."""


def never_closed(proof: Proof) -> Iterator[tuple[WorkedPiece, int]]:
    """Hollow pieces with an end that stays open, and how many stitches it has. Nothing in a pattern
    without an assembly; a piece that no step comes to is told as such."""
    if not proof.pattern.assembly:
        return
    for key, found in openings(proof.pattern, proof.fabric).items():
        worked, top = proof.fabric.pieces[key], found[0]
        if worked.piece.open_edge or top.closed is not None or not worked.rounds[-1].sound:
            continue
        wide = (top.count or 0) > SMALL and mentioned(proof.pattern, worked.piece)
        if wide and _hollow(proof, worked):
            yield worked, top.count or 0


def _hollow(proof: Proof, worked: WorkedPiece) -> bool:
    """Whether a piece is stuffed or draws in towards its end, and so is no flat or open form."""
    told = any(isinstance(e, Action) and e.act is Act.STUFF for e in worked.entries)
    counts = [each.made or 0 for each in worked.rounds]
    stuffed = (s.verb.piece.value for s in proof.pattern.assembly if isinstance(s.verb, Stuff))
    return told or worked.piece.key in stuffed or counts[-1] < max(counts)
