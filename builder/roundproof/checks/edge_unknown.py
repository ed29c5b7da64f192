"""A step, a photo or the start of a piece names an edge, piece, round or mark that is not there."""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.checks._onto import not_there
from roundproof.checks._rounds import worked_rounds
from roundproof.checks.base import Check, Found
from roundproof.fabric.edges import EdgeProblem, find_round, quoted, unknown_piece
from roundproof.fabric.named import names, problem, start_problem
from roundproof.fabric.points import lines_of
from roundproof.findings import Finding, Severity
from roundproof.notation.edges import piece_of, read_label
from roundproof.pattern.model import Embroider, Piece, Status
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    fabric = proof.fabric
    for worked in fabric.pieces.values():
        for words in worked.piece.starts.in_ if worked.piece.starts else ():
            if (found := start_problem(fabric, worked, words.value)) is not None:
                key = worked.piece.key
                yield CHECK.finding(words.span, found.message, found.mend, piece=key)
    yield from _taken_from(proof)
    yield from _worked_onto(proof)
    for named in names(proof.pattern):
        if (found := problem(fabric, named)) is not None:
            key = piece_of(named.on or named.said.value, fabric.pieces) or ""
            yield CHECK.finding(named.said.span, found.message, found.mend, piece=key or None)
    for step in proof.pattern.assembly:
        if isinstance(step.verb, Embroider):
            key = step.verb.piece.value
            for _, problems in lines_of(fabric, step.verb):
                for said, wrong in problems:
                    yield CHECK.finding(said.span, wrong.message, wrong.mend, piece=key)


def _taken_from(proof: Proof) -> Iterator[Finding]:
    """The pieces that others mirror, repeat or run over."""
    for piece in proof.pattern.pieces:
        path = (piece.path or {}).get("piece")
        for words in (piece.mirror, piece.same_as, path):
            if words is None:
                continue
            if words.value not in proof.fabric.pieces:
                found = unknown_piece(words.value, proof.fabric.pieces)
                yield CHECK.finding(words.span, found.message, found.mend, piece=piece.key)
            elif words is not path and not proof.fabric.pieces[words.value].rounds:
                host, guest = quoted(words.value), quoted(piece.key)
                message = f"{host} has no rounds, so {guest} has none either."
                mend = f"Write the rounds of {host}."
                if words.value == piece.key:
                    message, mend = (
                        f"{guest} names itself.",
                        "Name the other piece of the pair.",
                    )
                yield CHECK.finding(words.span, message, mend, piece=piece.key)
        yield from _path(proof, piece)


def _path(proof: Proof, piece: Piece) -> Iterator[Finding]:
    """The rounds between which work on the surface runs."""
    path = piece.path or {}
    host = proof.fabric.pieces.get(path["piece"].value) if "piece" in path else None
    for end in ("from", "to"):
        words = path.get(end)
        number = read_label(words.value) if words else None
        if words is None or host is None:
            continue
        found = find_round(host, number) if number is not None else None
        if number is None:
            message, mend = f"{quoted(words.value)} is no round.", "Write one, like R4."
        elif isinstance(found, EdgeProblem):
            message, mend = found.message, found.mend
        else:
            continue
        yield CHECK.finding(words.span, message, mend, piece=piece.key)


def _worked_onto(proof: Proof) -> Iterator[Finding]:
    """Pieces joined on the hook, and stitches taken up, that are not there."""
    for worked, _, round_ in worked_rounds(proof):
        for onto, _, there in round_.onto:
            key = worked.piece.key
            message, mend = not_there(proof, worked, onto, there)
            if message:
                absent = onto.piece != "" and onto.piece not in proof.fabric.pieces
                draft = proof.pattern.status is Status.DRAFT and absent
                yield CHECK.finding(
                    round_.round.work,
                    message,
                    mend,
                    severity=Severity.NOTE if draft else None,
                    piece=key,
                    round=round_.label,
                )
                break


_PATTERN = """\
title: Pebble
terms: US
pieces:
  upper: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: sc around (12)
  under: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
assembly:
  - join: {edge: under, to: upper %s, by: whipstitch}
notions: [tapestry needle]
"""

CHECK = Check(
    id="edge-unknown",
    title="An edge that is not there",
    why=(
        "When rounds are added or taken out late, the steps that name them are easily forgotten."
        " A maker who is sent to a round, a loop or a mark that does not exist has the finished"
        " pieces in hand and no way to go on."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN % "R5",
    good=_PATTERN % "R3",
    source="common practice, no source: what a step names must exist",
    run=_run,
)
