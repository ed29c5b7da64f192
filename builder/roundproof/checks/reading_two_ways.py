"""A wording that can be read in two ways, and nothing says which."""

from __future__ import annotations

from roundproof.checks._rounds import work_in_words, worked_rounds
from roundproof.checks.base import Check, Found
from roundproof.findings import Severity
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    for piece, _, worked in worked_rounds(proof):
        if not worked.unsettled or worked.available is None:
            continue
        ways = [work_in_words(reading, proof) for reading in worked.round.readings]
        yield CHECK.finding(
            worked.round.work,
            f"{worked.label} can be read in {len(ways)} ways, and more than one of them fits.",
            "Write " + ", or ".join(f"`{way}`" for way in ways) + ", or state the count.",
            piece=piece.piece.key,
            round=worked.label,
        )


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: *sc in magic ring; rep from * 5 times{}
"""

CHECK = Check(
    id="reading-two-ways",
    title="Wording with two readings",
    why=(
        "`rep from * 5 times` is taken by some for five in all and by others for five more. Where"
        " the stitches there are and the count stated leave only one reading that works, that one"
        " is taken and printed without doubt. Where they do not, makers will differ."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format(""),
    good=_PATTERN.format(" (6)"),
    source="common practice, no source: a repeat number has one meaning",
    run=_run,
)
