"""Fig. 1: the pieces of a pattern drawn from its counts and gauge, all to one scale.

The largest piece stands on the axis, from above if it is flat, from the side if not. What grows
out of it or is joined to a place on it is drawn there; every other piece lies below, copy by copy.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import atan2, cos, degrees, pi, sin

from roundproof.drawing.coarse import coarse, turned, without_rounds
from roundproof.drawing.outlines.rulers import RULES
from roundproof.drawing.places import MOST_COPIES, Seat, seats, things
from roundproof.drawing.profile import Profile, profile
from roundproof.drawing.shapes import Box, Circle, Drawing, Group, Line, Path, Shape
from roundproof.drawing.views import (
    LEAN,
    TILT,
    Skirt,
    Skirts,
    at_turn,
    from_above,
    from_side,
    limb,
)
from roundproof.drawing.yarns import yarn_marks
from roundproof.fabric.model import Fabric, WorkedPiece
from roundproof.frozen import dataclass, field
from roundproof.measure.model import Form, Measures
from roundproof.notation.edges import read_edge
from roundproof.pattern.model import Pattern

MOST_PIECES = 24
ROOMY = 1.5
"""How much wider than the main piece a row below it may be."""
SPREAD = 25.0
"""Degrees by which a piece on a limb stands off from it."""


@dataclass(frozen=True, slots=True)
class Plate:
    """`above`: the main piece is seen from above; `measured`: drawn in mm, with a bar of `bar` mm;
    `every`: rounds that a line stands for, at most; `fewer`: pieces with more copies than drawn."""

    drawing: Drawing
    main: str
    above: bool
    measured: bool
    bar: float
    every: int
    fewer: tuple[str, ...]


@dataclass()
class _Sheet:
    """What has been drawn so far and how far it reaches."""

    shapes: list[Shape] = field(default_factory=list)
    rough: bool = False
    half: float = 0.0
    top: float = 0.0
    bottom: float = 0.0

    def reach(self, x: float, y: float) -> None:
        self.half = max(self.half, abs(x))
        self.top, self.bottom = min(self.top, y), max(self.bottom, y)


def draw_plate(
    pattern: Pattern,
    fabric: Fabric,
    measures: Measures,
    id: str,
    title: str,
    *,
    rough: bool = False,
) -> Plate | None:
    """None where no piece can be drawn. `title` is what the drawing is read out as. A `rough` one
    shows how the pieces look and not one of their rounds."""
    profiles = _profiles(pattern, fabric, measures)
    profiles = coarse(profiles) if rough else profiles
    if not profiles:
        return None
    main = _largest(profiles, fabric)
    sheet = _Sheet(rough=rough)
    drawn = _main(sheet, main, profiles, pattern, fabric)
    _below(sheet, [p for key, p in profiles.items() if key not in drawn], fabric)
    bar = _bar(sheet) if main.measured else 0.0
    sheet.shapes = without_rounds(sheet.shapes) if rough else sheet.shapes
    return Plate(
        _drawing(sheet, id, title),
        main.piece,
        main.flat,
        main.measured,
        bar,
        max(p.every for p in profiles.values()),
        tuple(key for key in profiles if fabric.pieces[key].piece.make > MOST_COPIES),
    )


def _largest(profiles: Mapping[str, Profile], fabric: Fabric) -> Profile:
    """The largest piece that stands by itself; pieces grown out of others only if all are."""
    alone = [one for key, one in profiles.items() if fabric.pieces[key].piece.starts is None]
    return max(alone or profiles.values(), key=lambda p: p.width * max(p.height, p.depth / 2))


def _profiles(pattern: Pattern, fabric: Fabric, measures: Measures) -> dict[str, Profile]:
    """All pieces in mm, or, where one has no measures, all from their counts."""
    marks = yarn_marks(pattern)
    pieces = list(fabric.pieces.items())[:MOST_PIECES]
    sizes = [measures.pieces.get(key) for key, _ in pieces]
    if any(size is None or not size.outline for size in sizes):
        sizes = [None] * len(pieces)
    made = {
        key: profile(piece, size, marks) for (key, piece), size in zip(pieces, sizes, strict=True)
    }
    return {key: one for key, one in made.items() if one is not None and one.width > 0}


def _main(
    sheet: _Sheet,
    main: Profile,
    profiles: Mapping[str, Profile],
    pattern: Pattern,
    fabric: Fabric,
) -> set[str]:
    """Draws the main piece with what sits on it; the keys of all that is drawn."""
    skirts, drawn = _skirts(main, profiles, pattern, fabric)
    if main.flat:
        seated = seats(pattern, fabric)
        drawn |= _limbs(sheet, main, profiles, turned(seated) if sheet.rough else seated)
        sheet.shapes += from_above(main, skirts)
        sheet.reach(main.width / 2, main.depth / 2)
        sheet.reach(main.width / 2, -main.depth / 2)
    else:
        sheet.shapes += from_side(main, skirts)
        out = max((skirt.depth for skirt in skirts.values()), default=0.0)
        sheet.reach(main.width / 2 + out, main.height * LEAN + TILT * main.depth / 2)
        sheet.reach(0, -TILT * main.rings[0].radius)
    sheet.shapes += _things(main, pattern, fabric, sheet.rough)
    return drawn | {main.piece}


def _skirts(
    main: Profile, profiles: Mapping[str, Profile], pattern: Pattern, fabric: Fabric
) -> tuple[Skirts, set[str]]:
    """The pieces grown out of a whole round of the main one."""
    found: dict[int, Skirt] = {}
    drawn: set[str] = set()
    for key, piece in fabric.pieces.items():
        edge = _grown(piece, fabric)
        if edge is None or edge[0] != main.piece or key not in profiles or piece.piece.make > 1:
            continue
        host = fabric.pieces[main.piece].at(edge[1])
        count = (host.made or 0) if host else 0
        wavy = max((w.made or 0 for w in piece.rounds), default=0) > 1.2 * count
        depth = _depth(piece, pattern, main.measured)
        found[main.ring_at(edge[1])] = Skirt(depth, profiles[key].rings[-1].mark, wavy)
        drawn.add(key)
    return found, drawn


def _grown(piece: WorkedPiece, fabric: Fabric) -> tuple[str, int] | None:
    """The piece and round that a piece grows out of, if it is one edge of a round."""
    starts = piece.piece.starts
    if starts is None or len(starts.in_) != 1 or starts.each is not None:
        return None
    edge = read_edge(starts.in_[0].value, fabric.pieces)
    return (edge.piece, edge.round) if edge and edge.round is not None else None


def _depth(piece: WorkedPiece, pattern: Pattern, measured: bool) -> float:
    """How far a piece reaches out from where it began: its rounds' heights."""
    rounds = sum(w.rounds * w.height for w in piece.rounds)
    yarn = pattern.yarn(piece.rounds[0].yarn or "") if piece.rounds else None
    gauge = piece.piece.gauge or (yarn.gauge if yarn else None)
    high = gauge.round_height if gauge and measured else 1.0
    return rounds * high


