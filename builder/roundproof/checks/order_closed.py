"""Work inside a piece that comes after the piece is closed."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from roundproof.checks.base import Check, Found, quoted
from roundproof.fabric.closing import Closed, When, closed_at, openings, when_of
from roundproof.fabric.model import Fabric
from roundproof.findings import Severity
from roundproof.frozen import dataclass
from roundproof.notation.edges import piece_of
from roundproof.pattern.model import Insert, Joint, Pattern, Place, Step, Stuff
from roundproof.proof import Proof
from roundproof.source import Span

INSIDE = ("safety eye", "safety nose", "washer", "rattle", "squeaker", "bell", "disc", "cotter")
"""Beginnings of the names of what is fastened from inside: common practice, no source."""


@dataclass(frozen=True, slots=True)
class _Inside:
    """Something done inside a piece: `what` as the start of a sentence."""

    piece: str
    when: When
    what: str
    span: Span


def _run(proof: Proof) -> Found:
    closings = _closings(proof)
    for inside in _work_inside(proof.pattern, proof.fabric):
        closed = closings.get(inside.piece)
        if closed is None or inside.when <= closed.when:
            continue
        yield CHECK.finding(
            inside.span,
            f"{inside.what} comes after {inside.piece} is closed: {closed.how}.",
            _mend(proof, inside, closed),
            piece=inside.piece,
        )


def _closings(proof: Proof) -> Mapping[str, Closed]:
    found = openings(proof.pattern, proof.fabric)
    closed = {key: closed_at(each) for key, each in found.items()}
    return {key: when for key, when in closed.items() if when is not None}


def _work_inside(pattern: Pattern, fabric: Fabric) -> Iterator[_Inside]:
    for number, step in enumerate(pattern.assembly, 1):
        for words, what, span in _inner(step):
            key = piece_of(words, fabric.pieces)
            when = when_of(step, number, key, fabric) if key else None
            if key is not None and when is not None:
                yield _Inside(key, when, what, span)


def _inner(step: Step) -> Iterator[tuple[str, str, Span]]:
    """The pieces that a step works inside of, and what it does there."""
    match step.verb:
        case Stuff(piece=piece):
            yield piece.value, "The stuffing", piece.span
        case Insert(item=item, piece=piece) if piece:
            yield piece.value, quoted(item.value), item.span
        case Place(item=item, piece=piece) if piece and _fixed_inside(item.value):
            yield piece.value, f"{quoted(item.value)}, fastened from inside,", item.span
        case Joint(with_=item, path=path) if _fixed_inside(item.value):
            for point in path:
                yield point.value, f"{quoted(item.value)}, fastened from inside,", item.span


def _fixed_inside(item: str) -> bool:
    words = item.lower()
    return any(re.search(rf"\b{word}", words) for word in INSIDE if word in words)


def _mend(proof: Proof, inside: _Inside, closed: Closed) -> str:
    number = closed.when[1] or _last(proof.fabric, inside.piece)
    if closed.when[0]:
        return f"Move it before that step, or say `after: {inside.piece} R{max(number - 1, 1)}`."
    return f"Say at which round it is done, `after: {inside.piece} R{max(number - 1, 1)}`."


def _last(fabric: Fabric, piece: str) -> int:
    last = fabric.pieces[piece].last
    return last.round.label.last if last else 1


_PATTERN = """\
title: Puffin
terms: US
notions: [safety eyes 2]
pieces:
  head:
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: inc x 6 (12)
      R3: (sc, inc) x 6 (18)
      R4-R6: sc around (18)
      R7: (sc, dec) x 6 (12)
      R8: dec x 6 (6)
      Fasten off and draw the last round shut.
assembly:
  - {}
safety:
  note: The eyes are small parts that can come loose and be swallowed by young children.
"""
_EYES = "place: {item: safety eyes, piece: head, between: [R4, R5], around: {st: 3, apart: 4}}"

CHECK = Check(
    id="order-closed",
    title="Work inside a piece that is closed",
    why=(
        "Eyes with a washer, wire and stuffing go in while there is an opening. A step that asks"
        " for them afterwards sends the maker back to cut the seam. A piece is closed by a round"
        " through both layers, by drawing its end shut, or by the step that joins or closes its"
        " last open edge."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format(_EYES),
    good=_PATTERN.format("{" + _EYES + ", after: head R7}"),
    source="common practice, no source: inside work before closing, stuffing before closing",
    run=_run,
)
