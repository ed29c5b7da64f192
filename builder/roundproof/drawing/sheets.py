"""All drawings of a pattern, each with its words."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from roundproof.drawing.chart.sheet import chart
from roundproof.drawing.colours.sheet import colour_map
from roundproof.drawing.joining.sheet import edge_sheets
from roundproof.drawing.outlines.sheet import Across, outline_sheet, widest_of
from roundproof.drawing.placing.sheet import placement_sheets
from roundproof.drawing.sheet import Kind, Sheet
from roundproof.drawing.yarns import yarn_marks
from roundproof.fabric.model import WorkedPiece
from roundproof.proof import Proof

ALL = frozenset(Kind)


def sheets(proof: Proof, mirrored: bool = False, kinds: Collection[Kind] = ALL) -> Iterator[Sheet]:
    """Those of each piece in turn, then those of the assembly; `mirrored` is for left-handed
    makers. Only what is of the `kinds` is drawn."""
    across = widest_of(proof) if Kind.OUTLINE in kinds else {}
    for piece in proof.fabric.pieces.values():
        yield from _of_piece(proof, piece, across, mirrored, kinds)
    if Kind.PLACES in kinds:
        yield from placement_sheets(proof, mirrored=mirrored)
    if Kind.EDGES in kinds:
        yield from edge_sheets(proof)


def _of_piece(
    proof: Proof, piece: WorkedPiece, across: Across, mirrored: bool, kinds: Collection[Kind]
) -> Iterator[Sheet]:
    marks = yarn_marks(proof.pattern)
    found: list[Sheet | None] = []
    if Kind.CHART in kinds:
        own = {s.key: s.key for s in proof.pattern.stitches}
        terms = proof.pattern.written_in
        found.append(chart(piece, marks, terms, proof.letter, own, mirrored))
    if Kind.OUTLINE in kinds:
        size = proof.measures.pieces.get(piece.piece.key)
        measured = size is not None and bool(size.outline)
        found.append(outline_sheet(piece, size, marks, across[measured]))
    if Kind.COLOURS in kinds:
        found.append(colour_map(piece, marks, mirrored=mirrored))
    yield from (sheet for sheet in found if sheet is not None)
