"""A piece written out that says it mirrors another, and does not."""

from __future__ import annotations

from itertools import islice, zip_longest

from roundproof.checks._rounds import work_in_words
from roundproof.checks.base import Check, Found, quoted
from roundproof.fabric.laid import Laid, laid
from roundproof.fabric.model import WorkedRound
from roundproof.findings import Edit, Severity
from roundproof.proof import Proof

_MOST = 20_000
"""Stitches of a round that are looked at."""


def _run(proof: Proof) -> Found:
    for key, expected in proof.fabric.differing.items():
        piece = proof.fabric.pieces[key]
        words = piece.piece.mirror or piece.piece.same_as
        if words is None:
            continue
        mine, theirs = quoted(key), quoted(words.value)
        how = "the mirror image of" if piece.piece.mirror else "the same as"
        for worked, other in zip_longest(piece.rounds, expected.rounds):
            edits: tuple[Edit, ...] = ()
            if worked is None or other is None:
                span = worked.round.work if worked else words.span
                label = (worked or other).label
                has, not_ = (mine, theirs) if worked else (theirs, mine)
                message = f"{has} has an {label}, and {not_} has none."
                mend = "Write it in both, or take it out."
            elif worked.instruction is None or other.instruction is None or _alike(worked, other):
                continue
            else:
                span, label = worked.round.work, worked.label
                message = f"{label} of {mine} is not {how} {other.label} of {theirs}."
                right = work_in_words(other.instruction, proof)
                mend, edits = f"That would be: {right}.", (Edit(span, right),)
            yield CHECK.finding(span, message, mend, piece=key, round=label, edits=edits)
            break  # what follows goes wrong with it


def _alike(worked: WorkedRound, other: WorkedRound) -> bool:
    """Whether two rounds come to the same stitches, however they are worded."""
    if (worked.made, worked.rounds) != (other.made, other.rounds):
        return False
    pairs = zip_longest(islice(laid(worked), _MOST), islice(laid(other), _MOST))
    return all(a is not None and b is not None and _same(a, b) for a, b in pairs)


def _same(a: Laid, b: Laid) -> bool:
    return (a.kind, a.yarn, a.feet) == (b.kind, b.yarn, b.feet)


_PATTERN = """\
title: Pebble
terms: US
left_right: wearer
pieces:
  left claw: |
    R1: 6 sc in magic ring (6)
    R2: 2 inc, 4 sc (8)
  right claw:
    mirror: left claw
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: {} (8)
"""

CHECK = Check(
    id="mirror-differs",
    title="A pair that does not match",
    why=(
        "A left and a right piece are written twice, and corrected once. A round that was changed"
        " in one and forgotten in the other gives the maker a pair that does not match, which shows"
        " only when both are sewn on."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format("3 sc, 2 inc, sc"),
    good=_PATTERN.format("4 sc, 2 inc"),
    source="common practice, no source: mirrored pairs differ only where intended",
    run=_run,
)
