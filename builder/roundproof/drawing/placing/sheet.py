"""Placement diagrams: a piece with all that the assembly sets on it, seen from the side that
matters, and the rounds in question stitch by stitch.

Everything stands where `fabric/stands.py` reckons it. Where a step does not say where round its
host something goes, its rounds are marked and nothing more; what no picture can tell rightly is
told in words.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from roundproof.drawing.labels import LINE, RISE, lines
from roundproof.drawing.placing.frame import Frame
from roundproof.drawing.placing.host import MOST_DRAWN, Host, Item, hosts
from roundproof.drawing.placing.ring import (
    Ring,
    draw_ring,
    ring_height,
    rings,
    scale_words,
)
from roundproof.drawing.placing.side import COLUMN, seen
from roundproof.drawing.placing.views import View, views
from roundproof.drawing.placing.words import on_words, words_of
from roundproof.drawing.profile import Profile, profile
from roundproof.drawing.shapes import Box, Drawing, Group, Shape, Text
from roundproof.drawing.sheet import Kind, Sheet
from roundproof.drawing.yarns import yarn_marks
from roundproof.frozen import dataclass, replace
from roundproof.measure.model import Form
from roundproof.proof import Proof

WIDTH = 340.0
"""Units, of which letters are 12 high: shown 360 pixels wide, no letter is smaller than that."""
MARGIN = 6.0
GAP = 16.0
HIGHEST = 900.0
"""Units from which on a sheet is parted: it would not go on a sheet of paper."""
MOST_SHEETS, MOST_RINGS = 24, 8
ROOM = Box(-WIDTH / 2 + MARGIN, 0, WIDTH - 2 * MARGIN, 0)


@dataclass(frozen=True, slots=True)
class _Block:
    """A view or a ring: a heading, and shapes that begin at 0."""

    words: str
    shapes: tuple[Shape, ...]
    height: float
    items: tuple[Item, ...]
    scale: str = ""
    """What a ring's lines stand for."""


def placement_sheets(proof: Proof, *, mirrored: bool = False) -> tuple[Sheet, ...]:
    """A sheet for each piece on which the assembly sets things, in the order of the file; more,
    numbered in `part`, where one would be too high. `mirrored` for those who work left-handed."""
    hand = -1 if mirrored else 1
    found = hosts(proof.pattern, proof.fabric)[:MOST_SHEETS]
    return tuple(sheet for host in found for sheet in _sheets(proof, host, hand))


def _sheets(proof: Proof, host: Host, hand: int) -> Iterator[Sheet]:
    size = proof.measures.pieces.get(host.key)
    shape = profile(host.worked, size, yarn_marks(proof.pattern))
    shape = shape if shape is not None and shape.width > 0 else None
    seen_from = views(host, shape, hand) if shape is not None else ()
    blocks = list(_views(seen_from))
    if shape is None or shape.form is not Form.ROWS:
        blocks += [_round(ring, host, hand) for ring in rings(host.items)[:MOST_RINGS]]
    parts = _parted(blocks) if blocks else []
    for number, part in enumerate(parts):
        there = {item.letter for block in part for item in block.items}
        items = tuple(item for item in host.items if item.letter in there)
        shown = host if len(parts) == 1 else replace(host, items=items)
        yield _sheet(proof, shown, part, shape, hand, number)


def _parted(blocks: Sequence[_Block]) -> list[list[_Block]]:
    """As many of them on each sheet as go on it, one at least."""
    parts: list[list[_Block]] = [[]]
    for block in blocks:
        if parts[-1] and sum(each.height for each in parts[-1]) + block.height > HIGHEST:
            parts.append([])
        parts[-1].append(block)
    return parts


def _sheet(
    proof: Proof, host: Host, part: Sequence[_Block], shape: Profile | None, hand: int, number: int
) -> Sheet:
    shapes: list[Shape] = []
    y = MARGIN
    for block in part:
        y = _titled(shapes, block.words, y)
        shapes.append(Group(block.shapes, y=y))
        y += block.height
    y = _key(shapes, host, y)
    name = f"{number + 1}" if number else ""
    id = "-".join(f"places {proof.pattern.slug} {host.key} {name}".split())
    words = words_of(host)
    box = Box(-WIDTH / 2, 0, WIDTH, round(y + MARGIN, 2))
    title = f"{host.name}: where things are set"
    drawing = Drawing(tuple(shapes), "placing", box, title, id, more=" ".join(words))
    return Sheet(Kind.PLACES, host.key, drawing, _caption(host, part, shape, hand), words, name)


def _views(seen_from: Sequence[View]) -> Iterator[_Block]:
    """Two views of a tall piece stand side by side."""
    flat = [view for view in seen_from if view[1].above]
    sides = [view for view in seen_from if not view[1].above]
    yield from (_view(*view) for view in flat)
    if len(sides) == 2 and 2 * _wide(sides[0][1]) <= WIDTH - 4 * MARGIN:
        yield _pair(*sides)
    else:
        yield from (_view(*view) for view in sides)


