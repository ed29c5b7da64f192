"""Increases that stand one over the other, round after round."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from roundproof.checks.base import Check, Found
from roundproof.fabric.edges import in_rows
from roundproof.fabric.laid import Into, laid
from roundproof.fabric.model import Base, WorkedPiece, WorkedRound
from roundproof.findings import Severity
from roundproof.frozen import dataclass
from roundproof.proof import Proof

_PLACES = 6
_ROUNDS = 6
_MOST = 600
"""Stitches of a round that are looked at: a wider one has its corners elsewhere."""


@dataclass(frozen=True, slots=True)
class _Stack:
    """Increases at as many `places` over each other, from one round to another."""

    first: WorkedRound
    last: WorkedRound
    rounds: int
    places: int


def _run(proof: Proof) -> Found:
    for piece in proof.fabric.pieces.values():
        first = piece.rounds[0] if piece.rounds else None
        if piece.of or first is None or first.base is not Base.RING or in_rows(piece):
            continue
        for stack in _stacks(piece):
            if stack.rounds >= _ROUNDS:
                yield CHECK.finding(
                    stack.first.round.work,
                    f"The {stack.places} increases of {stack.first.label} to {stack.last.label}"
                    f" stand one over the other, {stack.rounds} rounds long: that makes a shape"
                    f" with {stack.places} corners.",
                    "For a round shape move them by half a group in every other round, for"
                    " instance `(2 sc, inc, 2 sc) x 6` after `(3 sc, inc) x 6`.",
                    piece=piece.piece.key,
                    round=stack.first.label,
                )


def _stacks(piece: WorkedPiece) -> Iterator[_Stack]:
    """Runs of rounds each of which has its increases over those of the one before."""
    stack, tops = None, frozenset[int]()
    for worked, long in zip(piece.rounds, _in_long_runs(piece), strict=True):
        feet, made = _increases(worked) if long else (frozenset[int](), frozenset[int]())
        over = bool(feet) and feet <= tops
        if stack and over and len(feet) == stack.places:
            stack = _Stack(stack.first, worked, stack.rounds + 1, stack.places)
        else:
            if stack:
                yield stack
            enough = len(feet) >= _PLACES
            stack = _Stack(worked, worked, 1, len(feet)) if enough else None
        tops = made
    if stack:
        yield stack


def _in_long_runs(piece: WorkedPiece) -> list[bool]:
    """For each line of work whether it stands in a run long enough of rounds with increases."""
    found: list[bool] = []
    for shaped, run in groupby(piece.rounds, key=_shaped):
        lines = len(list(run))
        found += [shaped and lines >= _ROUNDS] * lines
    return found


def _shaped(worked: WorkedRound) -> bool:
    """Whether a round has increases enough. One in which all stitches are, has them everywhere."""
    made, used = worked.made or 0, worked.used or 0
    plain = worked.base is Base.ROUND and worked.sound and worked.rounds == 1
    return plain and _PLACES <= made - used < used and made <= _MOST


def _increases(worked: WorkedRound) -> tuple[frozenset[int], frozenset[int]]:
    """The stitches below that take several, and the numbers of those made in them."""
    on: dict[int, list[int]] = {}
    for stitch in laid(worked):
        if stitch.number and len(stitch.feet) == 1 and stitch.feet[0].into is Into.STITCH:
            on.setdefault(stitch.feet[0].number, []).append(stitch.number)
    shaped = {foot: tops for foot, tops in on.items() if len(tops) > 1}
    return frozenset(shaped), frozenset(top for tops in shaped.values() for top in tops)


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: (sc, inc) x 6 (18)
    R4: (2 sc, inc) x 6 (24)
    R5: {} (30)
    R6: (4 sc, inc) x 6 (36)
    R7: {} (42)
    R8: (6 sc, inc) x 6 (48)
"""

CHECK = Check(
    id="increases-stacked",
    title="Increases one over the other",
    why=(
        "Six increases that stand over those of the round below make six edges, and the ball or"
        " disc turns out a hexagon. Over two or three rounds nobody sees it; over more it shows."
        " Where corners are wanted, nothing is wrong."
    ),
    severity=Severity.NOTE,
    bad=_PATTERN.format("(3 sc, inc) x 6", "(5 sc, inc) x 6"),
    good=_PATTERN.format("(sc, inc, 2 sc) x 6", "(3 sc, inc, 2 sc) x 6"),
    source="common practice, no source: increases stacked over several rounds show as corners",
    run=_run,
)
