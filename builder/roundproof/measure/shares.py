"""Lengths as sums of stitches, each by the gauge of its yarn, so that they can be told for other
gauges than the pattern's without working it again (see `lengths.py`, `bands.py`)."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from enum import IntEnum
from math import sqrt

from roundproof.fabric.model import Edge, Fabric, WorkedPiece, WorkedRound
from roundproof.fabric.places import Site
from roundproof.frozen import dataclass
from roundproof.measure.bands import MOST_ROUNDS, MOST_STITCHES
from roundproof.measure.gauge import is_altered, stitch_size, strands_of, yarn_for, yarn_stitch
from roundproof.measure.regauge import worked_in
from roundproof.pattern.model import Pattern, Piece


class Guess(IntEnum):
    """Whether the size of a stitch is a guess."""

    NEVER = 0
    AS_YARN = 1
    """As long as that of its yarn is."""
    ALWAYS = 2


@dataclass(frozen=True, slots=True)
class Unit:
    """A single crochet of some piece: so many times as wide and as tall as one in `yarn` by that
    yarn's gauge; in mm where `yarn` is empty, since no gauge of a yarn alters it."""

    yarn: str
    width: float
    height: float
    guess: Guess


Share = Mapping[Unit, float]
"""What part of a round each stitch has; all parts together are 1."""
Sum = Mapping[Unit, tuple[float, float]]
"""A length: so many widths and heights of each stitch."""


def unit_of(pattern: Pattern, piece: Piece, key: str | None) -> Unit | None:
    """The single crochet of a piece in one of its yarns; None where no yarn is named."""
    if piece.gauge is not None:
        return _of_piece(pattern, piece)
    yarn = yarn_for(pattern, piece, key)
    if yarn is None:
        return None
    factor = sqrt(strands_of(piece))
    guess = Guess.ALWAYS if is_altered(piece, yarn) else Guess.AS_YARN
    return Unit(yarn.key, factor, factor, guess)


def _of_piece(pattern: Pattern, piece: Piece) -> Unit | None:
    """By a gauge of the piece's own, which keeps its ratio to that of the yarn."""
    own, yarn = stitch_size(pattern, piece, None), worked_in(pattern, piece)
    if own is None:
        return None
    by = yarn_stitch(yarn) if yarn else None
    if yarn is None or by is None:
        return Unit("", own.width_mm, own.height_mm, Guess.NEVER)
    width, height = own.width_mm / by.width_mm, own.height_mm / by.height_mm
    return Unit(yarn.key, width, height, Guess.NEVER)


def share_of(pattern: Pattern, piece: Piece, worked: WorkedRound) -> Share | None:
    """The stitches of a round."""
    made = [(s.yarn, s.made) for s in worked.stretches if s.made > 0] or [(worked.yarn, 1)]
    total, found = sum(count for _, count in made), dict[Unit, float]()
    for yarn, count in made:
        if (unit := unit_of(pattern, piece, yarn)) is None:
            return None
        found[unit] = found.get(unit, 0.0) + count / total
    return found


def edge_sum(pattern: Pattern, fabric: Fabric, edge: Edge) -> Sum | None:
    """The length of an edge, as `edge_length` reckons it."""
    worked = fabric.pieces[edge.piece]
    if edge.count is None or edge.count > MOST_STITCHES or not worked.rounds:
        return None
    if edge.per_row:
        ends = (worked.rounds[0].round.label.first, worked.rounds[-1].round.label.last)
        return _up(pattern, worked, *ends)
    here = worked.at(edge.round) if edge.round is not None else worked.rounds[0]
    share = share_of(pattern, worked.piece, here) if here else None
    return wide(share, edge.count) if share is not None else None


def site_sum(pattern: Pattern, fabric: Fabric, site: Site) -> Sum | None:
    """The length of a place on a piece, as `site_length` reckons it."""
    worked = fabric.pieces[site.piece]
    if not worked.rounds or site.last > worked.rounds[-1].round.label.last:
        return None
    if site.kind == "up":
        return _up(pattern, worked, site.first, site.last)
    here = [r for r in worked.rounds if _within(r, site.first, site.last) > 0]
    shares = [share_of(pattern, worked.piece, r) for r in here]
    if site.stitches is None or not shares:
        return None
    parts: list[Sum] = []
    for share in shares:
        if share is None:
            return None
        parts.append(wide(share, site.stitches / len(shares)))
    if site.kind == "between":
        return added(parts)
    up = _up(pattern, worked, site.first, site.last)
    return added([*parts, up, *parts, up]) if up is not None else None


def _up(pattern: Pattern, worked: WorkedPiece, first: int, last: int) -> Sum | None:
    parts: list[Sum] = []
    if last - first >= MOST_ROUNDS:
        return None
    for entry in worked.rounds:
        if (rounds := _within(entry, first, last)) <= 0:
            continue
        if (share := share_of(pattern, worked.piece, entry)) is None:
            return None
        parts.append({u: (0.0, part * rounds * entry.height) for u, part in share.items()})
    return added(parts)


def _within(entry: WorkedRound, first: int, last: int) -> int:
    """How many rounds of a line are among those from `first` to `last`."""
    label = entry.round.label
    return min(label.last, last) - max(label.first, first) + 1


def wide(share: Share, count: float) -> Sum:
    """So many stitches of a round side by side."""
    return {unit: (count * part, 0.0) for unit, part in share.items()}


def added(parts: Iterable[Sum]) -> Sum:
    """One length after another."""
    total: dict[Unit, tuple[float, float]] = {}
    for part in parts:
        for unit, (widths, heights) in part.items():
            one, two = total.get(unit, (0.0, 0.0))
            total[unit] = (one + widths, two + heights)
    return total
