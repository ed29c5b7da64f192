"""A crocheted join that holds a piece in front which is not part of it."""

from __future__ import annotations

from roundproof.checks.base import Check, Found, quoted
from roundproof.findings import Severity
from roundproof.notation.edges import piece_of
from roundproof.pattern.model import Join
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    for step in proof.pattern.assembly:
        verb = step.verb
        if not isinstance(verb, Join) or verb.front is None or verb.to is None:
            continue
        keys = proof.fabric.pieces
        both = [piece_of(verb.edge.value, keys), piece_of(verb.to.value, keys)]
        if None in both or piece_of(verb.front.value, keys) in both:
            continue
        yield CHECK.finding(
            verb.front.span,
            f"{quoted(verb.front.value)} is held in front, and the join is of {both[0]} and"
            f" {both[1]}.",
            f"Write {both[0]} or {both[1]}.",
            piece=both[0],
        )


_PATTERN = """\
title: Pebble
terms: US
pieces:
  upper: |
    R1: 6 sc in magic ring (6)
  under: |
    R1: 6 sc in magic ring (6)
assembly:
  - join: {edge: under, to: upper, by: crochet, stitch: sc, count: 6, front: %s}
"""

CHECK = Check(
    id="join-front",
    title="Another piece in front",
    why=(
        "In a crocheted join the ridge lies on the side that is held in front, so the pattern says"
        " which of the two pieces that is. A piece that is not in the join cannot be."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN % "lower",
    good=_PATTERN % "upper",
    source="common practice, no source",
    run=_run,
)
