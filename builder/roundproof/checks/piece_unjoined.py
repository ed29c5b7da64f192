"""A piece that assembly never comes to, or more or fewer copies of it joined than are made."""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.checks.base import Check, Found, light, times
from roundproof.fabric.named import mentioned, names
from roundproof.fabric.places import copies
from roundproof.findings import Finding, Severity
from roundproof.notation.edges import piece_of
from roundproof.pattern.model import Join, Pattern, Piece
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    pattern = proof.pattern
    keys = [piece.key for piece in pattern.pieces]
    if not pattern.assembly or len(keys) < 2:
        return
    # A name that is no piece may be meant for any of them, and is told as such.
    if any(piece_of(named.on or named.said.value, keys) is None for named in names(pattern)):
        return
    for piece in pattern.pieces:
        if not mentioned(pattern, piece):
            yield CHECK.finding(
                piece.span,
                f"{piece.key} is made and never joined to anything.",
                "Add the step that attaches it, or leave the piece out.",
                severity=light(pattern.status),
                piece=piece.key,
            )
        else:
            yield from _copies(pattern, piece)


def _copies(pattern: Pattern, piece: Piece) -> Iterator[Finding]:
    """Copies joined, where every join of the piece says how many go round its host."""
    keys = [p.key for p in pattern.pieces]
    joins = [
        step.verb
        for step in pattern.assembly
        if isinstance(step.verb, Join) and piece_of(step.verb.edge.value, keys) == piece.key
    ]
    if not joins or any(join.around is None for join in joins):
        return
    # A step tells of one host or of all its copies together: either may be meant.
    once = sum(copies(join.around) for join in joins)
    placed = sum(copies(join.around) * _hosts(pattern, join, keys) for join in joins)
    if piece.make in (once, placed):
        return
    yield CHECK.finding(
        joins[-1].span,
        f"{piece.key} is made {times(piece.make)}, and {placed} are joined.",
        f"Say `make: {placed}`, or change how many go round.",
        severity=Severity.ERROR if placed > piece.make else Severity.WARNING,
        piece=piece.key,
    )


def _hosts(pattern: Pattern, join: Join, keys: list[str]) -> int:
    host = pattern.piece(piece_of(join.to.value, keys) or "") if join.to else None
    return host.make if host else 1


_PATTERN = """\
title: Pebble
terms: US
pieces:
  upper: |
    R1: 6 sc in magic ring (6)
  under: |
    R1: 6 sc in magic ring (6)
  barnacle: |
    R1: 6 sc in magic ring (6)
notions: [tapestry needle]
assembly:
  - join: {{edge: under, to: upper, by: whipstitch}}
{}"""

CHECK = Check(
    id="piece-unjoined",
    title="A piece left over",
    why=(
        "Every piece that is made has to go somewhere, and every copy of it. One that no step comes"
        " to lies on the maker's table when the pattern ends."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format(""),
    good=_PATTERN.format(
        "  - join: {edge: barnacle, to: upper, at: {footprint: R1, stitches: 2}}\n"
    ),
    source="common practice, no source: every piece made is used, every piece used is made",
    run=_run,
)
