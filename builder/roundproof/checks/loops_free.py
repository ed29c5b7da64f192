"""A round told to go into loops that no round has left free."""

from __future__ import annotations

from roundproof.checks._rounds import worked_rounds
from roundproof.checks.base import Check, Found, missing
from roundproof.fabric.model import FreeRun, WorkedPiece, WorkedRound
from roundproof.findings import Edit, Severity
from roundproof.notation.tree import FreeLoops, Loop
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    for piece, _, worked in worked_rounds(proof):
        into = worked.instruction.into if worked.instruction else None
        if into is None or worked.instead is None:
            continue
        mend, edits = _mend(into, worked.instead, piece)
        absent = piece.at(into.round) is None  # in a draft the rounds before may be elsewhere
        yield CHECK.finding(
            into.span,
            f"{worked.label} goes into the {into.loop} loops of R{into.round}, and"
            f" {_why(piece, worked, into)}.",
            mend,
            severity=missing(proof.pattern.status) if absent else None,
            piece=piece.piece.key,
            round=worked.label,
            edits=edits,
        )


def _why(piece: WorkedPiece, worked: WorkedRound, into: FreeLoops) -> str:
    for other in piece.rounds:
        if other is worked:
            break
        earlier = other.instruction.into if other.instruction else None
        if earlier == into and other.available:
            return f"{other.label} has worked into them already"
    below = piece.at(into.round)
    if below is None or below.round.label.first > worked.round.label.first:
        return f"there is no R{into.round} before it"
    return f"R{into.round} has none free"


def _mend(
    into: FreeLoops, free: tuple[FreeRun, ...], piece: WorkedPiece
) -> tuple[str, tuple[Edit, ...]]:
    """The rounds that have such loops; as an edit where there is only one."""
    same = [run for run in free if run.loop is into.loop]
    told = ", ".join(f"R{run.round} ({run.count} {run.loop} loops)" for run in free)
    if not free:
        other = "BLO" if into.loop is Loop.FRONT else "FLO"
        return f"Work the round after R{into.round} in {other} to leave them free.", ()
    edits: tuple[Edit, ...] = ()
    if len(same) == 1 and len(free) == 1:
        edits = _number(into, same[0].round)
    return f"Loops are free in {told}.", edits


def _number(into: FreeLoops, right: int) -> tuple[Edit, ...]:
    """The number of the round put right, where it is the last thing the words say."""
    words = into.span.text
    if not words.endswith(str(into.round)):
        return ()
    start = len(words) - len(str(into.round))
    return (Edit(into.span.cut(start, len(words)), str(right)),)


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: BLO: sc around (12)
    R4: sc around (12)
    R5: in the free front loops of R{}: sc around (12)
"""

CHECK = Check(
    id="loops-free",
    title="Loops that are not free",
    why=(
        "A frill or a rim is worked into loops that an earlier round has left. If the number of the"
        " round is one out, or the round was worked through both loops, the maker looks for loops"
        " that are not there; and a loop can be worked into only once."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format(3),
    good=_PATTERN.format(2),
    source="common practice, no source: loops are named after the round they belong to",
    run=_run,
)
