"""Join diagrams: the two edges of a join laid side by side to scale, each in its own gauge, with
which stitch goes to which; what one is longer than the other is hatched.

There is none where it would mislead: for a knot, for an edge whose count or length is not known,
for one so full that the two cannot be seen beside each other.
"""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.drawing.joining.pair import MOST_CELLS, Pair, Strip, pairs
from roundproof.drawing.joining.words import length_of, verdict_words, words_of
from roundproof.drawing.labels import LINE, RISE, box_of, lines, placed, width_of
from roundproof.drawing.placing.sheet import MARGIN, WIDTH
from roundproof.drawing.shapes import Box, Drawing, Path, Rect, Shape, Text
from roundproof.drawing.sheet import Kind, Sheet
from roundproof.measure.model import Verdict
from roundproof.measure.spacing import partner
from roundproof.proof import Proof

LONG = WIDTH - 4 * MARGIN
"""Units of the longer strip."""
THICK, BETWEEN = 18.0, 40.0
FINEST = 2.6
"""Units of a cell that is drawn; smaller ones are drawn by the fives, tens …"""
MOST_LINES = 120
MOST_SHEETS = 60
HATCH = 5.0

Steps = tuple[tuple[str | float, ...], ...]


def edge_sheets(proof: Proof) -> tuple[Sheet, ...]:
    """A sheet for each join whose edges can be laid side by side, in working order, numbered in
    `part`; the same for either hand."""
    found = zip(range(1, MOST_SHEETS + 1), pairs(proof), strict=False)
    return tuple(_sheet(proof, pair, number) for number, pair in found)


def _sheet(proof: Proof, pair: Pair, number: int) -> Sheet:
    one, two = pair.strips
    scale = LONG / max(one.long, two.long)
    shapes: list[Shape] = []
    y = _heading(shapes, one, MARGIN)
    top = y + LINE + 3
    low = top + THICK + BETWEEN
    shapes += [*_strip(one, scale, top), *_strip(two, scale, low)]
    shapes += [*_numbers(one, scale, top - LINE / 2), *_numbers(two, scale, low + THICK + LINE / 2)]
    shapes += _overhang(pair, scale, (top, low))
    shapes += _lines(pair, scale, top + THICK, low)
    y = _heading(shapes, two, low + THICK + LINE + 3)
    for line in lines(verdict_words(pair), WIDTH - 2 * MARGIN, "strong", 4):
        y += LINE
        shapes.append(Text(_left(), y + RISE, line, "strong", "start"))
    words = words_of(pair)
    id = "-".join(f"edges {proof.pattern.slug} {number}".split())
    title = f"{one.name} and {two.name}, edge to edge"
    box = Box(-WIDTH / 2, 0, WIDTH, round(y + LINE / 2 + MARGIN, 2))
    drawing = Drawing(tuple(shapes), "joining", box, title, id, more=" ".join(words))
    piece = pair.fit.edges[0].piece
    return Sheet(Kind.EDGES, piece, drawing, _caption(pair), words, str(number))


def _left() -> float:
    return -LONG / 2


def _heading(shapes: list[Shape], strip: Strip, y: float) -> float:
    for n, line in enumerate(lines(f"{strip.name}: {length_of(strip)}", WIDTH - 2 * MARGIN)):
        shapes.append(Text(_left(), y + LINE / 2 + RISE, line, "words", "start"))
        y += LINE
        assert n < 3
    return y


# ---- strips ----
def _strip(strip: Strip, scale: float, y: float) -> list[Shape]:
    """A strip with a line between any two cells, a longer one at every fifth or tenth; where it
    runs round a place, its corners are firm."""
    left = _left()
    step, heavy = _steps(strip, scale)
    fine: list[tuple[str | float, ...]] = []
    firm: list[tuple[str | float, ...]] = []
    for cell in range(step, strip.lying, step):
        x = left + strip.edge_of(cell) * scale
        whole = cell % heavy == 0 and len(strip.sections) == 1
        (firm if whole else fine).extend([("M", x, y), ("L", x, y + THICK)])
    corners: list[tuple[str | float, ...]] = []
    cells = 0
    for section in strip.sections[:-1]:
        cells += section.count
        x = left + strip.edge_of(cells) * scale
        corners += [("M", x, y - 4), ("L", x, y + THICK + 4)]
    found = [(fine, "faint"), (firm, "line"), (corners, "edge")]
    shapes: list[Shape] = [Path(tuple(way), css) for way, css in found if way]
    return [*shapes, Rect(left, y, strip.long * scale, THICK, "edge")]


def _steps(strip: Strip, scale: float) -> tuple[int, int]:
    """Cells from line to line, and from one longer line to the next."""
    cell = strip.long * scale / strip.lying
    step = 1
    while cell * step < FINEST:
        step *= 5 if str(step)[0] == "1" else 2
        assert step <= MOST_CELLS
    return (step, 5 if strip.lying <= 60 else 10) if step == 1 else (step, step)