def _wide(frame: Frame) -> float:
    return COLUMN + frame.profile.width * frame.scale


def _pair(one: View, two: View) -> _Block:
    half = ROOM.width / 2
    shapes: list[Shape] = []
    low = 0.0
    for n, (host, frame) in enumerate((one, two)):
        room = Box(ROOM.x + n * half, 0, half - MARGIN, 0)
        x = room.x + COLUMN + (room.width - COLUMN) / 2
        view = seen(host, replace(frame, x=x), room)
        side = _side(host, frame)
        shapes.append(Text(x, LINE / 2 + RISE, f"from {side}", "words", "middle"))
        shapes.append(Group(view.shapes, y=LINE + 6 - view.top))
        low = max(low, view.bottom - view.top + LINE + 6)
    words = f"{one[0].name}, start at the top"
    return _Block(words, tuple(shapes), low + GAP, one[0].items)


def _view(host: Host, frame: Frame) -> _Block:
    """One view of a piece, moved so far down that all its words begin below 0."""
    view = seen(host, frame, ROOM)
    down = 6 - view.top
    shapes = (Group(view.shapes, y=down),)
    return _Block(_view_title(host, frame), shapes, view.bottom + down + GAP, host.items)


def _round(ring: Ring, host: Host, hand: int) -> _Block:
    drawn = draw_ring(ring, host, 0, ring_height() / 2, WIDTH / 2 - MARGIN, hand)
    about = "" if ring.exact else ", about"
    words = f"{ring.words}, from the start{about}"
    return _Block(words, tuple(drawn), ring_height() + GAP / 2, ring.items, scale_words(ring.count))


def _view_title(host: Host, frame: Frame) -> str:
    if frame.profile.form is Form.ROWS:
        return f"{host.name}, row 1 at the top"
    if frame.above:
        return f"{host.name} from {'its end' if frame.below else 'its start'}"
    return f"{host.name} from {_side(host, frame)}, start at the top"


def _side(host: Host, frame: Frame) -> str:
    if not host.facing:
        return "one side" if not frame.view else "another side"
    if host.facing != "front":
        return f"the mark {host.facing}" if not frame.view else "another side"
    return "the front" if not frame.view else "the back" if frame.view == 0.5 else "a side"


def _titled(shapes: list[Shape], words: str, y: float) -> float:
    for line in lines(words, ROOM.width, "strong", 2):
        shapes.append(Text(0, y + LINE / 2 + RISE, line, "strong", "middle"))
        y += LINE
    return y


def _key(shapes: list[Shape], host: Host, y: float) -> float:
    """What each letter stands for."""
    indent = 18.0
    for item in host.items:
        shapes.append(Text(ROOM.x, y + LINE / 2 + RISE, item.letter, "strong", "start"))
        where = f", {on_words(item)}" if item.site is not None else ""
        left = "" if item.stands or item.points else "; stitches not said"
        for line in lines(f"{item.name}{where}{left}", ROOM.width - indent):
            shapes.append(Text(ROOM.x + indent, y + LINE / 2 + RISE, line, "words", "start"))
            y += LINE
    return y


def _foot(host: Host) -> str:
    """What is turned to whoever looks."""
    if not host.facing:
        return ""
    return f", the {'front' if host.facing == 'front' else f'mark {host.facing}'} at the foot"


def _caption(host: Host, part: Sequence[_Block], shape: Profile | None, hand: int) -> str:
    parts = []
    if shape is not None and any(not block.scale for block in part):
        scale = "to scale" if shape.measured else "from the counts alone"
        few = shape.every == 1
        line = "each line is a round" if few else f"a line is up to {shape.every} rounds"
        parts.append(f"Drawn {scale}; {line}.")
    scales = dict.fromkeys(block.scale for block in part if block.scale)
    if scales:
        way = "anticlockwise" if hand > 0 else "clockwise"
        maker = "right" if hand > 0 else "left"
        parts.append(
            f"The rounds are seen from the start of the piece{_foot(host)}:"
            f" {'; '.join(scales)}. The arrow is the direction of work, {way} for a"
            f" {maker}-handed maker. Figures inside are stitches left free."
        )
    items = {item.letter: item for block in part for item in block.items}.values()
    for item in items:
        if len(item.stands) > MOST_DRAWN:
            parts.append(f"Of the {len(item.stands):,} at {item.letter}, {MOST_DRAWN} are drawn.")
    if scales and not all(stand.exact for item in items for stand in item.stands):
        parts.append("A ~ is before what is counted from a mark in another round, so about.")
    return " ".join(parts)
