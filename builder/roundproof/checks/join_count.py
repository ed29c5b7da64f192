"""Two edges of one gauge that are joined, with unlike counts; crocheted joins and folded edges."""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.checks._joins import SEVERITY, count_mend, doubtful, left_over
from roundproof.checks.base import Check, Found
from roundproof.findings import Finding, Severity
from roundproof.measure.figures import stitches
from roundproof.measure.model import Fit
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    for fit in proof.measures.fits:
        if doubtful(proof, fit):
            continue
        if fit.verdict in SEVERITY:
            if fit.by_count and fit.fullness is None:
                yield _unlike(proof, fit, SEVERITY[fit.verdict])
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


def _unlike(proof: Proof, fit: Fit, severity: Severity) -> Finding:
    one, two = (fit.counts[0] or 0, fit.counts[1] or 0)
    guest, host = fit.edges
    flat = " (folded flat)" if fit.folded[0] else ""
    return CHECK.finding(
        fit.span,
        f"{guest.text} has {stitches(one)}{flat} and {host.text} has {two}: {left_over(fit)}.",
        count_mend(proof, fit),
        severity=severity,
        piece=guest.piece,
    )


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
