"""What is worked into twice and what never: who takes stitches and loops from which edge."""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.fabric.model import Claim, Edge


class Ledger:
    """The claims on the edges of a pattern's pieces, in working order."""

    def __init__(self) -> None:
        self.claims: list[Claim] = []

    def taken(self, piece: str, kind: str, round: int | None, copy: int) -> int:
        """Stitches of an edge that others work into already. Where copies are not told apart, all
        that is claimed of any of them counts."""
        return sum(
            claim.count
            for claim in self.of(piece, kind, round)
            if claim.copy == copy or not copy or not claim.copy
        )

    def of(self, piece: str, kind: str, round: int | None) -> Iterator[Claim]:
        """The claims on one edge, in order."""
        for claim in self.claims:
            if (claim.piece, claim.kind) == (piece, kind) and round in (None, claim.round):
                yield claim

    def free(self, edge: Edge, copy: int, copies: int) -> int | None:
        """Stitches of an edge that nobody works into yet: of one copy of its piece, or of all."""
        if edge.count is None:
            return None
        there = edge.count * (1 if copy else copies)
        return max(0, there - self.taken(edge.piece, edge.kind, edge.round, copy))
