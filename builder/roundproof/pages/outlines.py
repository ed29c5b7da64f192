"""The outline of a piece as a figure with its caption."""

from __future__ import annotations

from markupsafe import Markup

from roundproof.drawing.outlines.sheet import Across, Outline, outline
from roundproof.drawing.profile import Profile, profile
from roundproof.drawing.runs import rounds
from roundproof.drawing.svg import write_svg
from roundproof.drawing.yarns import Marks
from roundproof.fabric.model import WorkedPiece
from roundproof.measure.model import Form, PieceSize
from roundproof.pages.values import Figure


def outline_figure(
    piece: WorkedPiece, size: PieceSize | None, marks: Marks, across: Across, id: str, number: int
) -> Figure | None:
    """Fig. `number`; None for a piece of less than two rounds."""
    shape = profile(piece, size, marks)
    if shape is None:
        return None
    drawn = outline(shape, piece.piece.name, across[shape.measured], f"{id}-outline")
    if drawn is None:
        return None
    text = Markup("<b>Fig.\u00a0{}.</b> {}").format(number, _outline_words(drawn, shape))
    drawing, words = drawn.sheet.drawing, drawn.sheet.words
    return Figure(Markup(write_svg(drawing)), drawing.title, text, words[1:])


def _outline_words(drawn: Outline, shape: Profile) -> str:
    view = "From above" if drawn.above else "Outline from the side"
    flat = shape.form is Form.ROWS
    kind, thing = "row" if flat else "round", "line" if drawn.above else "dot"
    each = f"A {thing} is a {kind}." if drawn.dot == 1 else f"A {thing} is {drawn.dot} {kind}s."
    if not shape.measured:
        return f"{view}, from the counts alone, as no gauge is given. {each}"
    basis = " The gauge is guessed from the yarn's weight." if shape.guessed else ""
    state = "" if flat else ", before stuffing"
    under = _underneath(shape) if drawn.above else ""
    return f"{'Outline' if flat else view}, to scale{state}. {each}{under}{basis}"


def _underneath(shape: Profile) -> str:
    """The rounds that are not seen from above."""
    edge, last = shape.widest.number, shape.rings[-1].number
    return f" {rounds(edge + 1, last)} lie underneath." if last > edge else ""
