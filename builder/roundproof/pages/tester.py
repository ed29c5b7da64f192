"""A proof → the values of the tester copy: the page's rounds with room to write, and a report.

Each field says where in the file that comes back its answer stands, so that the script need know
nothing of the pattern.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from roundproof.drawing.yarns import YarnMark, yarn_marks
from roundproof.pages.figures import listed, millimetres
from roundproof.pages.scale import DIMENSIONS
from roundproof.pages.values import (
    At,
    PatternPage,
    PieceWork,
    RoundRow,
    TesterPage,
    Total,
)
from roundproof.pattern.model import Size
from roundproof.proof import Proof


def tester_page(proof: Proof, page: PatternPage) -> TesterPage:
    """The tester copy of a pattern's page."""
    hooks = sorted({yarn.hook.value for yarn in proof.pattern.yarns if yarn.hook})
    return TesterPage(
        page,
        tuple(_totals(proof)),
        listed([millimetres(size) for size in hooks]) if hooks else "",
        tuple(_yarns(proof, page)),
        tuple((name.lower(), name) for name in measured_sizes(proof.pattern.size)),
        {id: at for piece in page.pieces for id, at in _remarks(piece)},
    )


def _totals(proof: Proof) -> list[Total]:
    return [
        Total(
            key,
            piece.piece.name,
            f"{piece.piece.make:,}",
            f"{sum(worked.rounds for worked in piece.rounds):,}",
            f"{piece.stitches:,}" if piece.stitches is not None else "not known",
        )
        for key, piece in proof.fabric.pieces.items()
    ]


def _yarns(proof: Proof, page: PatternPage) -> Iterable[tuple[str, YarnMark]]:
    for key, mark in yarn_marks(proof.pattern).items():
        if mark.name and mark in page.yarns:
            yield key, mark


def measured_sizes(size: Size | None) -> tuple[str, ...]:
    """What to measure: what the pattern states, and height, width and length in any case."""
    stated = [name for name in DIMENSIONS if size is not None and getattr(size, name)]
    wanted = dict.fromkeys(["height", "width", "length", *stated])
    return tuple(name.rstrip("_").capitalize() for name in wanted)


def _remarks(piece: PieceWork) -> Iterable[tuple[str, At]]:
    """A piece in which numbers begin again has two rounds of one label; the file has room for one
    of them, and the other stands among the corrections, with where it is in words."""
    met = Counter[str]()
    for row in piece.rows:
        if isinstance(row, RoundRow):
            met[row.label] += 1
            time = met[row.label]
            again = ("again", f"{piece.key} {row.label}, time {time}")
            yield row.id, ("rounds", piece.key, row.label) if time == 1 else again
