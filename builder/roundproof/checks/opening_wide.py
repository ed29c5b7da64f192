"""An opening too wide to be drawn shut."""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.checks.base import Check, Found, quoted
from roundproof.fabric.edges import find_edge
from roundproof.fabric.model import Edge, WorkedPiece
from roundproof.findings import Severity
from roundproof.measure.figures import stitches
from roundproof.notation.tree import Act, Action
from roundproof.pattern.model import Close
from roundproof.proof import Proof
from roundproof.source import Span

_MOST = 12
"""Stitches that draw together to a point: common practice, no source."""


def _run(proof: Proof) -> Found:
    seen: set[str | None] = set()
    for span, name, count, piece in (*_closed(proof), *_drawn(proof)):
        if count > _MOST and piece not in seen:
            seen.add(piece)
            yield CHECK.finding(
                span,
                f"{quoted(name)} is drawn shut over {stitches(count)}: more than about {_MOST}"
                " leave a hole or a pucker.",
                "Decrease to 6 or 8 first, or sew the opening flat (`by: whipstitch`).",
                piece=piece,
            )


def _closed(proof: Proof) -> Iterator[tuple[Span, str, int, str | None]]:
    """Edges that the assembly gathers."""
    for step in proof.pattern.assembly:
        if isinstance(step.verb, Close) and step.verb.by and step.verb.by.value == "gather":
            edge = find_edge(proof.fabric, step.verb.edge.value)
            if isinstance(edge, Edge) and edge.count is not None and not edge.per_row:
                yield step.verb.edge.span, step.verb.edge.value, edge.count, edge.piece


def _drawn(proof: Proof) -> Iterator[tuple[Span, str, int, str | None]]:
    """Last rounds that the piece itself says are drawn shut."""
    for piece in proof.fabric.pieces.values():
        off = _off(piece)
        if off and piece.gathered and piece.last and piece.last.made and piece.of is None:
            yield off.span, piece.last.label, piece.last.made, piece.piece.key


def _off(piece: WorkedPiece) -> Action | None:
    ends = (e for e in reversed(piece.entries) if isinstance(e, Action))
    return next((e for e in ends if e.act is Act.FASTEN_OFF), None)


_PATTERN = """\
title: Pebble
terms: US
notions: [tapestry needle]
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: (sc, inc) x 6 (18)
    R4-R6: sc around (18)
{}assembly:
  - close: {{edge: body, by: gather}}
"""

CHECK = Check(
    id="opening-wide",
    title="Opening too wide to draw shut",
    why=(
        "A thread drawn through the last round closes a few stitches to a point. From about a"
        " dozen on it leaves a hole that stuffing comes through, or a rosette of folds."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format(""),
    good=_PATTERN.format("    R7: (sc, dec) x 6 (12)\n    R8: dec x 6 (6)\n"),
    source="common practice, no source: spheres are closed from 5 to 8 stitches",
    run=_run,
)
