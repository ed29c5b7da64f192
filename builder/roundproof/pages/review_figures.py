"""The measured figures of a pattern, each with how it was reached."""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.measure.figures import cm, number
from roundproof.measure.meeting import plan_words
from roundproof.measure.model import PieceSize
from roundproof.pages.figures import counted, grams, metres
from roundproof.pages.review_values import Figure
from roundproof.pages.sizes import FIGURES
from roundproof.pages.tested import time_tested, yarn_tested
from roundproof.pages.times import hours_words
from roundproof.proof import Proof


def figures(proof: Proof) -> Iterator[Figure]:
    """Pieces, joins, yarns, filling and time, in that order."""
    measures = proof.measures
    for key, size in measures.pieces.items():
        yield from _piece(proof.fabric.pieces[key].piece.name, size)
    for fit in measures.fits:
        names = " to ".join(edge.text for edge in fit.edges)
        verdict = fit.verdict.value if fit.verdict else ""
        how = ". ".join(part for part in (fit.working, plan_words(fit)) if part)
        counts = " : ".join("–" if count is None else f"{count:,}" for count in fit.counts)
        yield Figure(names, "join", f"{counts}{f', {verdict}' if verdict else ''}", how)
    for yarn_key, need in measures.yarns.items():
        value = ""
        if need.metres is not None:
            parts = [metres(need.metres)]
            parts += [grams(need.grams)] if need.grams is not None else []
            parts += [counted(need.balls, "ball")] if need.balls is not None else []
            value = ", ".join(parts)
        how = need.working or need.unreliable
        yield Figure(yarn_key, "yarn", value, _beside(how, yarn_tested(proof, yarn_key)))
    filling = grams(measures.stuffing_g) if measures.stuffing_g else ""
    yield Figure("the whole", "filling", filling, measures.working.get("stuffing", ""))
    hours = hours_words(*measures.hours) if measures.hours else ""
    how = _beside(measures.working.get("hours", ""), time_tested(proof))
    yield Figure("the whole", "time", hours, how)


def _beside(how: str, tested: str) -> str:
    """How a figure was reached, and what testers measured."""
    return "; ".join(filter(None, (how, f"{tested[:1].lower()}{tested[1:].rstrip('.')}")))


def _piece(name: str, size: PieceSize) -> Iterator[Figure]:
    measured = {
        "height": size.height_mm,
        "diameter": size.diameter_mm,
        "length": size.length_mm,
        "edge": size.edge_mm,
        "volume": size.volume_ml,
    }
    for figure, called in FIGURES.items():
        amount = measured[figure]
        if amount is not None:
            value = f"{number(amount, 1)} ml" if figure == "volume" else cm(amount)
            yield Figure(name, called, value, size.working.get(figure, ""))
        elif figure in size.unreliable:
            yield Figure(name, called, "", size.unreliable[figure])
