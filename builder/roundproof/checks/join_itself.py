"""An edge that is to be joined to itself where there is only one of it."""

from __future__ import annotations

from roundproof.checks.base import Check, Found, quoted
from roundproof.findings import Severity
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    for fit in proof.measures.fits:
        one, two = fit.edges
        same = (one.piece, one.kind, one.round) == (two.piece, two.kind, two.round)
        piece = proof.pattern.piece(one.piece)
        if not same or one.per_row or piece is None or piece.make != 1:
            continue
        edge, key = quoted(one.text), quoted(one.piece)
        yield CHECK.finding(
            fit.span,
            f"{edge} is to be joined to itself, and there is only one {key}.",
            f"Name the other edge, make two of {key} (`make: 2`), or close the edge in the"
            f" assembly, with `close` and {edge}.",
            piece=one.piece,
        )


_PATTERN = """\
title: Sponge
terms: US
pieces:
  side:
    make: {}
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: inc x 6 (12)
assembly:
  - join: {{edge: side, to: side, by: whipstitch}}
notions: [tapestry needle]
"""

CHECK = Check(
    id="join-itself",
    title="An edge joined to itself",
    why=(
        "A seam has two sides. An edge that is named on both sides of a join needs a second copy of"
        " its piece; one that shuts upon itself is closed, which is another step."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format(1),
    good=_PATTERN.format(2),
    source="common practice, no source",
    run=_run,
)