def _limbs(
    sheet: _Sheet, main: Profile, profiles: Mapping[str, Profile], found: tuple[Seat, ...]
) -> set[str]:
    """Pieces joined to the main one, each pointing out from its place; with pieces on them."""
    drawn: set[str] = set()
    for seat in found:
        guest = profiles.get(seat.guest)
        if seat.host != main.piece or guest is None or guest.flat or seat.guest in drawn:
            continue
        drawn.add(seat.guest)
        ring = main.rings[main.ring_at(seat.round)]
        riders = [
            (other, profiles[other.guest])
            for other in found
            if other.host == seat.guest and other.guest in profiles
        ]
        drawn |= {other.guest for other, _ in riders}
        for turn in seat.turns:
            x, y, out_x, out_y = at_turn(turn, ring.radius, main.straight)
            shapes = [*_riders(guest, riders, x), *limb(guest)]
            angle = degrees(atan2(out_x, -out_y))
            sheet.shapes.append(Group(tuple(shapes), "", x, y, angle))
            long, wide = guest.height, guest.width / 2
            sheet.reach(x + out_x * long + wide, y + out_y * long)
            sheet.reach(x + out_x * long - wide, y + out_y * long)
    return drawn


def _riders(guest: Profile, riders: list[tuple[Seat, Profile]], x: float) -> list[Shape]:
    """Pieces on a limb, on the side of it that is turned to the middle."""
    inner = 1.0 if x <= 0 else -1.0
    shapes: list[Shape] = []
    for seat, piece in riders:
        ring = guest.rings[guest.ring_at(seat.round)]
        place = (inner * 0.8 * ring.radius, ring.height - guest.height)
        shapes.append(Group(tuple(limb(piece)), "", *place, inner * SPREAD))
    return shapes


