"""Points on worked pieces: whether they are there, for lines of embroidery and for joints."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from roundproof.fabric.edges import EdgeProblem, find_round, quoted
from roundproof.fabric.model import Fabric, WorkedPiece
from roundproof.fabric.places import counts_between, marks_of
from roundproof.frozen import dataclass
from roundproof.notation.edges import piece_of
from roundproof.notation.points import PointName, read_point
from roundproof.pattern.model import Embroider, Thread
from roundproof.pattern.near import nearest
from roundproof.source import Located


@dataclass(frozen=True, slots=True)
class Point:
    """A point that is there: `height` in rounds from the start of the piece, `place` in stitches
    from the start of a round of `count`; `place` is None where only the round is said."""

    height: float
    place: float | None
    count: int


@dataclass(frozen=True, slots=True)
class Line:
    """A line of embroidery on a piece, from point to point."""

    thread: Thread
    start: Point | None
    end: Point | None


Found = Point | EdgeProblem | None
"""None where rounds that could not be read hide the point."""


def lines_of(
    fabric: Fabric, verb: Embroider
) -> Iterator[tuple[Line, list[tuple[Located[str], EdgeProblem]]]]:
    """Each line of an entry, with what is wrong with its ends. A line may start or end where an
    earlier one, which it names, ends."""
    key = piece_of(verb.piece.value, fabric.pieces)
    worked = fabric.pieces[key] if key else None
    known: dict[str, Point | None] = {}
    for thread in verb.lines if worked else ():
        ends: list[Point | None] = []
        problems = []
        for said in (thread.from_, thread.to):
            found = _end(worked, said, known) if said and worked else None
            if said and isinstance(found, EdgeProblem):
                problems.append((said, found))
            ends.append(found if isinstance(found, Point) else None)
        if thread.name:
            known[thread.name.value.lower()] = ends[1] or ends[0]
        yield Line(thread, ends[0], ends[1]), problems


def _end(worked: WorkedPiece, said: Located[str], known: Mapping[str, Point | None]) -> Found:
    name = read_point(said.value)
    if name.name and (low := name.name.lower()) in known:
        return known[low]
    return point_on(worked, name, tuple(known))


def path_point(fabric: Fabric, words: str) -> Found:
    """A point of a joint: a piece, and where on it."""
    key = piece_of(words, fabric.pieces)
    if key is None:
        return None  # told as a piece that is not there
    rest = " ".join(words.split())[len(key) :].strip(" ,")
    if not rest:
        return Point(0.0, None, 0)
    return point_on(fabric.pieces[key], read_point(rest))


def point_on(worked: WorkedPiece, name: PointName, others: tuple[str, ...] = ()) -> Found:
    """A point on a piece, or why it is not there."""
    if name.name:
        return _named(worked, name.name, others)
    for number in {name.first, name.last}:
        if isinstance(found := find_round(worked, number), EdgeProblem):
            return found
    counts = counts_between(worked, name.first, name.last)
    if not counts:
        return None
    if name.stitch > max(counts):
        return EdgeProblem(
            f"There is no stitch {name.stitch} in R{name.first} of {worked.piece.key}: it has"
            f" {max(counts)}.",
            f"Count up to {max(counts)}.",
        )
    height = name.first if name.last > name.first else name.first - 0.5
    return Point(height, name.place if name.stitch else None, counts[0])


def _named(worked: WorkedPiece, name: str, others: tuple[str, ...]) -> Found:
    marks = marks_of(worked)
    mark = {known.lower(): found for known, found in marks.items()}.get(name.lower())
    if mark is not None:
        counts = counts_between(worked, mark.round, mark.round)
        return Point(mark.round - 0.5, mark.place, counts[0]) if counts else None
    known = (*marks, *others)
    near = nearest(name, known)
    listed = f"Named there are: {', '.join(known)}." if known else ""
    return EdgeProblem(
        f"{quoted(name)} is no point on {worked.piece.key}.",
        f"Did you mean {near}?"
        if near
        else f"{listed} A point is `R2 st 3`, `between R2 and R3`, a mark or the name of an"
        " earlier line.".strip(),
    )
