"""Fig. 1 with its caption."""

from __future__ import annotations

from markupsafe import Markup, escape

from roundproof.drawing.lengths import length
from roundproof.drawing.places import MOST_COPIES
from roundproof.drawing.plate import Plate, draw_plate
from roundproof.drawing.svg import write_svg
from roundproof.pages.figures import counted, listed
from roundproof.pages.values import Figure
from roundproof.proof import Proof


def plate(proof: Proof, id: str = "plate") -> Figure | None:
    """The drawing of a pattern's pieces; None where there is nothing to draw. That of a preview is
    so rough that no round can be counted in it."""
    if not proof.fabric.pieces:
        return None
    title, rough = _title(proof), is_preview(proof)
    drawn = draw_plate(proof.pattern, proof.fabric, proof.measures, id, title, rough=rough)
    if drawn is None:
        return None
    return Figure(Markup(write_svg(drawn.drawing)), title, _caption(proof, drawn))


def is_preview(proof: Proof) -> bool:
    return proof.pattern.show is not None and proof.pattern.show.value == "preview"


def _title(proof: Proof) -> str:
    """What is read out: which pieces there are."""
    pieces = [
        counted(piece.make, piece.name.lower(), f"copies of {piece.name.lower()}")
        for piece in proof.pattern.pieces
        if piece.key in proof.fabric.pieces
    ]
    name = proof.pattern.title.value if proof.pattern.title else proof.pattern.slug
    more = f", and {len(pieces) - 12} more" if len(pieces) > 12 else ""
    how = "in outline" if is_preview(proof) else "drawn from its rounds"
    return f"{name}, {how}: {', '.join(pieces[:12])}{more}."


def _caption(proof: Proof, drawn: Plate) -> Markup:
    view = "From above" if drawn.above else "From the side"
    bar = length(drawn.bar)
    if is_preview(proof):
        text = f"{view}. The outlines alone, about to scale; the bar is {bar}."
        return Markup("<b>Fig.\u00a01.</b> {}").format(text)
    line = "Each line is a round" if drawn.every == 1 else f"Each line is {drawn.every} rounds"
    if drawn.measured:
        basis = f"A drawing from the counts and the gauge, to scale; the bar is {bar}."
    else:
        basis = "A drawing from the counts alone, as no gauge is given."
    few = [proof.fabric.pieces[key].piece.name.lower() for key in drawn.fewer]
    cut = f" Of the {listed(few)}, {MOST_COPIES} are drawn." if few else ""
    return Markup("<b>Fig.\u00a01.</b> {}").format(escape(f"{view}. {line}. {basis}{cut}"))