def _things(main: Profile, pattern: Pattern, fabric: Fabric, rough: bool) -> list[Shape]:
    """Eyes and the like, where they are set, at their size."""
    if not main.measured:
        return []
    shapes: list[Shape] = []
    sizes = {n.item.value: n.size.value for n in pattern.notions if n.size is not None}
    placed = things(pattern, fabric)
    for seat in turned(placed) if rough else placed:
        size = sizes.get(seat.guest)
        if seat.host != main.piece or size is None:
            continue
        ring = main.rings[main.ring_at(seat.round)]
        for turn in seat.turns:
            if (place := _spot(main, ring.radius, ring.height, turn)) is not None:
                shapes.append(Circle(*place, size / 2, "eye"))
    return shapes


def _spot(main: Profile, radius: float, height: float, turn: float) -> tuple[float, float] | None:
    """Where a place on the main piece is on the sheet; None on the side turned away. From above the
    front is at the top; from the side it is turned to who looks, so that left and right change."""
    if main.flat:
        x, y, _, _ = at_turn(turn, radius, main.straight)
        return x, y
    if cos(2 * pi * turn) < -0.05:
        return None
    x, depth = radius * sin(2 * pi * turn), radius * cos(2 * pi * turn)
    return x, height * LEAN + TILT * depth


def _below(sheet: _Sheet, rest: list[Profile], fabric: Fabric) -> None:
    """Rows of the other pieces, as many beside each other as fit, centred on the axis."""
    if not rest:
        return
    gap = 0.12 * max(sheet.half, max(_size(one)[1] for one in rest) / 4)
    room = max(ROOMY * 2 * sheet.half, max(_size(one)[0] for one in rest))
    row: list[_Copy] = []
    for one in rest:
        for group in _groups(one, fabric, room, gap):
            if row and sum(wide + gap for _, wide, _ in (*row, *group)) - gap > room:
                _row(sheet, row, gap)
                row = []
            row += group
    _row(sheet, row, gap)


_Copy = tuple[Profile, float, float]
"""A piece, how wide and how high it is drawn."""


def _groups(one: Profile, fabric: Fabric, room: float, gap: float) -> list[list[_Copy]]:
    """The copies of a piece, together if they fit, else in rows of about as many."""
    wide, high = _size(one)
    count = min(max(1, fabric.pieces[one.piece].piece.make), MOST_COPIES)
    fitting = max(1, int((room + gap) / (wide + gap)))
    rows = -(-count // fitting)
    shares = [count // rows + (place < count % rows) for place in range(rows)]
    return [[(one, wide, high)] * share for share in shares]


def _size(one: Profile) -> tuple[float, float]:
    if one.flat and one.form is not Form.ROWS:
        return one.width, one.depth
    return one.width, one.height + (TILT * one.depth if one.form is Form.TURNED else 0.0)


def _row(sheet: _Sheet, row: list[_Copy], gap: float) -> None:
    x = -(sum(wide for _, wide, _ in row) + gap * (len(row) - 1)) / 2
    top = sheet.bottom + 1.5 * gap
    high = max(high for _, _, high in row)
    for one, wide, _ in row:
        sheet.shapes.append(_alone(one, x + wide / 2, top, high))
        x += wide + gap
    sheet.reach(x - gap, top + high)


def _alone(one: Profile, x: float, top: float, high: float) -> Group:
    if one.flat and one.form is not Form.ROWS:
        return Group(tuple(from_above(one, {})), "", x, top + high / 2)
    if one.form is Form.TURNED:
        y = top + TILT * one.rings[0].radius
        return Group(tuple(from_side(one, {})), "", x, y)
    return Group(tuple(limb(one)), "", x, top, 180)


def _bar(sheet: _Sheet) -> float:
    """Draws the scale bar under everything; its length in mm."""
    length = float(max((rule for rule in RULES if rule <= 0.4 * sheet.half), default=RULES[0]))
    y, left = sheet.bottom + 0.14 * sheet.half, -length / 2
    tick = 0.04 * sheet.half
    way: tuple[tuple[str | float, ...], ...] = (
        ("M", left, y - tick), ("L", left, y), ("L", -left, y), ("L", -left, y - tick),
    )  # fmt: skip
    sheet.shapes.append(Path(way, "scale"))
    sheet.reach(0, y + tick)
    return length


def _drawing(sheet: _Sheet, id: str, title: str) -> Drawing:
    margin = 0.06 * max(sheet.half, (sheet.bottom - sheet.top) / 2)
    box = Box(
        -sheet.half - margin,
        sheet.top - margin,
        2 * (sheet.half + margin),
        sheet.bottom - sheet.top + 2 * margin,
    )
    axis = Line(0, box.y, 0, box.y + box.height, "axis")
    return Drawing((axis, *sheet.shapes), "", box, title, id)
