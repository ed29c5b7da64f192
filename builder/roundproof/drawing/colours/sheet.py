"""The colour map of a piece: its rounds unrolled, a cell for each stitch in the tone of its yarn
and with its letter, the first round at the bottom.

A map is read as the work goes: from right to left in rounds, to and fro in rows, and the other way
round for left-handed makers. Rows stand centred on each other, so that increases and decreases show
by their length. Rounds that are alike are one row.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence

from roundproof.drawing.colours.rows import Row, colour_rows
from roundproof.drawing.colours.words import map_words
from roundproof.drawing.outlines.side import tone
from roundproof.drawing.shapes import (
    Box,
    Drawing,
    Group,
    Letters,
    Path,
    Rect,
    Shape,
    Text,
    compact,
)
from roundproof.drawing.sheet import Kind, Sheet, sheet_id
from roundproof.drawing.yarns import Marks, YarnMark
from roundproof.fabric.model import WorkedPiece

CELL = 16.0
DROP = 4.3
"""From the middle of a letter down to the line it stands on."""
LETTER = 8.6
"""What a heavy letter takes in the widest of the fonts that may stand in."""
NAME = 36
"""Letters of a yarn's name that the key has room for; the words have all of them."""
LINE = 20.0
MOST_NAMED = 60
"""Rounds of one row that an address can name one by one."""

Edges = dict[float, list[tuple[float, float]]]
"""Upright lines: where they stand, and from where to where each part of them goes."""


def colour_map(
    piece: WorkedPiece, marks: Marks, *, mirrored: bool = False, id: str = ""
) -> Sheet | None:
    """None for a piece in which no round has two yarns, or which has too many stitches to be drawn.
    `mirrored` is for left-handed makers: the cells are mirrored, the letters are not."""
    rows = colour_rows(piece, marks)
    if rows is None:
        return None
    right = [_from_right(row, mirrored) for row in rows]
    widest = max(len(row.cells) for row in rows) * CELL
    margin = 10 + LETTER * max(len(row.label) for row in rows)
    half = max(widest / 2 + margin, 150.0)
    high = CELL * len(rows)
    main = Counter(mark for row in rows for mark in row.cells).most_common(1)[0][0]
    shapes: list[Shape] = []
    for place, row in enumerate(rows):
        shapes += _cells(row, high - CELL * (place + 1), right[place], main)
    shapes += _grid(rows, right, high)
    shapes += _labels(rows, right, high)
    for place, row in enumerate(rows):
        shapes += _here(row, high - CELL * (place + 1), half)
    key, below = _key(rows, -half + 4, high + 14)
    words = map_words(piece.piece.name, rows, mirrored)
    name = id or sheet_id(Kind.COLOURS, piece.piece.key)
    box = Box(-half, -8, 2 * half, below + 12)
    drawing = Drawing(
        (*shapes, *key), "drawn colours", box, words[0], name, more=" ".join(words[1:])
    )
    return Sheet(Kind.COLOURS, piece.piece.key, drawing, words[1], words)


def _from_right(row: Row, mirrored: bool) -> bool:
    """Whether a row is worked, and read, from its right-hand end."""
    return row.back == mirrored


def _left(row: Row) -> float:
    return -CELL * len(row.cells) / 2


def _seen(row: Row, from_right: bool) -> Sequence[tuple[YarnMark, int]]:
    """The stretches of one yarn from left to right."""
    return row.stretches[::-1] if from_right else row.stretches


def _here(row: Row, top: float, half: float) -> Iterable[Shape]:
    """What shows a round that the address names."""
    for number in range(row.first, min(row.last, row.first + MOST_NAMED) + 1):
        nth = f"-{chr(96 + row.nth)}" if row.nth > 1 else ""
        yield Group((Rect(2 - half, top, 2 * half - 4, CELL, "here"),), id=f"r{number}{nth}")


