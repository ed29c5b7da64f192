"""What the steps of a pattern name: pieces, edges, rounds and marks, and what is not there."""

from __future__ import annotations

import re
from collections.abc import Iterator

from roundproof.expressions import expression
from roundproof.fabric.edges import EdgeProblem, find_edge, find_round, quoted
from roundproof.fabric.model import Fabric, WorkedPiece
from roundproof.fabric.places import marks_of
from roundproof.fabric.points import path_point
from roundproof.frozen import dataclass
from roundproof.notation.edges import piece_of, read_edge, read_range
from roundproof.pattern.model import (
    Around,
    At,
    Close,
    Embroider,
    Insert,
    Join,
    Joint,
    Pattern,
    Piece,
    Place,
    Stuff,
    Verb,
)
from roundproof.pattern.near import nearest
from roundproof.source import Located

_LABELS = expression(r"\bR\s?(\d{1,6})\b", re.IGNORECASE)
_A_STITCH = expression(r"(?:R\d+ )?(?:st|sts|stitch)\.? ?\d+", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Named:
    """Words that name something: `kind` is "edge", "piece", "rounds", "mark" or "point"; `on` the
    words for the piece that rounds and marks belong to."""

    said: Located[str]
    kind: str
    on: str = ""


def names(pattern: Pattern) -> Iterator[Named]:
    """Everything that steps and photos name, in the order of the file."""
    for step in pattern.assembly:
        yield from names_of(step.verb)
        if step.after:
            yield Named(step.after, "edge")
    yield from (Named(photo.after, "edge") for photo in pattern.photos if photo.after)


def names_of(verb: Verb) -> Iterator[Named]:
    """What one entry of the assembly names, `after` left out."""
    match verb:
        case Join():
            yield from _join(verb)
        case Place(piece=piece, between=between, around=around) if piece:
            yield Named(piece, "edge")
            yield from (Named(label, "rounds", piece.value) for label in between)
            yield from _around(around, piece.value)
        case Embroider(piece=piece):
            yield Named(piece, "piece")
        case Joint(path=path):
            yield from (Named(point, "point") for point in path)
        case Insert(piece=piece) if piece:
            yield Named(piece, "edge")
        case Stuff(piece=piece):
            yield Named(piece, "piece")
        case Close(edge=edge):
            yield Named(edge, "edge")


def problem(fabric: Fabric, named: Named) -> EdgeProblem | None:
    """Why a name names nothing; None where it does, or where rounds that could not be read hide
    whether it does."""
    words = named.on or named.said.value
    key = piece_of(words, fabric.pieces)
    if named.kind == "point" and key is not None:
        found = path_point(fabric, words)
        return found if isinstance(found, EdgeProblem) else None
    if named.kind == "piece" or key is None:
        # A host that is not there is told once, at its own words.
        if named.on or key is not None:
            return None
        missing = find_edge(fabric, words)
        return missing if isinstance(missing, EdgeProblem) else None
    worked = fabric.pieces[key]
    if not worked.rounds:
        return None
    if named.kind == "rounds":
        return _rounds(worked, named.said.value)
    if named.kind == "mark":
        return _mark(worked, named.said.value)
    return _edge(fabric, worked, words)


def mentioned(pattern: Pattern, piece: Piece) -> bool:
    """Whether a step, the start of a piece or the rounds of another come to a piece."""
    if piece.starts is not None or piece.path is not None:
        return True
    said = [step.span.text for step in pattern.assembly]
    for other in pattern.pieces:
        if other is not piece:
            said += [edge.value for edge in (other.starts.in_ if other.starts else ())]
            said.append(other.rounds.value if other.rounds else "")
    called = "|".join(re.escape(name) for name in {piece.key, piece.name})
    return any(re.search(rf"(?<!\w)(?:{called})s?(?!\w)", text, re.IGNORECASE) for text in said)


def start_problem(fabric: Fabric, worked: WorkedPiece, words: str) -> EdgeProblem | None:
    """Why a piece cannot grow out of an edge. Loops that are free no longer because the piece took
    them are there."""
    found = find_edge(fabric, words)
    if not isinstance(found, EdgeProblem) or not worked.rounds:
        return None
    key = piece_of(words, fabric.pieces)
    if key is not None and _hidden(fabric.pieces[key]):
        return None
    if worked.rounds[0].available is not None:
        return None
    taken = _taken_by(fabric, worked, words)
    if taken is None:
        return found
    return EdgeProblem(
        f"{quoted(words)} are worked into already, by {taken}.", "A loop can be worked into once."
    )


def _taken_by(fabric: Fabric, worked: WorkedPiece, words: str) -> str | None:
    """The piece before this one that grows out of the same loops, if there is one."""
    wanted = read_edge(words, fabric.pieces)
    for key, other in fabric.pieces.items():
        if other is worked or wanted is None:
            return None
        edges = other.piece.starts.in_ if other.piece.starts else ()
        if any(read_edge(edge.value, fabric.pieces) == wanted for edge in edges):
            return key
    return None


def _join(join: Join) -> Iterator[Named]:
    yield Named(join.edge, "edge")
    if join.to is None:
        return
    yield Named(join.to, "edge")
    if join.at is not None:
        yield from _at(join.at, join.to.value)
    yield from _around(join.around, join.to.value)


def _at(at: At, on: str) -> Iterator[Named]:
    for said in (at.footprint, *at.between, at.up):
        if said is not None:
            yield Named(said, "rounds", on)


def _around(around: Around | None, on: str) -> Iterator[Named]:
    if around is None:
        return
    for said in (around.mark, around.from_):
        if said is not None and not _A_STITCH.fullmatch(said.value.strip()):
            yield Named(said, "mark", on)


def _rounds(worked: WorkedPiece, words: str) -> EdgeProblem | None:
    said = read_range(words)
    numbers = said or [int(number) for number in _LABELS.findall(words)]
    for number in numbers:
        found = find_round(worked, number)
        if isinstance(found, EdgeProblem):
            return found
    return None


def _mark(worked: WorkedPiece, words: str) -> EdgeProblem | None:
    key, marks = worked.piece.key, marks_of(worked)
    if words.strip().lower() in {mark.lower() for mark in marks}:
        return None
    like = nearest(words, marks)
    if like:
        mend = f"Did you mean {like}?"
    elif marks:
        mend = f"The marks of {key} are: {', '.join(marks)}."
    else:
        mend = f"Say where it is, in {key}: `marks: {{{words[:30]}: R4 between 9 and 10}}`."
    return EdgeProblem(f"{key} has no mark {quoted(words)}.", mend)


def _edge(fabric: Fabric, worked: WorkedPiece, words: str) -> EdgeProblem | None:
    found = find_edge(fabric, words)
    if not isinstance(found, EdgeProblem):
        return None
    name = read_edge(words, fabric.pieces)
    loose = name is not None and name.kind.value not in ("round", "row ends")
    return None if loose and _hidden(worked) else found


def _hidden(worked: WorkedPiece) -> bool:
    """Whether rounds could not be read, so that free loops may be unknown."""
    return any(not entry.round.readings for entry in worked.rounds)
