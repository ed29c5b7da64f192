"""The outline of a piece: to scale, its rounds marked and numbered, a band for each yarn, hatched
where it does not lie flat, over rulers in centimetres and inches.

The start is at the top, as in the column of bars. Flat pieces are drawn from above.
"""

from __future__ import annotations

from collections.abc import Mapping

from roundproof.drawing.outlines.above import from_above
from roundproof.drawing.outlines.hatch import Area, hatch
from roundproof.drawing.outlines.rulers import measure, ruler
from roundproof.drawing.outlines.side import from_side
from roundproof.drawing.outlines.words import outline_words, view_words
from roundproof.drawing.profile import Profile, profile
from roundproof.drawing.runs import Lie, Run, lie, numbered, runs
from roundproof.drawing.shapes import Box, Drawing, Group, Rect, Shape, Text
from roundproof.drawing.sheet import Kind, Sheet, sheet_id
from roundproof.drawing.yarns import Marks, yarn_marks
from roundproof.fabric.model import WorkedPiece
from roundproof.frozen import dataclass
from roundproof.measure.model import Form, PieceSize
from roundproof.proof import Proof

HALF = 104.0
"""Half of the widest piece; beside it are the numbers of rounds, and how tall it is."""
TALLEST = 300.0
LARGER = 2.5
EDGE = 164.0
MEASURED_FROM = 60.0
"""A piece that is drawn as tall as this has its height beside it."""
LINE, LETTERS = 16.0, 38
"""Of the key: units from line to line, and how many letters go into one."""
MOST_LINES = 3


Across = Mapping[bool, float]
"""The width of the widest piece: True of those in mm, False of those drawn from counts."""


@dataclass(frozen=True, slots=True)
class Outline:
    """`above`: seen from above; `hatched`: some is; `dot`: how many rounds a dot stands for."""

    sheet: Sheet
    above: bool
    hatched: bool
    dot: int


def outline_sheet(
    piece: WorkedPiece, size: PieceSize | None, marks: Marks, across: float = 0.0, id: str = ""
) -> Sheet | None:
    """None for a piece without extent, or of less than two rounds. `across` is the width of the
    pattern's widest piece."""
    shape = profile(piece, size, marks)
    drawn = outline(shape, piece.piece.name, across, id) if shape else None
    return drawn.sheet if drawn else None


def outline(shape: Profile, name: str, across: float = 0.0, id: str = "") -> Outline | None:
    """The sheet, with what a caption tells of it. Small pieces are drawn up to LARGER times as
    large as the widest of the pattern, and no more."""
    above = seen_from_above(shape)
    wide, high = shape.width, shape.depth if above else shape.height + shape.tip
    if wide <= 0 or len(shape.rings) < 2:
        return None
    scale = 2 * HALF / max(wide, across / LARGER)
    scale = min(scale, TALLEST / high) if high > 0 else scale
    shapes = from_above(shape, scale) if above else from_side(shape, scale)
    bottom, key = max(high * scale, 1.0), _key(shape)
    tall = shape.measured and not above and bottom >= MEASURED_FROM
    if tall:
        shapes += measure(scale, high, -HALF - 30)
    if shape.measured:
        bottom += 34
        shapes += ruler(scale, HALF, bottom)
        bottom += 20
    bottom = max(bottom, high * scale + 34) if tall else bottom
    for entry in key:
        shapes += _entry(entry, bottom + 10)
        bottom += 4 + LINE * len(entry[1])
    words, id = outline_words(shape, name, above), id or sheet_id(Kind.OUTLINE, shape.piece)
    box = Box(-EDGE, -12, 2 * EDGE, bottom + 24)
    drawing = Drawing(tuple(shapes), "drawn outline", box, words[0], id, more=" ".join(words[1:]))
    sheet = Sheet(Kind.OUTLINE, shape.piece, drawing, _caption(shape, above), words)
    return Outline(sheet, above, any(each.lines for each, _ in key), shape.every)


def seen_from_above(shape: Profile) -> bool:
    return shape.form is not Form.ROWS and shape.height < 0.25 * shape.width


def _caption(shape: Profile, above: bool) -> str:
    scale = "to scale" if shape.measured else "from the counts alone, as no gauge is given"
    return f"{view_words(above, shape.form)}, {scale}"


# ---- the key ----
def _key(shape: Profile) -> list[tuple[Lie, list[str]]]:
    """Each way in which rounds of the piece lie, with the rounds, in lines."""
    found: dict[Lie, list[Run]] = {}
    for run in runs(shape.whole, lie):
        if (lies := lie(run.rings[0])) is not None:
            found.setdefault(lies, []).append(run)
    return [(lies, _lines(lies, found[lies])) for lies in sorted(found, key=_order)]


def _order(lies: Lie) -> tuple[int, float]:
    return list(type(lies.lies)).index(lies.lies), -sum(each.gap for each in lies.lines)


def _lines(lies: Lie, found: list[Run]) -> list[str]:
    """Broken where a line is full; what does not go into a few of them is told in the words."""
    lines = [f"{lies.words}:"]
    for word in numbered(found).split(" "):
        if len(lines[-1]) + 1 + len(word) > LETTERS:
            lines.append(word)
        else:
            lines[-1] += f" {word}"
    if len(lines) > MOST_LINES:
        lines = lines[:MOST_LINES]
        lines[-1] = lines[-1].rpartition(" ")[0] + " and more"
    return lines


def _entry(entry: tuple[Lie, list[str]], top: float) -> list[Shape]:
    lies, lines = entry
    left, width, height = -EDGE + 4, 24.0, 13.0
    corners = [(left, top), (left + width, top), (left + width, top + height), (left, top + height)]
    strokes = hatch([Area(corners)], lies.lines)
    shapes: list[Shape] = [strokes] if strokes else []
    shapes.append(Rect(left, top, width, height, "line"))
    words = (
        Text(left + width + 8, top + 11 + LINE * place, line) for place, line in enumerate(lines)
    )
    return [*shapes, Group(tuple(words), "words")]


def widest_of(proof: Proof) -> Across:
    """The widest piece of a pattern."""
    marks, across = yarn_marks(proof.pattern), {True: 0.0, False: 0.0}
    for key, piece in proof.fabric.pieces.items():
        shape = profile(piece, proof.measures.pieces.get(key), marks)
        if shape is not None:
            across[shape.measured] = max(across[shape.measured], shape.width)
    return across
