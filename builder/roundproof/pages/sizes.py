"""Sizes and times of the pieces, and how the edges of a join meet."""

from __future__ import annotations

from collections.abc import Mapping

from markupsafe import Markup

from roundproof.fabric.model import Edge
from roundproof.measure.meeting import plan_words
from roundproof.measure.model import Fit, Form, PieceSize, Verdict
from roundproof.pages.figures import counted, listed
from roundproof.pages.times import hours_words
from roundproof.pages.values import PieceSizes, Sizes
from roundproof.pages.wording import measure, plain
from roundproof.pattern.model import Join, Verb
from roundproof.proof import Proof

FIGURES = {
    "height": "height",
    "diameter": "width",
    "length": "length",
    "edge": "last round",
    "volume": "volume",
}
"""What the figures of a piece are called on pages, in their order."""
_FLAT = 3.0
"""mm: the height of a round or less."""
_VERDICTS = {
    Verdict.FITS: "they fit",
    Verdict.EASE: "ease the longer edge in",
    Verdict.CARE: "ease the longer edge in with care",
    Verdict.MISFIT: "they do not fit",
}


def sizes(proof: Proof, ids: Mapping[str, str]) -> Sizes | None:
    """The sizes of every piece; None where nothing can be told of any."""
    found = [_piece(proof, ids[key], size) for key, size in proof.measures.pieces.items()]
    if not any(piece.size or piece.edge or piece.time for piece in found):
        return None
    guessed = any(size.guessed for size in proof.measures.pieces.values())
    basis = "Computed from the rounds and the gauge, before stuffing."
    if guessed:
        basis = "Computed from the rounds, before stuffing; the gauge is guessed from the yarn."
    making = proof.measures.making_up.hours
    return Sizes(
        basis,
        tuple(found),
        hours_words(*making, short=True) if making and making[1] else "",
    )


def _piece(proof: Proof, id: str, size: PieceSize) -> PieceSizes:
    worked, spent = proof.fabric.pieces[size.piece], proof.measures.time.get(size.piece)
    return PieceSizes(
        id,
        worked.piece.name,
        worked.piece.make,
        piece_size_words(size),
        measure(size.edge_mm) if size.edge_mm is not None else Markup(""),
        hours_words(*spent.hours, short=True) if spent and spent.hours else "",
        _why(worked.piece.name, size),
    )


def piece_size_words(size: PieceSize) -> Markup:
    """ "6.2 cm long, 4.6 cm wide, 2.9 cm high"; what is lower than a stitch is flat."""
    flat = size.height_mm is not None and size.height_mm < _FLAT
    tall = None if size.form is Form.ROWS or flat else size.height_mm
    parts = ((size.length_mm, "long"), (size.diameter_mm, "wide"), (tall, "high"))
    said = [Markup("{} {}").format(measure(mm), word) for mm, word in parts if mm is not None]
    said += [Markup("flat")] if said and flat and size.form is not Form.ROWS else []
    return Markup(", ").join(said)


def _why(name: str, size: PieceSize) -> tuple[str, ...]:
    """Why figures are missing: those that share a reason in one sentence."""
    reasons: dict[str, list[str]] = {}
    for figure, why in size.unreliable.items():
        if figure != "volume":  # which the table of sizes does not have
            reasons.setdefault(why, []).append(FIGURES[figure])
    return tuple(f"No {listed(said)} for {name}: {why}." for why, said in reasons.items())


def fit_words(proof: Proof, verb: Verb) -> Markup:
    """How the two edges of a join meet: counts, lengths, and what to do with a difference."""
    fit = next((f for f in proof.measures.fits if f.join is verb), None)
    if not isinstance(verb, Join) or fit is None or fit.verdict is None:
        return Markup("")
    one, two = fit.lengths_mm
    if one is None or two is None:
        return Markup("")
    sides = zip(fit.edges, fit.counts, (one, two), fit.folded, strict=True)
    said = Markup("{}; {}: ").format(*(_side(proof, *side) for side in sides))
    said = said[:1].upper() + said[1:]
    verdict = "gather the longer edge evenly" if fit.fullness else _VERDICTS[fit.verdict]
    plan = _plan(proof, fit)
    return Markup("{}{}{}.").format(said, verdict, plain(f". {plan}") if plan else "")


def _side(proof: Proof, edge: Edge, count: int | None, mm: float, folded: bool) -> Markup:
    """ "72 stitches of the bell are 30 cm"."""
    name = f"the {proof.fabric.pieces[edge.piece].piece.name.lower()}"
    if edge.kind in ("footprint", "between", "up"):
        return Markup("the place on {} is {}").format(name, measure(mm))
    counted_ = counted(count or 0, *(("row", "rows") if edge.per_row else ("stitch", "stitches")))
    are = "is" if count == 1 else "are"
    flat = ", folded flat," if folded else ""
    return Markup("{} of {}{} {} {}").format(counted_, name, flat, are, measure(mm))


def _plan(proof: Proof, fit: Fit) -> str:
    if fit.plan is None or any(edge.kind == "between" for edge in fit.edges):
        return ""
    words = plan_words(fit)
    edge = fit.edges[fit.plan.short]
    name = proof.fabric.pieces[edge.piece].piece.name
    said = words.replace(f" of {edge.piece}", f" of the {name.lower()}")
    return f"{said[:1].upper()}{said[1:]}"
