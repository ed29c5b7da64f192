"""The outline of a piece as a figure with its caption."""

from __future__ import annotations

from collections.abc import Mapping

from markupsafe import Markup

from roundproof.drawing.outline import Outline, outline
from roundproof.drawing.profile import Profile, profile
from roundproof.drawing.svg import write_svg
from roundproof.drawing.yarns import Marks, yarn_marks
from roundproof.fabric.model import WorkedPiece
from roundproof.measure.model import Form, PieceSize
from roundproof.pages.figures import length
from roundproof.pages.values import Figure
from roundproof.proof import Proof

Across = Mapping[bool, float]
"""The width of the widest piece: True of those in mm, False of those drawn from counts."""


def outline_figure(
    piece: WorkedPiece, size: PieceSize | None, marks: Marks, across: Across, id: str, number: int
) -> Figure | None:
    """Fig. `number`; None for a piece of less than two rounds."""
    shape = profile(piece, size, marks)
    if shape is None or len(shape.rings) < 2:
        return None
    measured = size if shape.measured else None
    view = "seen from above" if shape.flat else "from the side"
    title = f"{piece.piece.name}, {view}{_size_words(measured)}."
    drawn = outline(shape, f"{id}-outline", title, across[shape.measured])
    if drawn is None:
        return None
    caption = _outline_words(drawn, shape)
    text = Markup("<b>Fig.\u00a0{}.</b> {}").format(number, caption)
    return Figure(Markup(write_svg(drawn.drawing)), title, text)


def widest_of(proof: Proof) -> Across:
    """The widest piece of a pattern."""
    marks, across = yarn_marks(proof.pattern), {True: 0.0, False: 0.0}
    for key, piece in proof.fabric.pieces.items():
        shape = profile(piece, proof.measures.pieces.get(key), marks)
        if shape is not None:
            across[shape.measured] = max(across[shape.measured], shape.width)
    return across


def _size_words(size: PieceSize | None) -> str:
    if size is None:
        return ""
    parts = [f"{length(size.length_mm)} long"] if size.length_mm else []
    parts += [f"{length(size.diameter_mm)} across"] if size.diameter_mm else []
    parts += [f"{length(size.height_mm)} high"] if size.height_mm else []
    return f": {', '.join(parts)} before stuffing" if parts else ""


def _outline_words(drawn: Outline, shape: Profile) -> str:
    view = "From above" if drawn.above else "Outline from the side"
    if not drawn.ruled:
        return f"{view}, from the counts alone, as no gauge is given."
    flat = shape.form is Form.ROWS
    kind, thing = "row" if flat else "round", "line" if drawn.above else "dot"
    each = f"A {thing} is a {kind}." if drawn.dot == 1 else f"A {thing} is {drawn.dot} {kind}s."
    basis = " The gauge is guessed from the yarn's weight." if shape.guessed else ""
    state = "" if flat else ", before stuffing"
    return f"{'Outline' if flat else view}, to scale{state}. {each}{basis}"
