"""Wire and the like that is longer than the piece it goes into."""

from __future__ import annotations

from roundproof.checks.base import Check, Found, quoted
from roundproof.findings import Severity
from roundproof.measure.figures import cm
from roundproof.notation.edges import piece_of
from roundproof.pattern.model import Insert
from roundproof.proof import Proof

_MOST = 4.0
"""Times the piece from which even a doubled wire with bent ends is too long."""
_PLAIN = 1.1


def _run(proof: Proof) -> Found:
    for step in proof.pattern.assembly:
        verb = step.verb
        if not isinstance(verb, Insert) or verb.piece is None or verb.length is None:
            continue
        key = piece_of(verb.piece.value, proof.fabric.pieces)
        size = proof.measures.pieces.get(key or "")
        reach = (
            max(size.height_mm or 0.0, size.length_mm or 0.0, size.diameter_mm or 0.0)
            if size
            else 0.0
        )
        told = verb.ends is not None or step.step is not None
        if not key or not reach or verb.length.value <= (_MOST if told else _PLAIN) * reach:
            continue
        yield CHECK.finding(
            verb.length.span,
            f"{quoted(verb.item.value)} is {cm(verb.length.value)} long and {key} measures"
            f" {cm(reach)}.",
            f"Cut it to {cm(reach)}, or say under `ends` what is done with the rest."
            if not told
            else f"Cut it shorter: doubled it would take {cm(2 * reach)}.",
            piece=key,
        )


_PATTERN = """\
title: Worm
terms: US
notions: [{item: coated wire, hazard: wire}]
safety:
  note: There is wire inside, which can work through and prick.
yarns:
  sand: {gauge: 20 sts x 20 rounds = 10 cm}
pieces:
  worm: |
    R1: 6 sc in magic ring (6)
    R2-R20: sc around (6)
assembly:
  - insert: {item: coated wire, piece: worm, length: %s}
"""

CHECK = Check(
    id="insert-long",
    title="Longer than what it goes into",
    why=(
        "Wire that is longer than its piece comes out at the end, or is forced in and works"
        " through later. If it is doubled or its ends are bent back, that has to be told."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN % "30 cm",
    good=_PATTERN % "9.5 cm",
    source="common practice, no source; the piece as measured from its rounds",
    run=_run,
)
