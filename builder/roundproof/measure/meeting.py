"""How two edges with unlike counts meet, in words."""

from __future__ import annotations

from roundproof.measure.figures import times
from roundproof.measure.model import Fit
from roundproof.notation.numerals import ordinal


def plan_words(fit: Fit) -> str:
    """'double every 5th stitch of underside, 12 times': how unlike counts meet all round."""
    if fit.plan is None:
        return ""
    edge = fit.edges[fit.plan.short]
    what = "row end" if edge.kind == "row ends" else "stitch"
    each, more = fit.plan.each, fit.plan.more
    times_over = [f"every {ordinal(gap)} {times(count)}" for gap, count in more]
    if each > 1:
        rest = f", and one more into {' and '.join(times_over)}" if more else ""
        return f"put {each} stitches into each {what} of {edge.piece}{rest}"
    if len(more) == 1:
        ((gap, count),) = more
        if count == 1:
            return f"double one {what} of {edge.piece}"
        return f"double {_every(gap, what)} of {edge.piece}, {times(count)}"
    return f"double one {what} of {edge.piece}: {' and '.join(times_over)}"


def _every(gap: int, what: str) -> str:
    return f"each {what}" if gap == 1 else f"every {ordinal(gap)} {what}"
