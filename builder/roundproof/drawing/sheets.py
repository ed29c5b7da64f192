"""All drawings of a pattern, each with its words."""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.drawing.chart.sheet import chart
from roundproof.drawing.colours.sheet import colour_map
from roundproof.drawing.joining.sheet import edge_sheets
from roundproof.drawing.outlines.sheet import Across, outline_sheet, widest_of
from roundproof.drawing.placing.sheet import placement_sheets
from roundproof.drawing.sheet import Sheet
from roundproof.drawing.yarns import yarn_marks
from roundproof.fabric.model import WorkedPiece
from roundproof.proof import Proof


def sheets(proof: Proof, mirrored: bool = False) -> Iterator[Sheet]:
    """Those of each piece in turn, then those of the assembly; `mirrored` is for left-handed
    makers."""
    across = widest_of(proof)
    for piece in proof.fabric.pieces.values():
        yield from _of_piece(proof, piece, across, mirrored)
    yield from placement_sheets(proof, mirrored=mirrored)
    yield from edge_sheets(proof)


def _of_piece(proof: Proof, piece: WorkedPiece, across: Across, mirrored: bool) -> Iterator[Sheet]:
    marks, own = yarn_marks(proof.pattern), {s.key: s.key for s in proof.pattern.stitches}
    size = proof.measures.pieces.get(piece.piece.key)
    measured = size is not None and bool(size.outline)
    terms = proof.pattern.written_in
    found = (
        chart(piece, marks, terms, proof.letter, own, mirrored),
        outline_sheet(piece, size, marks, across[measured]),
        colour_map(piece, marks, mirrored=mirrored),
    )
    yield from (sheet for sheet in found if sheet is not None)
