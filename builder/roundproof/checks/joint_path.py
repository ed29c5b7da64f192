"""A joint that does not hold two pieces together."""

from __future__ import annotations

from roundproof.checks.base import Check, Found, missing, quoted
from roundproof.findings import Severity
from roundproof.notation.edges import piece_of
from roundproof.pattern.model import Joint
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    keys = [piece.key for piece in proof.pattern.pieces]
    for step in proof.pattern.assembly:
        if not isinstance(step.verb, Joint):
            continue
        path = step.verb.path
        pieces = [piece_of(point.value, keys) for point in path]
        if not path:
            yield CHECK.finding(
                step.verb.with_.span,
                f"Which pieces {quoted(step.verb.with_.value)} holds together is not said.",
                "Give the points it goes through in order, for instance"
                " `path: [arm R3 st 2, body R20 st 5]`.",
                severity=missing(proof.pattern.status),
            )
        elif None not in pieces and len(set(pieces)) < 2 and _once(proof, pieces[0]):
            yield CHECK.finding(
                path[0].span.to(path[-1].span),
                f"The joint goes through {pieces[0]} alone, so it holds nothing to it.",
                "Name a point of the other piece as well.",
                piece=pieces[0],
            )


def _once(proof: Proof, key: str | None) -> bool:
    piece = proof.pattern.piece(key or "")
    return piece is not None and piece.make < 2


_PATTERN = """\
title: Bear
terms: US
notions: [strong thread, long needle]
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
  arm: |
    R1: 6 sc in magic ring (6)
assembly:
  - joint: {with: strong thread, path: [%s], passes: 3}
    step: Hang the arm on the body with strong thread.
"""

CHECK = Check(
    id="joint-path",
    title="A joint that holds nothing",
    why=(
        "A joint of thread is told by the points that it goes through. With points of one piece"
        " only, the limb it is meant to hold is left hanging in the air."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN % "body R2 st 3, body R2 st 9",
    good=_PATTERN % "arm R1 st 2, body R2 st 3",
    source="common practice, no source: hole positions, thread path and tightness",
    run=_run,
)
