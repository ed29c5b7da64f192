"""Patterns of one or two pieces, from round text."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from notation.texts import as_text
from roundproof.fabric.model import Fabric, WorkedPiece, WorkedRound
from roundproof.fabric.work import work
from roundproof.pattern.model import Pattern, Piece, Starts, Terms, Yarn
from roundproof.source import Located, Source

_SOURCE = Source("pattern.yaml", "title: Pebble\n")
_SPAN = _SOURCE.span(0, 5)
_YARNS = (
    Yarn("slate", "A", "slate", ("slate", "a"), _SPAN),
    Yarn("chalk", "B", "chalk", ("chalk", "b"), _SPAN),
)


class _OnePiece:
    def __call__(self, written: str, chain_counts: bool = False) -> WorkedPiece:
        piece = Piece(
            "body",
            _SPAN,
            "Body",
            yarn=Located("slate", _SPAN),
            rounds=as_text(written),
            chain_counts=Located(chain_counts, _SPAN),
        )
        fabric, _ = work(_pattern((piece,)))
        return fabric.pieces["body"]

    def into(self, written: str, available: int) -> WorkedRound | None:
        """One round worked into so many stitches of a ring; None where it is no round."""
        piece = self(f"R1: {max(1, available)} sc in magic ring\nR2: {written}")
        return piece.rounds[1] if len(piece.rounds) == 2 else None

    def fabric(
        self,
        pieces: Mapping[str, str],
        starts: Mapping[str, Sequence[str]] | None = None,
        make: Mapping[str, int] | None = None,
    ) -> Fabric:
        grown = {
            key: Starts(tuple(Located(edge, _SPAN) for edge in edges), _SPAN)
            for key, edges in (starts or {}).items()
        }
        made = tuple(
            Piece(
                *(key, _SPAN, key, (make or {}).get(key, 1)),
                rounds=as_text(written),
                starts=grown.get(key),
            )
            for key, written in pieces.items()
        )
        fabric, _ = work(_pattern(made))
        return fabric


def _pattern(pieces: tuple[Piece, ...]) -> Pattern:
    return Pattern(
        "pebble", _SOURCE, _SPAN, terms=Located(Terms.US, _SPAN), yarns=_YARNS, pieces=pieces
    )


one_piece = _OnePiece()


def worked(written: str) -> WorkedPiece:
    """One piece of a pattern in US terms, starting in slate."""
    return one_piece(written)
