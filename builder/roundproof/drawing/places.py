"""Where pieces and things sit round another piece: shares of its round, counted from the front."""

from __future__ import annotations

import re
from collections.abc import Iterable

from roundproof.fabric.model import Fabric, WorkedPiece
from roundproof.frozen import dataclass
from roundproof.notation.edges import piece_of, read_edge, read_label, read_range
from roundproof.notation.tree import Act, Action
from roundproof.pattern.model import Around, At, Join, Pattern, Place
from roundproof.source import Located

MOST_COPIES = 12
"""Copies of a piece that a drawing shows."""

_BETWEEN = re.compile(r"between\D*(\d{1,9})\s*(?:and|-|–|/)\s*(?:sts?\s*)?(\d{1,9})", re.I)


@dataclass(frozen=True, slots=True)
class Seat:
    """What sits on `host` at `round`: one entry of `turns` for each copy, 0 the front, 0.25 a
    quarter round to the left of it seen from above."""

    guest: str
    host: str
    round: int
    turns: tuple[float, ...]


def seats(pattern: Pattern, fabric: Fabric) -> tuple[Seat, ...]:
    """The seats of all pieces that are joined to a place on another one."""
    found = (_joined(s.verb, fabric) for s in pattern.assembly if isinstance(s.verb, Join))
    return tuple(seat for seat in found if seat)


def things(pattern: Pattern, fabric: Fabric) -> tuple[Seat, ...]:
    """The seats of eyes and other things that are placed; `guest` is the item's name."""
    found = (_placed(s.verb, fabric) for s in pattern.assembly if isinstance(s.verb, Place))
    return tuple(seat for seat in found if seat)


def _joined(join: Join, fabric: Fabric) -> Seat | None:
    guest = piece_of(join.edge.value, fabric.pieces)
    edge = read_edge(join.to.value, fabric.pieces) if join.to else None
    if guest is None or edge is None or edge.piece == guest:
        return None
    host, worked = fabric.pieces[edge.piece], fabric.pieces[guest]
    number = _round_of(join.at, edge.round, host)
    copies = min(max(1, worked.piece.make), MOST_COPIES)
    count = _count(host, number)
    width = _width(join, worked)
    turns = _turns(join.around, copies, width, count, host)
    return Seat(guest, edge.piece, number, turns) if turns else None


def _placed(place: Place, fabric: Fabric) -> Seat | None:
    host = fabric.pieces.get(place.piece.value) if place.piece else None
    if host is None:
        return None
    number = read_label(place.between[0].value) if place.between else None
    if number is None or place.around is None:
        return None
    copies = 2 if place.around.apart else 1
    turns = _turns(place.around, copies, 0, _count(host, number), host)
    return Seat(place.item.value, host.piece.key, number, turns)


def _round_of(at: At | None, named: int | None, host: WorkedPiece) -> int:
    where: Iterable[Located[str]] = ()
    if at is not None:
        where = (*at.between, *(edge for edge in (at.footprint, at.up) if edge))
    numbers = [read_range(text.value) for text in where]
    first = next((found for found in numbers if found), None)
    if first is not None:
        return (first[0] + first[1]) // 2
    if named is not None:
        return named
    return host.last.round.label.last if host.last else 1


def _count(host: WorkedPiece, number: int) -> int:
    worked = host.at(number)
    return max(1, (worked.made or 1) if worked else 1)


def _width(join: Join, guest: WorkedPiece) -> float:
    """Stitches of the host that a guest covers."""
    if join.at is not None and join.at.stitches is not None:
        return float(join.at.stitches.value)
    edge = (guest.last.made or 0) if guest.last else 0
    return edge / 2


def _turns(
    around: Around | None, copies: int, width: float, count: int, host: WorkedPiece
) -> tuple[float, ...]:
    """Middles of the copies, as shares of the round from the front."""
    if around is None:
        return tuple((copy + 0.5) / copies for copy in range(copies))
    front = mark_place(host, "front") or 0.0
    shift = _origin(around, host, front) - front
    middles = _middles(around, copies, width, count)
    return tuple((middle + shift) / count % 1 for middle in middles[:MOST_COPIES])


def _origin(around: Around, host: WorkedPiece, front: float) -> float:
    """The stitches before the place that is counted from: a mark, a stitch, or the start of the
    round; the front where a pair or gaps name no mark."""
    named = around.mark or around.from_
    if named is None:
        return 0.0 if around.st is not None or around.evenly is not None else front
    if found := re.fullmatch(r"st\w*\s*(\d{1,9})", named.value.strip(), re.I):
        return float(found[1]) - 1
    place = mark_place(host, named.value)
    return front if place is None else place


def _middles(around: Around, copies: int, width: float, count: int) -> list[float]:
    """In stitches from the mark (from the start of the round for `st`)."""
    if around.free:
        return _after_gaps([float(gap.value) for gap in around.free], width)
    if around.apart is not None:
        reach = (around.apart.value + width) / 2
        return [reach, -reach]
    if around.evenly is not None:
        number = max(1, min(around.evenly.value, MOST_COPIES))
        return [place * count / number for place in range(number)]
    if around.st is not None:
        return [around.st.value - 0.5 + width / 2]
    return [(copy - (copies - 1) / 2) * width for copy in range(copies)]


def _after_gaps(gaps: list[float], width: float) -> list[float]:
    """The first gap lies half on either side of the mark."""
    middles, at = [], gaps[0] / 2
    for gap in [*gaps[1:], 0.0]:
        middles.append(at + width / 2)
        at += width + gap
    return middles


def mark_place(piece: WorkedPiece, name: str) -> float | None:
    """The stitches before a mark: "R4 between 9 and 10" and the action give 9."""
    written = (piece.piece.marks or {}).get(name)
    if written is not None and (found := _BETWEEN.search(written.value)):
        return float(found[1])
    for entry in piece.entries:
        if isinstance(entry, Action) and entry.act is Act.MARK and entry.name == name:
            return float(entry.between[0]) if entry.between else None
    return None
