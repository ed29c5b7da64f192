"""The chart of a piece as a sheet."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

from roundproof.drawing.chart.draw import UNIT, Block, Ends, Painter
from roundproof.drawing.chart.frames import Rings
from roundproof.drawing.chart.key import entries
from roundproof.drawing.chart.layout import sections
from roundproof.drawing.chart.numbers import Numbers
from roundproof.drawing.chart.page import boxed, packed
from roundproof.drawing.chart.placed import Section
from roundproof.drawing.chart.signs import drawn
from roundproof.drawing.chart.used import Signs
from roundproof.drawing.shapes import Drawing, Group, Path, Shape, Text, Use
from roundproof.drawing.sheet import Kind, Sheet
from roundproof.drawing.yarns import Marks
from roundproof.fabric.courses import Course, Ground, courses
from roundproof.fabric.edges import in_rows
from roundproof.fabric.model import WorkedPiece
from roundproof.notation.writer import written
from roundproof.pattern.model import Terms

MOST = 6000
"""Stitches of a piece that is drawn; a larger one has its rounds in words."""
KEY_LINE = 34.0
"""From one line of the key to the next, in pixels, or more where a sign is taller."""


def chart(
    piece: WorkedPiece,
    marks: Marks,
    terms: Terms,
    letter: Callable[[str], str],
    own: Mapping[str, str],
    mirrored: bool = False,
) -> Sheet | None:
    """None where a round could not be read, or for more than `MOST` stitches. `letter` gives the
    letter of a yarn, `own` the names of the stitches that the pattern declares; `mirrored` is for
    left-handed makers."""
    found = courses(piece, MOST)
    if not found:
        return None
    rows = in_rows(piece)
    signs, numbers = Signs(found), Numbers(found, marks)
    laid = sections(found, rows, numbers.wide)
    painter = Painter(signs, marks, numbers, mirrored, Ends(found[0], found[-1], piece.fastened))
    blocks = [
        (_headed(section, rows, part), part) for section in laid for part in painter.blocks(section)
    ]
    sheet = packed(blocks)
    key, high = _key(signs, own, painter, sheet.high + 24)
    lines = tuple(_lines(piece, terms, letter))
    drawing = Drawing(
        (*sheet.shapes, *(shape for line in key for shape in line)),
        "chart",
        boxed(sheet.wide, high),
        _title(piece, found, rows),
        f"chart-{piece.piece.key}",
        defined=tuple(
            (name, (Group(_scaled(drawn(sign))),)) for sign, name in signs.defined.items()
        ),
        more=" ".join(lines),
    )
    return Sheet(
        Kind.CHART,
        piece.piece.key,
        drawing,
        _caption(laid, rows, mirrored, any(part.words for _, part in blocks)),
        lines,
    )


def _title(piece: WorkedPiece, found: Sequence[Course], rows: bool) -> str:
    count = sum(bool(s.number) for course in found for s in course.stitches)
    what = "row" if rows else "round"
    rounds = f"{len(found)} {what}{'s' if len(found) > 1 else ''}"
    return f"Chart of {piece.piece.name}: {rounds}, {count} stitches."


def _headed(section: Section, rows: bool, part: Block) -> str:
    """'R8 to R15, over R7, towards the middle'."""
    first, last = section.lines[0].course, section.lines[-1].course
    words = f"R{first.number}"
    if last is not first:
        words += f" to R{last.number}"
    if first.folded:
        words += ", through both layers"
    elif section.ghosts and first.ground is Ground.BELOW:
        words += f", over R{first.number - 1}"
    return words + (f", {part.words}" if part.words else "")


def _caption(laid: Sequence[Section], rows: bool, mirrored: bool, cut: bool) -> str:
    side, way = ("left", "clockwise") if mirrored else ("right", "anticlockwise")
    other = "right" if mirrored else "left"
    said: list[str] = []
    frames = [s.frame for s in laid if isinstance(s.frame, Rings)]
    if any(not f.inward and f.closed for f in frames):
        said.append(f"Rings are worked {way}, from the middle outwards.")
    if any(f.inward for f in frames):
        said.append(
            "Rings that close are seen from the end that closes: they are worked the other way"
            " round, from the outside in."
        )
    if any(not isinstance(s.frame, Rings) for s in laid):
        if rows:
            said.append(
                f"From the bottom up; a row begins where its number stands, R1 on the {side}."
            )
        else:
            said.append(f"Lines are rounds unrolled: from the bottom up, from {side} to {other}.")
    if cut:
        said.append(f"A part that is cut off goes on to the {other}.")
    if any(s.ghosts for s in laid):
        said.append("A grey bar is a stitch that the first round there goes into.")
    said.append("Each sign stands over the stitches it is worked into.")
    return " ".join(said)


def _lines(piece: WorkedPiece, terms: Terms, letter: Callable[[str], str]) -> Iterator[str]:
    for worked in piece.rounds:
        assert worked.instruction is not None
        count = f" ({worked.made})" if worked.made is not None else ""
        yield f"{worked.label}: {written(worked.instruction, terms, letter)}{count}."


def _key(
    signs: Signs, own: Mapping[str, str], painter: Painter, top: float
) -> tuple[list[tuple[Shape, ...]], float]:
    """Its lines, and where they end."""
    lines: list[tuple[Shape, ...]] = []
    for name, sign, feet, words in entries(signs.defined, signs.together, own):
        tall = sign.tall * UNIT
        high = max(KEY_LINE, tall + 10)
        middle = top + high / 2
        if feet == 1:
            shape: Shape = Use(name, 24, middle - tall / 2)
        else:
            shape = painter.sample(sign, feet, 24.0, middle + 14)
        lines.append((Group((shape,), "edge"), Text(60, middle, words, "label", dy=".36em")))
        top += high
    for css, words in painter.ends_told():
        middle = top + KEY_LINE / 2
        shape = Path((("M", 19, middle - 6), ("L", 31, middle), ("L", 19, middle + 6), ("Z",)), css)
        lines.append((shape, Text(60, middle, words, "label", dy=".36em")))
        top += KEY_LINE
    return lines, top


def _scaled(shapes: Sequence[Shape]) -> tuple[Shape, ...]:
    """The shapes of a sign, from stitch widths to pixels."""
    found: list[Shape] = []
    for shape in shapes:
        if isinstance(shape, Path):
            found.append(Path(tuple(_step(step) for step in shape.steps), shape.css))
        elif isinstance(shape, Text):
            x, y = float(_plain(shape.x)), float(_plain(shape.y))
            found.append(Text(x * UNIT, y * UNIT, shape.words, shape.css, shape.anchor, shape.dy))
    return tuple(found)


def _plain(length: object) -> float:
    assert isinstance(length, int | float)
    return length


def _step(step: tuple[str | float, ...]) -> tuple[str | float, ...]:
    letter, *numbers = step
    if letter == "A":
        rx, ry, turn, large, sweep, x, y = (float(n) for n in numbers)
        return ("A", rx * UNIT, ry * UNIT, turn, large, sweep, x * UNIT, y * UNIT)
    return (letter, *(float(n) * UNIT for n in numbers))
