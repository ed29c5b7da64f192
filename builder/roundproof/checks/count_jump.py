"""A round that makes far more stitches, or far fewer, than it is worked into."""

from __future__ import annotations

import re
from collections.abc import Iterator

from roundproof.checks.base import Check, Found
from roundproof.fabric.model import Base, WorkedPiece, WorkedRound
from roundproof.findings import Severity
from roundproof.measure.figures import number, stitches
from roundproof.notation.tree import Action, Note
from roundproof.proof import Proof

_TIMES = 2
"""More than twice, or less than half: a disc that lies flat never has to go so far after R2."""
_LEAST = 6
"""Below so many stitches a tip or a point changes by as much in any pattern."""


def _run(proof: Proof) -> Found:
    for piece in proof.fabric.pieces.values():
        if piece.of is None:
            yield from _piece(piece)


def _piece(piece: WorkedPiece) -> Found:
    jumps = list(_jumps(piece))
    if not jumps or _told(piece):
        return
    for worked, jump in jumps:
        yield CHECK.finding(
            worked.round.work,
            f"{worked.label} makes {stitches(worked.made or 0)} of the {worked.used} it is worked"
            f" into: {jump}.",
            "Look at its repeat. A frill or a gather that is meant is told by a note (`Note: This"
            " round is meant to ruffle.`).",
            piece=piece.piece.key,
            round=worked.label,
        )


def _jumps(piece: WorkedPiece) -> Iterator[tuple[WorkedRound, str]]:
    rounds = piece.rounds
    for before, worked, after in zip((None, *rounds), rounds, (*rounds[1:], None), strict=False):
        jump = _jump(before, worked)
        if jump and not _plain(piece, worked, after):
            yield worked, jump


def _jump(before: WorkedRound | None, worked: WorkedRound) -> str:
    """How far the count goes, in words; empty where it does not go far."""
    used, made = worked.used, worked.made
    if before is None or worked.base is not Base.ROUND or not worked.sound or worked.rounds > 1:
        return ""
    if not used or not made or worked.onto or max(used, made) < _LEAST * _TIMES:
        return ""
    if made > _TIMES * used:
        return f"{number(made / used, 1)} times as many"
    return "less than half as many" if _TIMES * made < used else ""


def _plain(piece: WorkedPiece, worked: WorkedRound, after: WorkedRound | None) -> bool:
    """Whether a frill or a gather is plain: a last round that stays wide or is drawn shut, one
    that the next round passes by, one of spurs of chains."""
    if after is None:
        return (worked.made or 0) > (worked.used or 0) or piece.gathered
    return after.base is not Base.ROUND or bool(after.onto) or _chained(worked)


def _told(piece: WorkedPiece) -> bool:
    """Whether the piece speaks of a frill or a gather."""
    said = " ".join(e.text for e in piece.entries if isinstance(e, Note | Action))
    return bool(re.search(r"ruffl|frill|gather|flounce|skirt|drawn? (?:in|together)", said, re.I))


def _chained(worked: WorkedRound) -> bool:
    return any(kind == "ch" for kind, _ in worked.tally)


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: (sc, {} in next st) x 6 ({})
    R4: sc around ({})
"""

CHECK = Check(
    id="count-jump",
    title="Sudden change of the count",
    why=(
        "A round that more than doubles its stitches ruffles, and one that loses more than half of"
        " them puckers. Both are done on purpose at times; more often a repeat has slipped. The"
        " counts agree with one another all the same, so nothing else would tell the maker."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format("4 sc", 30, 30),
    good=_PATTERN.format("2 sc", 18, 18),
    source="common practice, no source: a change to more than double or less than half",
    run=_run,
)
