"""Two edges of one gauge that are joined, with unlike counts; crocheted joins and folded edges."""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.checks.base import Check, Found
from roundproof.findings import Finding, Severity
from roundproof.measure.figures import percent, stitches
from roundproof.measure.model import Fit, Verdict
from roundproof.measure.spacing import spread
from roundproof.proof import Proof

SEVERITY = {
    Verdict.EASE: Severity.NOTE,
    Verdict.CARE: Severity.WARNING,
    Verdict.MISFIT: Severity.ERROR,
}


def _run(proof: Proof) -> Found:
    for fit in proof.measures.fits:
        if fit.verdict in SEVERITY:
            if fit.by_count and fit.fullness is None:
                yield _unlike(fit, SEVERITY[fit.verdict])
        elif fit.folded[0] and (fit.counts[0] or 0) % 2:
            yield _odd(fit)
        else:
            yield from _crocheted(fit)


def _odd(fit: Fit) -> Finding:
    count, edge = fit.counts[0] or 0, fit.edges[0]
    return CHECK.finding(
        fit.span,
        f"{edge.text} has {stitches(count)} and is folded flat: one is left without a partner.",
        f"End {edge.piece} with {count - 1} or {count + 1}.",
        severity=Severity.WARNING,
        piece=edge.piece,
    )


def _unlike(fit: Fit, severity: Severity) -> Finding:
    one, two = (fit.counts[0] or 0, fit.counts[1] or 0)
    guest, host = fit.edges
    flat = " (folded flat)" if fit.folded[0] else ""
    return CHECK.finding(
        fit.span,
        f"{guest.text} has {stitches(one)}{flat} and {host.text} has {two}: {_over(fit)}.",
        _mend(fit),
        severity=severity,
        piece=guest.piece,
    )


def _over(fit: Fit) -> str:
    longer, shorter = _as_they_lie(fit)
    over = longer - shorter
    return f"{over} {'is' if over == 1 else 'are'} left over ({percent(over / shorter)})"


def _as_they_lie(fit: Fit) -> tuple[int, int]:
    one = (fit.counts[0] or 0) // (2 if fit.folded[0] else 1)
    two = (fit.counts[1] or 0) // (2 if fit.folded[1] else 1)
    return max(one, two), min(one, two)


def _mend(fit: Fit) -> str:
    """The count each edge would need, and how to spread a difference that can be eased in."""
    guest, host = fit.edges
    counts = f"End {guest.piece} with {fit.suggest[0]}, or {host.piece} with {fit.suggest[1]}"
    if fit.verdict is Verdict.MISFIT:
        return f"{counts}; if the longer edge is meant to gather, say `ease: gathered`."
    longer, shorter = _as_they_lie(fit)
    gap, _ = spread(longer, longer - shorter)[0]
    return f"{counts}; or take two of the longer edge into one, every {gap} stitches or so."


def _crocheted(fit: Fit) -> Iterator[Finding]:
    """The stitches of a crocheted join are those of one of the edges."""
    count = fit.join.count
    if count is None or fit.join.by is None or fit.join.by.value != "crochet":
        return
    known = [c // (2 if f else 1) for c, f in zip(fit.counts, fit.folded, strict=True) if c]
    if len(known) < 2 or count.value in known:
        return
    guest, host = fit.edges
    yield CHECK.finding(
        count.span,
        f"The join has {stitches(count.value)}; {guest.text} has {known[0]} and {host.text} has"
        f" {known[1]}.",
        f"Join with {max(known)}.",
        piece=guest.piece,
    )


_PATTERN = """\
title: Pebble
terms: US
pieces:
  upper: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: sc around (12)
  under: |
    R1: 6 sc in magic ring (6)
    R2: {}
assembly:
  - join: {{edge: under, to: upper, by: whipstitch}}
notions: [tapestry needle]
"""

CHECK = Check(
    id="join-count",
    title="Joined edges with unlike counts",
    why=(
        "Two edges in one gauge that are sewn or crocheted together meet stitch for stitch. If one"
        " has more, the maker finds out at the end of the seam, with a bulge of stitches left over"
        " and nothing to put them in. Up to 3 % vanishes in the seam."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format("(inc, 2 sc) x 2 (8)"),
    good=_PATTERN.format("inc x 6 (12)"),
    source="common practice, no source; limits as for lengths that do not fit",
    run=_run,
)
