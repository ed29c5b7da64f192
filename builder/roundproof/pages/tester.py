"""A proof → the values of the tester copy: the page's rounds with room to write, and a report."""

from __future__ import annotations

from roundproof.pages.figures import listed, millimetres
from roundproof.pages.scale import DIMENSIONS
from roundproof.pages.values import PatternPage, TesterPage, Total
from roundproof.pattern.model import Size
from roundproof.proof import Proof


def tester_page(proof: Proof, page: PatternPage) -> TesterPage:
    """The tester copy of a pattern's page."""
    hooks = sorted({yarn.hook.value for yarn in proof.pattern.yarns if yarn.hook})
    return TesterPage(
        page,
        tuple(_totals(proof)),
        listed([millimetres(size) for size in hooks]) if hooks else "",
        measured_sizes(proof.pattern.size),
    )


def _totals(proof: Proof) -> list[Total]:
    return [
        Total(
            piece.piece.name,
            f"{piece.piece.make:,}",
            f"{sum(worked.rounds for worked in piece.rounds):,}",
            f"{piece.stitches:,}" if piece.stitches is not None else "not known",
        )
        for piece in proof.fabric.pieces.values()
    ]


def measured_sizes(size: Size | None) -> tuple[str, ...]:
    """What to measure: what the pattern states, and height, width and length in any case."""
    stated = [name for name in DIMENSIONS if size is not None and getattr(size, name)]
    wanted = dict.fromkeys(["height", "width", "length", *stated])
    return tuple(name.rstrip("_").capitalize() for name in wanted)
