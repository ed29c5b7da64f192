"""The chart of a piece as a sheet."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from textwrap import wrap

from roundproof.drawing.chart.draw import UNIT, Block, Ends, Painter
from roundproof.drawing.chart.frames import Rings
from roundproof.drawing.chart.key import entries
from roundproof.drawing.chart.layout import sections
from roundproof.drawing.chart.numbers import LETTER, Numbers
from roundproof.drawing.chart.page import boxed, packed
from roundproof.drawing.chart.placed import Section
from roundproof.drawing.chart.signs import drawn, scaled
from roundproof.drawing.chart.used import Signs
from roundproof.drawing.shapes import Drawing, Group, Path, Shape, Text, Use
from roundproof.drawing.sheet import Kind, Sheet
from roundproof.drawing.yarns import Marks
from roundproof.fabric.courses import Course, Ground, courses
from roundproof.fabric.edges import in_rows
from roundproof.fabric.model import WorkedPiece
from roundproof.frozen import dataclass
from roundproof.notation.writer import written
from roundproof.pattern.model import Terms

MOST = 6000
"""Stitches of a piece that is drawn; a larger one has its rounds in words."""
KEY_LEFT = 60.0
"""Where the words of the key begin, in pixels."""
KEY_LINE = 34.0
"""From one line of the key to the next, in pixels, or more where a sign is taller."""


@dataclass(frozen=True, slots=True)
class LaidOut:
    """A piece and where its stitches stand in a chart, which is the same for either hand; `rows`
    for a piece that is worked flat."""

    piece: WorkedPiece
    courses: tuple[Course, ...]
    rows: bool
    numbers: Numbers
    sections: tuple[Section, ...]


def lay_out(piece: WorkedPiece, marks: Marks) -> LaidOut | None:
    """None where a round could not be read, or for more than `MOST` stitches."""
    found = courses(piece, MOST)
    if not found:
        return None
    rows, numbers = in_rows(piece), Numbers(found, marks)
    return LaidOut(piece, found, rows, numbers, sections(found, rows, numbers.wide))


def chart(
    given: LaidOut,
    marks: Marks,
    terms: Terms,
    letter: Callable[[str], str],
    own: Mapping[str, str],
    mirrored: bool = False,
) -> Sheet:
    """`letter` gives the letter of a yarn, `own` the names of the stitches that the pattern
    declares; `mirrored` is for left-handed makers."""
    piece, found, rows, laid = given.piece, given.courses, given.rows, given.sections
    signs, ends = Signs(found), Ends(found[0], found[-1], piece.fastened)
    painter = Painter(signs, marks, given.numbers, mirrored, ends)
    blocks = [
        (_headed(section, rows, part), part) for section in laid for part in painter.blocks(section)
    ]
    sheet = packed(blocks)
    key, high = _key(signs, own, painter, sheet.high + 24, sheet.wide)
    lines = tuple(_lines(piece, terms, marks, letter))
    drawing = Drawing(
        (*sheet.shapes, *(shape for line in key for shape in line)),
        "chart",
        boxed(sheet.wide, high),
        _title(piece, found, rows),
        f"chart-{piece.piece.key}",
        defined=tuple((name, scaled(drawn(sign), UNIT)) for sign, name in signs.defined.items()),
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


def _lines(
    piece: WorkedPiece, terms: Terms, marks: Marks, letter: Callable[[str], str]
) -> Iterator[str]:
    """The rounds in words, with the yarn where it is another one than before."""
    yarn: str | None = None
    for worked in piece.rounds:
        assert worked.instruction is not None
        count = f" ({worked.made})" if worked.made is not None else ""
        text = written(worked.instruction, terms, letter)
        change = worked.yarn != yarn and len(marks) > 1 and worked.yarn in marks
        lead = f"in {marks[worked.yarn].name}: " if change and worked.yarn else ""
        yield f"{worked.label}: {lead}{text}{count}."
        yarn = worked.stretches[-1].yarn if worked.stretches else worked.yarn


def _key(
    signs: Signs, own: Mapping[str, str], painter: Painter, top: float, wide: float
) -> tuple[list[tuple[Shape, ...]], float]:
    """Its lines, and where they end."""
    lines: list[tuple[Shape, ...]] = []
    letters = int((wide - KEY_LEFT) / (LETTER * UNIT))
    for name, sign, feet, words in entries(signs.defined, signs.together, own):
        tall = sign.tall * UNIT
        said = wrap(words, letters) or [""]
        high = max(KEY_LINE * len(said), tall + 10)
        middle = top + high / 2
        if feet == 1:
            shape: Shape = Use(name, 24, middle - tall / 2)
        else:
            shape = painter.sample(sign, feet, 24.0, middle + 14)
        first = middle - KEY_LINE * (len(said) - 1) / 2
        told = (
            Text(KEY_LEFT, first + KEY_LINE * n, line, "label", dy=".36em")
            for n, line in enumerate(said)
        )
        lines.append((Group((shape,), "edge"), *told))
        top += high
    for css, words in painter.ends_told():
        middle = top + KEY_LINE / 2
        shape = Path((("M", 19, middle - 6), ("L", 31, middle), ("L", 19, middle + 6), ("Z",)), css)
        lines.append((shape, Text(KEY_LEFT, middle, words, "label", dy=".36em")))
        top += KEY_LINE
    return lines, top
