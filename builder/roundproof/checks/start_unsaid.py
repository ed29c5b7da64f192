"""Places counted from the start of a round, where nobody says where that is on the body."""

from __future__ import annotations

import re
from collections.abc import Iterator

from roundproof.checks.base import Check, Found, missing, quoted
from roundproof.expressions import expression
from roundproof.fabric.model import WorkedPiece
from roundproof.findings import Severity
from roundproof.notation.edges import piece_of
from roundproof.notation.tree import Act, Action
from roundproof.pattern.model import Around, At, Embroider, Join, Place
from roundproof.proof import Proof
from roundproof.source import Located, Span

_STITCH = expression(r"\bst(?:itch|s)?\.?\s*\d", re.I)


def _run(proof: Proof) -> Found:
    counted, others = dict[str, Span](), set[str]()
    for host, span in _places(proof):
        key = piece_of(host.value, proof.fabric.pieces)
        if key and span:
            counted.setdefault(key, span)
        elif key:
            others.add(key)
    for key, span in counted.items():
        if key in others and not _located(proof.fabric.pieces[key]):
            yield CHECK.finding(
                span,
                f"{quoted(span.text)} counts stitches from the start of the round, and {key} does"
                " not say where that lies on it.",
                "Add `start_at:` to the piece (`start_at: centre back`), or count from a mark.",
                severity=missing(proof.pattern.status),
                piece=key,
            )


def _places(proof: Proof) -> Iterator[tuple[Located[str], Span | None]]:
    """What is set on a piece: the piece, and the words where it is by the number of a stitch."""
    for step in proof.pattern.assembly:
        match step.verb:
            case Join(to=Located() as host, at=At(), around=around):
                yield host, _stitch(around)
            case Place(piece=Located() as host, around=around):
                yield host, _stitch(around)
            case Embroider(piece=host, lines=lines):
                ends = [end for line in lines for end in (line.from_, line.to) if end]
                at = next((end.span for end in ends if _STITCH.search(end.value)), None)
                yield host, at


def _stitch(around: Around | None) -> Span | None:
    return around.st.span if around and around.st else None


def _located(piece: WorkedPiece) -> bool:
    """Whether the start of its rounds, or a landmark, is told of. On an oval the chain does it."""
    marked = any(isinstance(e, Action) and e.act is Act.MARK for e in piece.entries)
    oval = any(worked.far_side for worked in piece.rounds)
    return bool(piece.piece.start_at or piece.piece.marks) or marked or oval


_PATTERN = """\
title: Pebble
terms: US
notions:
  - {{item: safety eyes, size: 6 mm, count: 1}}
  - {{item: button, size: 8 mm, count: 1}}
safety: {{note: The eye and the button are small parts that young children could swallow.}}
pieces:
  body:
    {}rounds: |
      R1: 6 sc in magic ring (6)
      R2: inc x 6 (12)
      R3: sc around (12)
assembly:
  - place: {{item: safety eyes, piece: body, between: [R2, R3], around: {{st: 3}}}}
  - place: {{item: button, piece: body, between: [R1, R2]}}
    step: Sew the button to the back.
"""

CHECK = Check(
    id="start-unsaid",
    title="Start of the round not located",
    why=(
        "The beginning of a spiral wanders, and on a ball one side is like the other. A place told"
        " as stitch 14 helps only if the maker knows whether stitch 1 is at the back or under an"
        " arm, as soon as anything else on the piece is told by front and back."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format(""),
    good=_PATTERN.format("start_at: centre back\n    "),
    source="common practice, no source: the start of the round is located where places depend on"
    " it",
    run=_run,
)
