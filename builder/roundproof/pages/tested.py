"""What testers measured, in words beside what is estimated: counts and measures in sum, and nothing
else of what they sent back."""

from __future__ import annotations

from roundproof.drawing.lengths import trimmed
from roundproof.measure.model import Spread
from roundproof.pages.figures import NBSP, counted
from roundproof.proof import Proof


def yarn_tested(proof: Proof, key: str) -> str:
    """ "Measured by 3 testers: 15.6 m (14.6–16.3), 4.7 g (4.5–4.8)."; empty where nobody did."""
    tested = proof.tested
    grams = tested.grams.get(key) if tested else None
    if tested is None or grams is None:
        return ""
    metres = tested.metres.get(key)
    figures = [*([_figure(metres, "m")] if metres else []), _figure(grams, "g")]
    return f"Measured by {counted(grams.count, 'tester')}: {', '.join(figures)}."


def time_tested(proof: Proof) -> str:
    """ "measured by 3 testers: 1.5 h (1.2–2)"; empty where nobody did."""
    hours = proof.tested.hours if proof.tested else None
    return f"measured by {counted(hours.count, 'tester')}: {_figure(hours, 'h')}" if hours else ""


def _figure(found: Spread, unit: str) -> str:
    """The median, and the least and the most unless they are the same."""
    places = 1 if found.high < 20 else 0
    low, middle, high = (trimmed(value, places) for value in (found.low, found.middle, found.high))
    spread = "" if low == high else f" ({low}–{high})"
    return f"{middle}{NBSP}{unit}{spread}"
