"""A cord or a loop longer than a published rule lets it be."""

from __future__ import annotations

from roundproof.checks._cords import Cord, cords
from roundproof.checks.base import Check, Found
from roundproof.findings import Severity
from roundproof.measure.figures import cm
from roundproof.proof import Proof
from roundproof.reference.hazards import hazards, limits

_ROUNDING = 0.5
"""mm. Lengths are told to a millimetre."""


def _run(proof: Proof) -> Found:
    for cord in cords(proof):
        kind = "loop" if cord.loop else "cord"
        limit = limits()[kind]
        if cord.length > limit.mm + _ROUNDING:
            round_ = " round" if cord.loop else ""
            guess = ", as far as a guessed gauge can tell" if cord.guessed else ""
            yield CHECK.finding(
                cord.span,
                f"{cord.what[:1].upper()}{cord.what[1:]} is a {kind} of {cm(cord.length)}{round_}"
                f"{guess}. {limit.rule}, lets a {kind} on toys for young children be"
                f" {cm(limit.mm)}{round_}.",
                _mend(cord, limit.mm),
                severity=Severity.NOTE if _named(proof) else Severity.WARNING,
                piece=cord.piece,
                round=cord.round,
            )


def _mend(cord: Cord, most: float) -> str:
    share = f"Work it to {100 * most // cord.length:.0f} % of that" if cord.piece else "Shorten it"
    if cord.loop:
        return f"{share}; if it has to be as long, let the safety note say so, and why it matters."
    return (
        f"{share}, or sew it down along its length; if it has to hang free, let the safety note say"
        " so, and that it can tangle."
    )


def _named(proof: Proof) -> bool:
    note = proof.pattern.safety_note
    cord = next(hazard for hazard in hazards() if hazard.id == "cord")
    return note is not None and cord.named_in(note.value)


_PATTERN = """\
title: Lanyard
terms: US
yarns:
  slate: {{gauge: 20 sts x 20 rounds = 10 cm}}
pieces:
  lace:
    yarn: slate
    worked: rows
    rounds: |
      Row 1: ch {0}, sl st in 2nd ch from hook and in each ch across ({1})
      Fasten off.
"""

CHECK = Check(
    id="cord-long",
    title="A long cord or loop",
    why=(
        "What is long and thin winds round fingers and necks, and a ring that a head goes through"
        " stays on it. Rules for toys say how long a cord, and how long round a loop, may be; both"
        " follow from the rounds and the gauge. Lengths are those of the work at rest: pulled, it"
        " is longer."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format(61, 60),
    good=_PATTERN.format(31, 30),
    source=(
        "EN 71-1:2014+A1:2018, in force since 15 April 2020: free cords up to 220 mm, loops up to"
        " 380 mm round, at a pull of 25 N; ASTM F963 4.14 says 12 in (300 mm) for cords"
    ),
    run=_run,
)