def _numbers(strip: Strip, scale: float, y: float) -> list[Shape]:
    """The first and the last, and every fifth, tenth … between, where there is room. Round a place
    each of its sides is named instead."""
    taken: list[Box] = []
    shapes: list[Shape] = []
    if len(strip.sections) > 1:
        at = 0.0
        for section in strip.sections:
            middle = _left() + (at + section.long / 2) * scale
            what = "sts" if section.what == "stitch" else "rounds" if section.count > 1 else "round"
            what = "st" if what == "sts" and section.count == 1 else what
            for words in (f"{section.count} {what}", f"{section.count}"):
                if (text := placed(words, [(middle, y, "middle")], taken, "words")) is not None:
                    shapes.append(text)
                    taken.append(box_of(text))
                    break
            at += section.long
        return shapes
    every, cell_wide = 1, strip.long * scale / strip.lying
    while cell_wide * every < width_of(f"{strip.lying:,}") + 4:
        every *= 5 if str(every)[0] == "1" else 2
    for cell in dict.fromkeys((1, strip.lying, *range(every, strip.lying, every))):
        x = _left() + strip.middle(cell) * scale
        text = placed(f"{cell:,}", [(x, y, "middle")], taken, "words")
        if text is not None:
            shapes.append(text)
            box = box_of(text)
            taken.append(Box(box.x - 4, box.y, box.width + 8, box.height))
    return shapes


def _overhang(pair: Pair, scale: float, tops: tuple[float, float]) -> list[Shape]:
    """What the longer edge has more, where the two do not simply fit and it is not to be
    gathered."""
    one, two = pair.strips
    if pair.fit.verdict is Verdict.FITS or pair.fit.fullness is not None:
        return []
    longer = 0 if one.long > two.long else 1
    start, end = (_left() + length * scale for length in sorted((one.long, two.long)))
    y = tops[longer]
    if end - start < 0.5:
        return []
    way: list[tuple[str | float, ...]] = []
    at = start - THICK
    while at < end:
        low, high = max(at, start), min(at + THICK, end)
        if high > low:
            way += [("M", low, y + THICK - (low - at)), ("L", high, y + THICK - (high - at))]
        at += HATCH
    limit = (("M", start, tops[0] - 3), ("L", start, tops[1] + THICK + 3))
    return [Path(tuple(way), "hatch"), Path(limit, "dashed")]


# ---- which goes to which ----
def _lines(pair: Pair, scale: float, upper: float, lower: float) -> list[Shape]:
    """From the middle of a stitch to the middle of its partner: all of them where there are few,
    else every so many-th; those that share a stitch are firmer."""
    ends = _corner_lines(pair) if pair.corners else _stitch_lines(pair) if pair.matched else ()
    found: dict[str, list[tuple[str | float, ...]]] = {"faint": [], "line": []}
    for one, two, css in ends:
        found[css] += [("M", _left() + one * scale, upper), ("L", _left() + two * scale, lower)]
    return [Path(tuple(way), css) for css, way in found.items() if way]


def _corner_lines(pair: Pair) -> Iterator[tuple[float, float, str]]:
    one, two = pair.strips
    cells = 0
    for count in (0, *(section.count for section in two.sections)):
        cells += count
        yield one.edge_of(cells), two.edge_of(cells), "line"


def _stitch_lines(pair: Pair) -> Iterator[tuple[float, float, str]]:
    few, many = pair.strips[pair.short], pair.strips[1 - pair.short]
    every = max(1, -(-many.lying // MOST_LINES))
    shared: dict[int, int] = {}
    if many.lying <= MOST_LINES:
        shared = dict(pair.doubles())
    for cell in range(1, many.lying + 1, every):
        goes = partner(cell, many.lying, few.lying)
        ends = (few.middle(goes), many.middle(cell))
        one, two = ends if pair.short == 0 else ends[::-1]
        yield one, two, "line" if goes in shared else "faint"


def _caption(pair: Pair) -> str:
    scale = "each in its own gauge" if pair.strips[0].mm else "as no gauge is given, by the counts"
    unit = LONG / max(strip.long for strip in pair.strips)
    one, two = (_steps(strip, unit)[0] for strip in pair.strips)
    cells = "a cell a stitch" if one == two == 1 else f"a cell up to {max(one, two):,} stitches"
    lines_ = " The lines show which stitches go together." if pair.matched else ""
    corners = " The lines show the corners of the place." if pair.corners else ""
    hatched = pair.fit.verdict is not Verdict.FITS and pair.fit.fullness is None
    over = " What one edge is longer is hatched." if hatched else ""
    return f"Both edges laid open side by side to scale, {scale}; {cells}.{lines_}{corners}{over}"
