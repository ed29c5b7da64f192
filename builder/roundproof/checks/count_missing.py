"""Rounds that state no count."""

from __future__ import annotations

from roundproof.checks._rounds import worked_rounds
from roundproof.checks.base import Check, Found, missing
from roundproof.fabric.model import WorkedRound
from roundproof.findings import Edit, Severity
from roundproof.pattern.model import Status
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    if proof.pattern.status is Status.DRAFT:
        return  # a count is optional while a pattern is being written
    bare: dict[str, list[WorkedRound]] = {}
    for piece, _, worked in worked_rounds(proof):
        if worked.round.stated is None and worked.made is not None and not worked.round.repeats:
            bare.setdefault(piece.piece.key, []).append(worked)
    for key, rounds in bare.items():
        names = ", ".join(w.label for w in rounds[:8]) + (" and more" if len(rounds) > 8 else "")
        yield CHECK.finding(
            rounds[0].round.work,
            f"No count is stated for {names}.",
            f"Write the counts: {rounds[0].label} makes ({rounds[0].made}).",
            severity=missing(proof.pattern.status, early=True),
            piece=key,
            round=rounds[0].label,
            edits=tuple(_edit(w) for w in rounds),
        )


def _edit(worked: WorkedRound) -> Edit:
    end = worked.round.work
    return Edit(end.cut(end.end - end.start, end.end - end.start), f" ({worked.made})")


_PATTERN = """\
title: Pebble
status: testing
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6{}
"""

CHECK = Check(
    id="count-missing",
    title="No count stated",
    why=(
        "The count at the end of a round is how a maker knows that the round is right before going"
        " on. A draft can do without; testers and makers cannot."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format(""),
    good=_PATTERN.format(" (12)"),
    source="common practice, no source: a pattern states the count of each round",
    run=_run,
)
