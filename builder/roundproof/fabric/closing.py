"""The openings of pieces, and when each is closed: in the rounds, or by which step."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from roundproof.fabric.edges import in_rows
from roundproof.fabric.model import Base, Fabric, WorkedPiece
from roundproof.frozen import dataclass
from roundproof.notation.edges import EdgeKind, EdgeName, read_edge
from roundproof.pattern.model import Close, Join, Pattern, Step

When = tuple[int, int]
"""Steps before it, counted from 1, and the round: (0, 17) is at R17, (2, 0) at the second step."""


@dataclass(frozen=True, slots=True)
class Closed:
    """An opening that is closed at `when`; `how` says by what, as the end of a sentence."""

    when: When
    how: str


@dataclass(frozen=True, slots=True)
class Opening:
    """An end of a piece: `top` its last round, or else its foundation; `count` its stitches.
    `closed` is None where nothing closes it."""

    top: bool
    count: int | None
    closed: Closed | None


def openings(pattern: Pattern, fabric: Fabric) -> Mapping[str, tuple[Opening, ...]]:
    """The openings of every piece worked in rounds that ends by itself; pieces in rows, those that
    grow out of others and those that others grow on are left out: their inside is not their own."""
    grown = {claim.piece for claim in fabric.claims if claim.kind == "round"}
    for piece in pattern.pieces:
        names = (
            read_edge(e.value, fabric.pieces) for e in (piece.starts.in_ if piece.starts else ())
        )
        grown |= {name.piece for name in names if name and name.kind is EdgeKind.ROUND}
    closers = tuple(_closers(pattern, fabric))
    return {
        key: tuple(_of(worked, closers))
        for key, worked in fabric.pieces.items()
        if worked.rounds and key not in grown and not _elsewhere(worked)
    }


def closed_at(found: tuple[Opening, ...]) -> Closed | None:
    """When the last opening of a piece is closed; None where one stays open."""
    closings = [opening.closed for opening in found]
    if not closings or None in closings:
        return None
    return max((c for c in closings if c is not None), key=lambda c: c.when)


def when_of(step: Step, number: int, piece: str, fabric: Fabric) -> When | None:
    """When a step is done, as far as a piece is concerned: None where it comes at a round of
    another piece."""
    if step.after is None:
        return (number, 0)
    name = read_edge(step.after.value, fabric.pieces)
    if name is None or name.piece != piece:
        return None
    last = fabric.pieces[piece].last
    return (0, name.round if name.round is not None else last.round.label.last if last else 0)


@dataclass(frozen=True, slots=True)
class _Closer:
    """An edge, and the step that closes or joins it: its number and, as far as the edge's piece is
    concerned, when it is done."""

    name: EdgeName
    number: int
    step: Step
    when: When


def _elsewhere(worked: WorkedPiece) -> bool:
    first = worked.rounds[0]
    return in_rows(worked) or first.base is Base.EDGE or bool(first.onto)


def _closers(pattern: Pattern, fabric: Fabric) -> Iterator[_Closer]:
    """The edges that steps close or join, each with its step."""
    for number, step in enumerate(pattern.assembly, 1):
        verb = step.verb
        said = []
        if isinstance(verb, Close):
            said = [verb.edge.value]
        elif isinstance(verb, Join):
            said = [verb.edge.value]
            if verb.to is not None and verb.at is None and verb.around is None:
                said.append(verb.to.value)
        for words in said:
            if (name := read_edge(words, fabric.pieces)) is not None:
                when = when_of(step, number, name.piece, fabric) or (number, 0)
                yield _Closer(name, number, step, when)


def _of(worked: WorkedPiece, closers: tuple[_Closer, ...]) -> Iterator[Opening]:
    mine = [closer for closer in closers if closer.name.piece == worked.piece.key]
    last, first = worked.rounds[-1], worked.rounds[0]
    number = last.round.label.last
    tops = [c for c in mine if c.name.kind is EdgeKind.ROUND and c.name.round in (None, number)]
    yield Opening(True, last.made, _top(worked, tops))
    if first.base is Base.CHAIN and not first.far_side and (first.available or 0) > 2:
        feet = [c for c in mine if c.name.kind in (EdgeKind.FOUNDATION, EdgeKind.FAR_SIDE)]
        yield Opening(False, first.available, _by(feet[-1]) if feet else None)


def _top(worked: WorkedPiece, tops: list[_Closer]) -> Closed | None:
    last = worked.rounds[-1]
    label = f"R{last.round.label.last}"
    if last.folded:
        return Closed((0, last.round.label.last), f"{label} closes it through both layers")
    if tops:
        return _by(tops[-1])
    if worked.gathered:
        return Closed((0, last.round.label.last), f"it is drawn shut after {label}")
    return None


def _by(closer: _Closer) -> Closed:
    does = "closes it" if isinstance(closer.step.verb, Close) else "joins its last open edge"
    return Closed(closer.when, f"step {closer.number} of the assembly {does}")
