"""The host of a placement diagram as it is seen: its rounds as lines with their numbers, and on
them the outlines of what is set there, with gaps in stitches, and flags at landmarks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from roundproof.drawing.labels import (
    LINE,
    RISE,
    box_of,
    cut,
    meet,
    placed,
    spread_out,
    texts,
    width_of,
)
from roundproof.drawing.places import some
from roundproof.drawing.placing.clearing import cleared
from roundproof.drawing.placing.frame import Frame, rounded, turned_away
from roundproof.drawing.placing.gaps import between
from roundproof.drawing.placing.host import MOST_DRAWN, Host, Item
from roundproof.drawing.shapes import Box, Circle, Line, Path, Shape, Text, polygon, stadium
from roundproof.fabric.points import Point
from roundproof.fabric.stands import Stand
from roundproof.frozen import dataclass
from roundproof.measure.model import Form

COLUMN = 40.0
"""Units at the left of a view for the numbers of its rounds."""
CLOSEST = 2.4
"""Units between the lines of two rounds; where they would be closer, some are left out."""
DOT = 3.0
MOST_NUMBERED = 20


@dataclass(frozen=True, slots=True)
class View:
    """Shapes from `top` to `bottom`."""

    shapes: tuple[Shape, ...]
    top: float
    bottom: float


def seen(host: Host, frame: Frame, room: Box) -> View:
    """The host in a frame; words stay within `room`, left and right."""
    shapes: list[Shape] = [*_body(frame)]
    taken: list[Box] = []
    numbers = _numbers(host, frame, room)
    shapes += numbers
    taken += [box_of(text) for text in numbers if isinstance(text, Text)]
    shown = [
        (item, stand)
        for item in host.items
        for stand in (() if item.points else some(item.stands, MOST_DRAWN))
        if not turned_away(frame, host.turn(stand.middle, stand.count))
    ]
    marks: list[tuple[str, Box]] = []
    for item, stand in shown:
        outline, around = _stood(host, frame, item, stand)
        shapes += outline
        marks.append((item.letter, around))
    for item in host.items:
        if not item.stands and not item.points:
            shapes += _open(frame, item)
            y = frame.at(0, (item.low + item.high) / 2)[1] if not frame.above else frame.y
            x = frame.x if not frame.above else frame.x + _middle_radius(frame, item)
            marks.append((item.letter, Box(x, y, 0, 0)))
        lines, spots = _threads(host, frame, item)
        shapes += lines
        marks += [(item.letter, Box(x, y, 0, 0)) for x, y in spots]
    things = [around for _, around in marks]
    flags = _flags(host, frame, things)
    taken += [*(flag.box for flag in flags), *_edge(frame)]
    shapes += _lettered(marks, taken, room)
    shapes += _labelsflags(flags, taken, things, room)
    shapes += _gap_figures(host, frame, taken, things)
    words = [_narrower(text) for text in texts(shapes)]
    reach = _reach(frame, [*taken, *(box_of(text) for text in texts(shapes))])
    return View(tuple(cleared(shapes, words)), *reach)


def _reach(frame: Frame, taken: Sequence[Box]) -> tuple[float, float]:
    depth = frame.profile.depth / 2 * frame.scale
    high = frame.profile.height * frame.scale
    top, low = (frame.y - depth, frame.y + depth) if frame.above else (frame.y, frame.y + high)
    return (
        min([top, *(box.y for box in taken)]),
        max([low, *(box.y + box.height for box in taken)]),
    )


# ---- the piece ----
def _body(frame: Frame) -> list[Shape]:
    rings = frame.rings
    if frame.above:
        return _rings(frame)
    # Its edge goes by the rounds themselves: one below the other, widest as they are.
    first = rings[0].number - 1 if rings else 0
    steps = [float(min(first, 0)), *(float(ring.number) for ring in rings)]
    right = [(frame.x + frame.half(n), frame.y + frame.height(n) * frame.scale) for n in steps]
    left = [(2 * frame.x - x, y) for x, y in reversed(right)]
    lines: list[tuple[str | float, ...]] = []
    last = -CLOSEST
    for x, y in right[1:-1]:
        if y - frame.y - last >= CLOSEST:
            lines += [("M", 2 * frame.x - x, y), ("L", x, y)]
            last = y - frame.y
    return [Path(tuple(lines), "faint"), polygon(right + left, "edge")]


def _edge(frame: Frame) -> Iterator[Box]:
    """The firm line about the piece, from the side, as boxes that words keep clear of."""
    numbers = () if frame.above else (0, *(ring.number for ring in frame.rings))
    for pair in pairwise(numbers):
        y, low = (frame.y + frame.height(n) * frame.scale for n in pair)
        out = [frame.half(n) for n in pair]
        for side in (-1, 1):
            left = frame.x + side * (min(out) if side > 0 else max(out)) - 1
            yield Box(left, y, max(out) - min(out) + 2, low - y)


def _rings(frame: Frame) -> list[Shape]:
    edge = frame.profile.widest
    at = frame.rings.index(edge)
    rings = frame.rings[at:] if frame.below else frame.rings[: at + 1]
    shapes: list[Shape] = []
    last = -CLOSEST
    for ring in sorted(rings, key=lambda ring: ring.radius):
        if ring is not edge and ring.radius * frame.scale - last >= CLOSEST:
            last = ring.radius * frame.scale
            shapes.append(_ring(frame, ring.number, "faint"))
    return [*shapes, _ring(frame, edge.number, "edge")]


def _ring(frame: Frame, number: float, css: str) -> Shape:
    return stadium(
        frame.radius(number) * frame.scale, frame.profile.straight * frame.scale, frame.y, css
    )


# ---- the numbers of its rounds ----
def _numbers(host: Host, frame: Frame, room: Box) -> list[Shape]:
    """Every round that something is set on, that a landmark is in, and others where there is room,
    each beside the middle of its round."""
    first, last = frame.rings[0].number, frame.rings[-1].number
    named = {n for item in host.items for n in _rounds_of(item)}
    named |= {mark.number for mark in host.marks[:MOST_FLAGS]}
    named = {n for n in named if _on_view(frame, n)}
    places = {n: _level(frame, n) for n in sorted(named | {last if not frame.above else first})}
    every = 5
    while last > MOST_NUMBERED * every:
        every *= 2
    for number in range(every, last, every):
        y = _level(frame, number)
        if _on_view(frame, number) and all(abs(y - o) >= 1.5 * LINE for o in places.values()):
            places[number] = y
    wanted = sorted(places.items(), key=lambda pair: pair[1])
    spread = spread_out([y for _, y in wanted], LINE, -1e9, 1e9)
    x = room.x + COLUMN - 8
    leads: list[tuple[str | float, ...]] = []
    labels: list[Shape] = []
    for (number, y), label in zip(wanted, spread, strict=True):
        end = frame.x if frame.above else frame.x - frame.half(number - 0.5)
        leads += rounded([(x + 3, label), (x + 9, y), (end, y)])
        labels.append(Text(x, label + RISE, f"R{number}", "words", "end"))
    return [Path(tuple(leads), "faint"), *labels]


def _rounds_of(item: Item) -> tuple[int, ...]:
    if item.site is not None:
        return item.site.first, item.site.last
    return tuple(int(end + 0.5) for end in (item.low, item.high))


def _on_view(frame: Frame, number: float) -> bool:
    first, last = frame.rings[0].number, frame.rings[-1].number
    if not min(first, 1) <= number <= last:
        return False
    if not frame.above:
        return True
    edge = frame.profile.widest.number
    return number >= edge if frame.below else number <= edge


def _level(frame: Frame, number: float) -> float:
    if frame.above:
        return frame.y - frame.radius(number - 0.5) * frame.scale
    return frame.y + frame.height(number - 0.5) * frame.scale


# ---- what is set on it ----
def _stood(host: Host, frame: Frame, item: Item, stand: Stand) -> tuple[list[Shape], Box]:
    """One copy: a circle, a line, or the outline of what it covers; and the box about it."""
    start = host.turn(stand.middle, stand.count) - stand.wide / stand.count / 2
    end = start + stand.wide / stand.count
    if item.thing:
        x, y = frame.at(start, stand.low)
        radius = max(DOT, item.size / 2 * frame.scale) if frame.profile.measured else DOT
        return [Circle(x, y, radius, "set")], Box(x - radius, y - radius, 2 * radius, 2 * radius)
    low = frame.across(start, end, stand.low)
    if (upper := host.worked.at(stand.site.last)) is not None and upper.made:
        # In its last round, which may have more stitches or fewer, it covers as many.
        middle, half = (start + end) / 2, min(stand.wide / upper.made, 1.0) / 2
        start, end = middle - half, middle + half
    if stand.low == stand.high:
        return [Path(tuple(rounded(low)), "edge"), *_ends(low)], _about(low, 3.0)
    if not stand.wide:
        up = [frame.at(start, stand.low + (stand.high - stand.low) * n / 8) for n in range(9)]
        return [Path(tuple(rounded(up)), "edge")], _about(up, 2.0)
    points = low + list(reversed(frame.across(start, end, stand.high)))
    return [polygon(points, "set")], _about(points, 0.0)


def _ends(way: Sequence[tuple[float, float]]) -> list[Shape]:
    return [Line(x, y - 3, x, y + 3, "edge") for x, y in (way[0], way[-1])]


def _about(points: Sequence[tuple[float, float]], more: float) -> Box:
    left, right = min(x for x, _ in points), max(x for x, _ in points)
    top, low = min(y for _, y in points), max(y for _, y in points)
    return Box(left - more, top - more, right - left + 2 * more, low - top + 2 * more)


def _open(frame: Frame, item: Item) -> list[Shape]:
    """What may stand anywhere on its rounds: they are marked all across."""
    edges = dict.fromkeys((item.low, item.high))
    if frame.above:
        return [_ring(frame, rounds, "dashed") for rounds in edges]
    return [
        Path((("M", frame.x - frame.half(n), y), ("L", frame.x + frame.half(n), y)), "dashed")
        for n in edges
        for y in (frame.y + frame.height(n) * frame.scale,)
    ]


def _middle_radius(frame: Frame, item: Item) -> float:
    return frame.radius((item.low + item.high) / 2) * frame.scale


def _threads(host: Host, frame: Frame, item: Item) -> tuple[list[Shape], list[tuple[float, float]]]:
    """A line of embroidery from point to point, or the points that a joint goes through."""
    there = [
        frame.at(turn, point.height)
        for point in item.points
        if (turn := _turn(host, point)) is not None and not turned_away(frame, turn)
    ]
    shapes: list[Shape] = [Circle(x, y, 2, "solid") for x, y in there]
    if len(there) == 2 == len(item.points) and not item.joint:
        shapes.append(Path(tuple(rounded(there)), "edge"))
    return shapes, there[:1]


def _turn(host: Host, point: Point) -> float | None:
    if point.place is None or not point.count:
        return None
    return host.turn(point.place, point.count)


# ---- words on it ----
def _lettered(marks: Sequence[tuple[str, Box]], taken: list[Box], room: Box) -> list[Shape]:
    """A letter in each outline, or as near to it as there is a free spot."""
    shapes: list[Shape] = []
    shown: set[str] = set()
    things = [box for _, box in marks]
    for letter, box in marks:
        x, y = box.x + box.width / 2, box.y + box.height / 2
        inside = box.width > width_of(letter, "strong") + 2 and box.height >= 11
        spots = [(x, y, "middle")] if inside else []
        others = taken if inside else [*taken, *things]
        if not inside:
            for far in (0.0, 8.0, 16.0):
                up, side = box.height / 2 + 7 + far, box.width / 2 + 7 + far
                spots += [(x, y - up, "middle"), (x, y + up, "middle")]
                spots += [(x + side, y, "middle"), (x - side, y, "middle")]
        text = placed(letter, spots, others, "strong", room)
        if text is None and letter not in shown:
            aside = [(room.x + room.width - 8, y + n * LINE, "middle") for n in (0, 1, -1, 2, -2)]
            text = placed(letter, aside, taken, "strong")
            if text is not None:
                shapes.append(Line(x, y, float(text.x) - 6, float(text.y) - RISE, "faint"))  # type: ignore[arg-type]
        if text is not None:
            shown.add(letter)
            taken.append(box_of(text))
            shapes.append(text)
    return shapes


MOST_FLAGS = 6


@dataclass(frozen=True, slots=True)
class _Flag:
    """The name of a landmark and where its flag stands; or hangs, where `up` is -1."""

    name: str
    x: float
    y: float
    up: int

    @property
    def box(self) -> Box:
        return Box(self.x - 1, self.y - (14 if self.up > 0 else 1), 10, 15)


def _flags(host: Host, frame: Frame, things: Sequence[Box]) -> list[_Flag]:
    """The landmarks that can be seen. A flag hangs where it would else stand in something."""
    found: list[_Flag] = []
    for mark in host.marks[:MOST_FLAGS]:
        turn = host.turn(mark.place, mark.count)
        if not turned_away(frame, turn) and _on_view(frame, mark.number):
            x, y = frame.at(turn, mark.number - 0.5)
            stands, hangs = (_Flag(mark.name, x, y, up) for up in (1, -1))
            blocked = any(meet(stands.box, thing) for thing in things)
            found.append(hangs if blocked else stands)
    return found


def _labelsflags(
    flags: Sequence[_Flag], taken: list[Box], things: Sequence[Box], room: Box
) -> list[Shape]:
    shapes: list[Shape] = []
    for flag in flags:
        x, y, up = flag.x, flag.y, flag.up
        pennant = polygon([(x, y - 13 * up), (x + 8, y - 10 * up), (x, y - 7 * up)], "solid")
        shapes += [Path((("M", x, y), ("L", x, y - 13 * up)), "line"), pennant]
        spots = [(x + 12, y - 8 * up, "start"), (x - 5, y - 8 * up, "end")]
        spots += [(x, y - 21 * up, "middle"), (x, y + 9 * up, "middle")]
        spots += [(x + 12, y - 22 * up, "start"), (x - 5, y - 22 * up, "end")]
        edge = room.x + room.width
        spots += [(edge, y + n * LINE - 10, "end") for n in (0, -1, 1, -2, 2, -3, 3)]
        text = placed(cut(flag.name, 80), spots, [*taken, *things], room=room)
        if text is not None:
            box = box_of(text)
            taken.append(box)
            shapes.append(text)
            if text.x == edge and box.x > x + 12:  # too far away to be taken for its own
                lead = (("M", x + 9, y - 10 * up), ("L", box.x - 2, box.y + box.height / 2))
                shapes.append(Path(lead, "faint"))
    return shapes


def _gap_figures(host: Host, frame: Frame, taken: list[Box], things: Sequence[Box]) -> list[Shape]:
    """The stitches that are free between two neighbours of one step, where both can be seen."""
    if frame.profile.form is Form.ROWS:
        return []
    shapes: list[Shape] = []
    for gap in between(host.items):
        start = host.turn(gap.start, gap.count)
        end = start + gap.wide / gap.count
        if any(turned_away(frame, turn) for turn in (start, (start + end) / 2, end)):
            continue
        way = frame.across(start, end, gap.level)
        words, spots = f"{gap.wide:g}", list[tuple[float, float, str]]()
        for up in (0.0, -LINE, LINE):
            for share in (0.5, 0.35, 0.65, 0.2, 0.8):
                x, y = frame.at(start + share * (end - start), gap.level)
                spots.append((x, y + up, "middle"))
        text = placed(words, spots, [*taken, *things], "words")
        if text is not None:
            taken.append(box_of(text))
            shapes += [Path(tuple(rounded(way)), "dashed"), text]
    return shapes


def _narrower(text: Text) -> Box:
    """What the words are likely to cover; they are mostly narrower than they are taken for."""
    box = box_of(text)
    less = 0.12 * box.width
    left = box.x + less * {"end": 1.0, "middle": 0.5}.get(text.anchor, 0.0)
    return Box(left, box.y + 1, box.width - less, box.height - 1)
