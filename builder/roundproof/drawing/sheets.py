"""All drawings of a pattern, each with its words."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from roundproof.drawing.chart.sheet import LaidOut, chart, lay_out
from roundproof.drawing.colours.sheet import colour_map
from roundproof.drawing.joining.sheet import edge_sheets
from roundproof.drawing.outlines.sheet import Across, outline_sheet, widest_of
from roundproof.drawing.placing.sheet import placement_sheets
from roundproof.drawing.sheet import Kind, Sheet
from roundproof.drawing.yarns import yarn_marks
from roundproof.fabric.model import WorkedPiece
from roundproof.proof import Proof

ALL = frozenset(Kind)
HANDED = frozenset({Kind.CHART, Kind.COLOURS, Kind.PLACES})
"""What may look otherwise for left-handed makers."""

_Found = tuple[Sheet, ...]


class Sheets:
    """The drawings of a pattern; each is drawn when it is asked for, and once."""

    def __init__(self, proof: Proof) -> None:
        self.proof = proof
        self.marks = yarn_marks(proof.pattern)
        self._drawn: dict[tuple[Kind, str, bool], _Found] = {}
        self._laid: dict[str, LaidOut | None] = {}
        self._across: Across | None = None

    def of(self, mirrored: bool = False, kinds: Collection[Kind] = ALL) -> Iterator[Sheet]:
        """Those of each piece in turn, then those of the assembly; `mirrored` is for left-handed
        makers."""
        for key in self.proof.fabric.pieces:
            for kind in (Kind.CHART, Kind.OUTLINE, Kind.COLOURS):
                if kind in kinds:
                    yield from self._once(kind, key, mirrored)
        for kind in (Kind.PLACES, Kind.EDGES):
            if kind in kinds:
                yield from self._once(kind, "", mirrored)

    def _once(self, kind: Kind, key: str, mirrored: bool) -> _Found:
        which = (kind, key, mirrored and kind in HANDED)
        if which not in self._drawn:
            self._drawn[which] = self._made(*which)
        return self._drawn[which]

    def _made(self, kind: Kind, key: str, mirrored: bool) -> _Found:
        if kind is Kind.PLACES:
            return placement_sheets(self.proof, mirrored=mirrored)
        if kind is Kind.EDGES:
            return edge_sheets(self.proof)
        piece = self.proof.fabric.pieces[key]
        if kind is Kind.CHART:
            sheet = self._chart(piece, mirrored)
        elif kind is Kind.OUTLINE:
            sheet = self._outline(piece)
        else:
            sheet = colour_map(piece, self.marks, mirrored=mirrored)
        return (sheet,) if sheet else ()

    def _chart(self, piece: WorkedPiece, mirrored: bool) -> Sheet | None:
        key, pattern = piece.piece.key, self.proof.pattern
        if key not in self._laid:
            self._laid[key] = lay_out(piece, self.marks)
        laid, own = self._laid[key], {s.key: s.key for s in pattern.stitches}
        if laid is None:
            return None
        return chart(laid, self.marks, pattern.written_in, self.proof.letter, own, mirrored)

    def _outline(self, piece: WorkedPiece) -> Sheet | None:
        if self._across is None:
            self._across = widest_of(self.proof)
        size = self.proof.measures.pieces.get(piece.piece.key)
        measured = size is not None and bool(size.outline)
        return outline_sheet(piece, size, self.marks, self._across[measured])
