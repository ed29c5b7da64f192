"""An unknown word within a round, without which the round would read."""

from __future__ import annotations

from collections.abc import Sequence

from roundproof.checks._rounds import worked_rounds
from roundproof.checks.base import Check, Found, missing, quoted
from roundproof.fabric.model import WorkedRound
from roundproof.findings import Finding, Severity
from roundproof.pattern.model import Status
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    letters: dict[str, list[WorkedRound]] = {}
    for piece, _, worked in worked_rounds(proof):
        if any(len(stray.text) == 1 for stray in worked.round.stray):
            letters.setdefault(piece.piece.key, []).append(worked)
            continue
        for stray in worked.round.stray:
            yield CHECK.finding(
                stray,
                f"{quoted(stray.text)} in {worked.label} is not known here; without it the round"
                " would read, so it is not counted and the piece goes on from its stated count.",
                "Leave the word out, or put it behind the count as a remark.",
                severity=missing(proof.pattern.status),
                piece=piece.piece.key,
                round=worked.label,
            )
    yield from (_unexplained(key, rounds, proof) for key, rounds in letters.items())


def _unexplained(key: str, rounds: Sequence[WorkedRound], proof: Proof) -> Finding:
    """Letters for stitches are one habit, however many rounds of a piece are written in them."""
    first, last = rounds[0], rounds[-1]
    names = list(dict.fromkeys(s.text for r in rounds for s in r.round.stray))
    several, many = len(names) > 1, len(rounds) > 1
    said = ", ".join(quoted(name) for name in names)
    where = f"{len(rounds)} rounds from {first.label} to {last.label}" if many else first.label
    goes_on = all(r.round.stated for r in rounds)
    on = "the piece goes on from the stated counts" if goes_on else "what follows is not proved"
    draft = goes_on and proof.pattern.status is Status.DRAFT
    return CHECK.finding(
        first.round.stray[0],
        f"{said} in {where} {'are letters' if several else 'is a letter'} that nothing explains:"
        f" {'these rounds are' if many else 'the round is'} not counted, and {on}.",
        "Explain each in a line before the rounds, like `X = sc, V = inc`.",
        severity=Severity.WARNING if draft else Severity.ERROR,
        piece=key,
        round=first.label,
    )


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: sc {}in each st around (12)
"""

CHECK = Check(
    id="word-stray",
    title="Word passed over in a round",
    why=(
        "A round is counted only if every word of it is understood: a word that is passed over"
        " may be the one that changes what is worked. Words that say how (loosely, firmly) are"
        " known; another one stands in the way of the count."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format("nicely "),
    good=_PATTERN.format("loosely "),
    source="common practice, no source: every term used is in the key",
    run=_run,
)