def _cells(row: Row, top: float, from_right: bool, main: YarnMark) -> Iterable[Shape]:
    """The letters of all yarns but the `main` one are heavy: a pattern is seen without colour."""
    x = _left(row)
    for mark, count in _seen(row, from_right):
        yield Rect(x, top, count * CELL, CELL, tone(mark))
        x += count * CELL
    seen = [
        (_left(row) + CELL * (place + 0.5), mark)
        for place, mark in enumerate(row.cells[::-1] if from_right else row.cells)
    ]
    for css in ("words", "strong"):
        told = [(at, mark.letter or "?") for at, mark in seen if (mark == main) == (css == "words")]
        if told:
            xs, letters = zip(*told, strict=True)
            yield Letters(xs, top + CELL / 2 + DROP, letters, css)


# ---- lines ----
def _grid(rows: Sequence[Row], right: Sequence[bool], high: float) -> list[Shape]:
    """Thin lines between stitches, firmer ones after every fifth, the firmest after every tenth,
    counted from where a row begins; the ends of rows are firm."""
    thin: Edges = {}
    fifth: Edges = {}
    firm: Edges = {}
    flat: list[tuple[float, float, float]] = []
    for place, row in enumerate(rows):
        top, count = high - CELL * (place + 1), len(row.cells)
        for nth in range(count + 1 if count else 0):
            x = _left(row) + CELL * (count - nth if right[place] else nth)
            lines = firm if nth in (0, count) or nth % 10 == 0 else thin if nth % 5 else fifth
            lines.setdefault(x, []).append((top, top + CELL))
        below = len(rows[place - 1].cells) if place else 0
        flat.append((top + CELL, max(count, below), min(count, below)))
    flat.append((0.0, len(rows[-1].cells), 0))
    steps = [
        step
        for y, wide, _ in flat
        for step in (("M", -CELL * wide / 2, y), ("H", CELL * wide / 2))
        if wide
    ]
    return [
        compact(Path((*_upright(thin), *steps), "thin")),
        *(compact(Path(_upright(edges), css)) for edges, css in _told(fifth, firm)),
    ]


def _told(fifth: Edges, firm: Edges) -> Iterable[tuple[Edges, str]]:
    return ((edges, css) for edges, css in ((fifth, "line"), (firm, "edge")) if edges)


def _upright(edges: Edges) -> tuple[tuple[str | float, ...], ...]:
    """Parts that touch are one line."""
    steps: list[tuple[str | float, ...]] = []
    for x in sorted(edges):
        joined: list[tuple[float, float]] = []
        for top, low in sorted(edges[x]):
            if joined and joined[-1][1] == top:
                joined[-1] = (joined[-1][0], low)
            else:
                joined.append((top, low))
        for top, low in joined:
            steps += [("M", x, top), ("V", low)]
    return tuple(steps)


# ---- words ----
def _labels(rows: Sequence[Row], right: Sequence[bool], high: float) -> list[Shape]:
    """The round's number where it begins, its stitches where it ends."""
    numbers: list[Shape] = []
    counts: list[Shape] = []
    for place, row in enumerate(rows):
        y = high - CELL * (place + 0.5) + DROP
        side = 1 if right[place] else -1
        x = side * (CELL * len(row.cells) / 2 + 6)
        numbers.append(Text(x, y, row.label, "", "" if side > 0 else "end"))
        counts.append(Text(-x, y, f"({len(row.cells)})", "", "end" if side > 0 else ""))
    return [Group(tuple(numbers), "strong"), Group(tuple(counts), "words")]


def _key(rows: Sequence[Row], left: float, top: float) -> tuple[list[Shape], float]:
    """A line for each yarn; with where the key ends."""
    shapes: list[Shape] = []
    for mark in sorted({m for row in rows for m in row.cells}, key=lambda m: (m.letter, m.css)):
        name = mark.name if len(mark.name) <= NAME else mark.name[: NAME - 1] + "…"
        shapes += [
            Rect(left, top, CELL, CELL, tone(mark)),
            Rect(left, top, CELL, CELL, "line"),
            Text(left + CELL / 2, top + CELL / 2 + DROP, mark.letter or "?", "words", "middle"),
            Text(left + CELL + 8, top + CELL / 2 + DROP, name or "yarn not told", "words"),
        ]
        top += LINE
    return shapes, top
