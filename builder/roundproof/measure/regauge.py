"""A pattern as it comes out in a maker's own yarn, of which the gauge is known.

Sizes, fits, metres and filling follow by measuring what is returned here like any pattern. The
metres are an estimate: the yarn is taken to be as much thicker as its stitches are wider, and
neither a weighed swatch nor the put-up of the yarn that is listed holds for it.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import floor, isclose

from roundproof.fabric.model import Fabric, WorkedPiece, WorkedRound
from roundproof.frozen import dataclass, replace
from roundproof.measure.bands import round_size
from roundproof.measure.gauge import diameter, yarn_for, yarn_stitch
from roundproof.measure.model import NotionSize
from roundproof.notation.edges import piece_of, read_label
from roundproof.pattern.model import Gauge, Pattern, Piece, Place, StandIn, Yarn
from roundproof.pattern.notions import notion_for

_COARSE = 10.0
"""mm from which eyes and the like are sold by the whole mm, below it by the half: common practice,
no source."""


@dataclass(frozen=True, slots=True)
class Scale:
    """A stitch in the other yarn over one in the yarn that is listed: its width, its height."""

    width: float
    height: float


def in_another_gauge(pattern: Pattern, gauges: Mapping[str, Gauge]) -> Pattern:
    """The pattern with some of its yarns, by their keys, in other gauges. Pieces with a gauge of
    their own keep the ratio that it has to their yarn's."""
    scales: dict[str, Scale] = {}
    yarns: list[Yarn] = []
    for yarn in pattern.yarns:
        other = replace(yarn, gauge=gauges[yarn.key]) if yarn.key in gauges else yarn
        if other is not yarn and (scale := scale_of(yarn, other)) is not None:
            scales[yarn.key] = scale
        yarns.append(_other(yarn, other, scales.get(yarn.key)))
    pieces = tuple(_piece(pattern, piece, scales) for piece in pattern.pieces)
    return replace(pattern, yarns=tuple(yarns), pieces=pieces)


def scale_of(yarn: Yarn, other: Yarn) -> Scale | None:
    """How the stitches of two yarns compare; None where the size of one is not known."""
    old, new = yarn_stitch(yarn), yarn_stitch(other)
    if old is None or new is None:
        return None
    return Scale(new.width_mm / old.width_mm, new.height_mm / old.height_mm)


def _other(yarn: Yarn, other: Yarn, scale: Scale | None) -> Yarn:
    """A yarn in another gauge: nothing is known of its weight, length and swatch."""
    if other is yarn:
        return yarn
    thick = diameter(yarn)
    stand_in = StandIn(thick * scale.width if thick and scale else None)
    return replace(other, ball=None, balls=None, swatch=None, stands_in=stand_in)


def _piece(pattern: Pattern, piece: Piece, scales: Mapping[str, Scale]) -> Piece:
    gauge, yarn = piece.gauge, worked_in(pattern, piece)
    if gauge is None or yarn is None or (scale := scales.get(yarn.key)) is None:
        return piece
    stitches, rounds = gauge.stitches / scale.width, gauge.rounds / scale.height
    return replace(piece, gauge=replace(gauge, stitches=stitches, rounds=rounds))


def worked_in(pattern: Pattern, piece: Piece) -> Yarn | None:
    """The yarn that a piece begins in, or the one that it is like begins in."""
    like = piece.mirror or piece.same_as
    other = pattern.piece(like.value) if like and piece.yarn is None else None
    return yarn_for(pattern, other or piece, None)


# ---- what is placed on the pieces ----


@dataclass(frozen=True, slots=True)
class Placed:
    """A notion of the pattern's that is set on a piece, and the round whose stitches it sits on."""

    item: str
    was_mm: float
    piece: str
    round: WorkedRound

    @property
    def name(self) -> tuple[str, float]:
        """What it is known by: notions of one kind in two sizes are two."""
        return self.item, self.was_mm


def placed(pattern: Pattern, fabric: Fabric) -> tuple[Placed, ...]:
    """All notions of a known size that are set on a piece, in working order."""
    found: list[Placed] = []
    for step in pattern.assembly:
        if not isinstance(step.verb, Place):
            continue
        notion = notion_for(pattern, step.verb.item.value)
        key = piece_of(step.verb.piece.value, fabric.pieces) if step.verb.piece else None
        entry = _round(fabric.pieces[key], step.verb) if key else None
        if notion is not None and notion.size is not None and key and entry:
            found.append(Placed(notion.item.value, notion.size.value, key, entry))
    return tuple(found)


def notion_sizes(
    pattern: Pattern, fabric: Fabric, other: Pattern, other_fabric: Fabric
) -> tuple[NotionSize, ...]:
    """The sizes that placed notions should have in the other gauge, in working order, each once:
    as much larger as the stitches are wider where they sit."""
    found: dict[NotionSize, None] = {}
    for each in placed(pattern, fabric):
        old = round_size(pattern, fabric.pieces[each.piece].piece, each.round)
        new = round_size(other, other_fabric.pieces[each.piece].piece, each.round)
        if old and new:
            size = as_sold(each.was_mm, new.width / old.width)
            found[NotionSize(each.item, each.was_mm, size)] = None
    return tuple(found)


def as_sold(was: float, factor: float) -> float:
    """A size so many times as large, in steps that there are: half a mm below 10 mm, else one."""
    if isclose(factor, 1.0, rel_tol=1e-9):
        return was
    size = was * factor
    step = 0.5 if size < _COARSE else 1.0
    return max(floor(size / step + 0.5) * step, 0.5)


def _round(worked: WorkedPiece, place: Place) -> WorkedRound | None:
    number = read_label(place.between[0].value) if place.between else None
    found = worked.at(number) if number is not None else None
    return found or worked.last
