import re
from itertools import pairwise
from math import hypot, pi
from pathlib import Path as File

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawing.sheets import every_piece, texts, walk
from rendering import proof_of
from roundproof.drawing.looks import looks
from roundproof.drawing.outlines.rulers import inch_words
from roundproof.drawing.outlines.sheet import HALF, LARGER, outline, outline_sheet
from roundproof.drawing.outlines.side import spread
from roundproof.drawing.outlines.words import STRAY
from roundproof.drawing.profile import MOST_RINGS, Profile, profile
from roundproof.drawing.shapes import Circle, Path, Text
from roundproof.drawing.sheet import Sheet
from roundproof.drawing.svg import write_file, write_svg
from roundproof.drawing.yarns import yarn_marks
from roundproof.measure.model import Flatness, Form
from roundproof.proof import Proof

HERE = File(__file__).parent
HEAD = """
terms: US
yarns:
  slate:
    colour: {name: slate, shade: "#6d7680"}
    weight: 3
    gauge: 20 sts x 20 rounds = 10 cm
"""
TUBE = (
    HEAD
    + """
pieces:
  tube:
    yarn: slate
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: inc x 6 (12)
      R3-R10: sc around (12)
"""
)


def shape_of(proof: Proof, key: str, *, measured: bool = True) -> Profile:
    size = proof.measures.pieces.get(key) if measured else None
    shape = profile(proof.fabric.pieces[key], size, yarn_marks(proof.pattern))
    assert shape is not None
    return shape


def test_a_profile_has_a_ring_for_each_round_in_mm() -> None:
    shape = shape_of(proof_of(TUBE), "tube")
    assert shape.measured
    assert [ring.number for ring in shape.rings] == list(range(1, 11))
    # 12 stitches of 5 mm are 60 mm round and 60 / 3.1416 mm across.
    assert shape.width == pytest.approx(60 / 3.14159, abs=0.01)
    assert shape.rings[-1].height - shape.rings[2].height == pytest.approx(7 * 5)
    assert not shape.flat


def sheet_of(text: str, key: str = "tube", across: float = 0.0) -> Sheet:
    proof = proof_of(text)
    size = proof.measures.pieces.get(key)
    found = outline_sheet(proof.fabric.pieces[key], size, yarn_marks(proof.pattern), across, "a")
    assert found is not None
    return found


def paths(sheet: Sheet, css: str) -> list[Path]:
    return [s for s in walk(sheet.drawing.shapes) if isinstance(s, Path) and s.css == css]


def points(path: Path) -> list[tuple[float, float]]:
    """Where the steps of a path lead, worked out anew."""
    x = y = 0.0
    found = []
    for letter, *numbers in path.steps:
        match letter, [float(n) for n in numbers]:
            case "M", [to_x, to_y]:
                x, y = to_x, to_y
            case (("m" | "l"), [dx, dy]):
                x, y = x + dx, y + dy
            case "h", [dx]:
                x += dx
            case "v", [dy]:
                y += dy
        found.append((round(x, 3), round(y, 3)))
    return found


def test_without_a_gauge_the_profile_comes_from_the_counts() -> None:
    text = TUBE.replace("    gauge: 20 sts x 20 rounds = 10 cm\n", "")
    shape = shape_of(proof_of(text), "tube", measured=False)
    assert not shape.measured
    assert shape.width == pytest.approx(12 / 3.14159, abs=0.01)  # in stitches
    drawn = outline(shape, "Tube")
    assert drawn is not None
    assert not any("cm" in words or "in" in words for words in texts(drawn.sheet))
    assert "from the counts alone" in drawn.sheet.caption
    assert "3.8 across" in drawn.sheet.words[-1]


def test_a_side_view_is_to_scale() -> None:
    """12 stitches of 5 mm lie in a circle of 60 mm, 19.1 mm across; eight rounds are 40 mm high."""
    sheet = sheet_of(TUBE)
    (edge,) = paths(sheet, "edge")
    xs, ys = zip(*points(edge), strict=True)
    assert (max(xs) - min(xs)) / (max(ys) - min(ys)) == pytest.approx(
        (60 / pi) / shape_of(proof_of(TUBE), "tube").height, abs=0.01
    )
    assert max(xs) == pytest.approx(-min(xs))


def test_a_dot_stands_at_both_ends_of_every_round() -> None:
    (dots,) = paths(sheet_of(TUBE), "dots")
    assert len(set(points(dots))) == 2 * 10


def test_rounds_are_numbered_first_fifth_tenth_and_last() -> None:
    words = texts(sheet_of(TUBE))
    assert [w for w in words if re.fullmatch(r"R\d+", w)] == ["R1", "R5", "R10"]
    longer = texts(sheet_of(TUBE.replace("R3-R10", "R3-R64")))
    every_tenth = [f"R{n}" for n in range(10, 61, 10)]
    assert [w for w in longer if re.fullmatch(r"R\d+", w)] == ["R1", *every_tenth, "R64"]


def test_numbers_never_overlap_and_stay_in_the_box() -> None:
    for slug, sheet in every_outline():
        box = sheet.drawing.box
        assert box is not None
        numbers = [t for t in walk_texts(sheet) if re.fullmatch(r"R\d+", t.words)]
        for one, other in pairwise(sorted(numbers, key=lambda t: float(str(t.y)))):
            assert float(str(other.y)) - float(str(one.y)) >= 13.9, slug
        for text in walk_texts(sheet):
            assert box.x < float(str(text.x)) < box.x + box.width, slug
            assert box.y < float(str(text.y)) < box.y + box.height, slug


def test_both_rulers_are_as_long_as_they_say() -> None:
    """The inch is 25.4 mm exactly (international yard and pound agreement, 1959)."""
    measured = 0
    for slug, sheet in every_outline():
        shape, scale = scale_of(sheet)
        words = {t.words: t for t in walk_texts(sheet)}
        ends = [t for t in walk_texts(sheet) if t.words == "0"]
        if not shape.measured:
            assert not ends
            continue
        measured += 1
        assert len(ends) == 2, slug
        for zero in ends:
            end = next(
                t for t in walk_texts(sheet) if t.y == zero.y and t is not zero and t.words in words
            )
            told = millimetres(end.words)
            assert float(str(end.x)) - float(str(zero.x)) == pytest.approx(told * scale, rel=0.002)
        units = {t.words.split("\u00a0")[1] for t in walk_texts(sheet) if "\u00a0" in t.words}
        assert "in" in units and units & {"mm", "cm", "m"}, slug
    assert measured > 100


def millimetres(words: str) -> float:
    number, unit = words.split("\u00a0")
    parts = {"¼": 0.25, "½": 0.5, "¾": 0.75}
    if "/" in number:
        over, under = number.split("/")
        value = int(over) / int(under)
    else:
        whole = number.rstrip("¼½¾")
        value = float(whole or 0) + parts.get(number[-1], 0)
    return value * {"mm": 1, "cm": 10, "m": 1000, "in": 25.4}[unit]


def scale_of(sheet: Sheet) -> tuple[Profile, float]:
    """The profile that a sheet was made of, and its units a mm, from the drawn edge."""
    shape = _SHAPES[sheet.drawing.id]
    edge = next(s for s in walk(sheet.drawing.shapes) if "edge" in getattr(s, "css", ""))
    if isinstance(edge, Circle):
        return shape, 2 * edge.r / shape.width
    assert isinstance(edge, Path)
    if any(step[0] == "A" for step in edge.steps):
        straight = next(float(step[1]) for step in edge.steps if step[0] == "L")
        radius = next(float(step[1]) for step in edge.steps if step[0] == "A")
        return shape, 2 * (straight + radius) / shape.width
    xs, ys = zip(*points(edge), strict=True)
    wide, high = max(xs) - min(xs), max(ys) - min(ys)
    if wide > high:
        return shape, wide / shape.width
    return shape, high / (shape.height + shape.tip)


_SHAPES: dict[str, Profile] = {}
_SHEETS: list[tuple[str, Sheet]] = []


def every_outline() -> list[tuple[str, Sheet]]:
    """The outlines of all pieces that there are."""
    if not _SHEETS:
        for slug, proof, piece in every_piece():
            size = proof.measures.pieces.get(piece.piece.key)
            name = f"{slug}/{piece.piece.key}"
            sheet = outline_sheet(piece, size, yarn_marks(proof.pattern), 0.0, name)
            shape = profile(piece, size, yarn_marks(proof.pattern))
            if sheet is not None and shape is not None:
                _SHEETS.append((name, sheet))
                _SHAPES[name] = shape
    return _SHEETS


def walk_texts(sheet: Sheet) -> list[Text]:
    return [s for s in walk(sheet.drawing.shapes) if isinstance(s, Text)]


def test_a_tall_piece_has_its_height_beside_it_in_both_systems() -> None:
    words = texts(sheet_of(TUBE))
    assert "4.3\u00a0cm" in words
    assert "1¾\u00a0in" in words


def test_flat_pieces_are_drawn_from_above() -> None:
    disc = TUBE.replace("R3-R10: sc around (12)", "R3: (sc, inc) x 6 (18)")
    shape = shape_of(proof_of(disc), "tube")
    assert shape.flat
    drawn = outline(shape, "Disc")
    assert drawn is not None
    assert drawn.above
    shapes = list(walk(drawn.sheet.drawing.shapes))
    lines = [s for s in shapes if isinstance(s, Circle) and "band" not in s.css]
    assert [round(s.r / HALF, 3) for s in lines] == pytest.approx([1 / 3, 2 / 3, 1], abs=0.01)


def test_an_oval_has_straight_sides() -> None:
    oval = HEAD + (
        "pieces:\n  shell:\n    yarn: slate\n    rounds: |\n"
        "      R1: Ch 7. Sc in 2nd ch from hook, sc 4, 3 sc in last ch,"
        " working on the other side sc 4, 2 sc in last ch (14)\n"
        "      R2: inc, 4 sc, inc x 3, 4 sc, inc x 2 (20)\n"
    )
    shape = shape_of(proof_of(oval), "shell")
    assert shape.form is Form.OVAL
    assert shape.straight > 0
    assert shape.width > shape.depth
    assert "Starts along a line of 2\u00a0cm" in sheet_of(oval, "shell").words[1]


def test_a_small_piece_is_not_blown_up_beyond_its_share() -> None:
    shape = shape_of(proof_of(TUBE), "tube")
    alone, beside = sheet_of(TUBE), sheet_of(TUBE, across=10 * shape.width)

    def reach(sheet: Sheet) -> float:
        return max(x for x, _ in points(paths(sheet, "edge")[0]))

    # Alone it is held by its height; beside a wide piece by a tenth of that one's width.
    assert reach(beside) == pytest.approx(HALF * LARGER / 10, abs=0.1)
    assert reach(beside) < reach(alone)


# ---- how rounds lie, and yarns ----
FRILL = (
    HEAD
    + """  chalk:
    colour: {name: chalk, shade: "#eceae4"}
    weight: 3
    gauge: 20 sts x 20 rounds = 10 cm
pieces:
  cup:
    yarn: slate
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: inc x 6 (12)
      R3: (sc, inc) x 6 (18)
      R4-R6: sc around (18)
      Change to chalk.
      R7-R9: sc around (18)
      R10: inc around (36)
"""
)


def test_how_rounds_lie_is_hatched_and_said_with_the_rounds() -> None:
    sheet = sheet_of(FRILL, "cup")
    size = proof_of(FRILL).measures.pieces["cup"]
    lies = [r.flatness for r in size.outline]
    assert lies[-1] is Flatness.RUFFLED and Flatness.CONE in lies
    words = texts(sheet)
    for flatness in set(lies):
        numbers = [r.number for r in size.outline if r.flatness is flatness]
        line = next(w for w in words if w.startswith(flatness))
        assert numbers_in(line) == numbers
    assert len(paths(sheet, "hatch")) >= 2  # on the piece, and in the key
    assert any("frill: R10" in w for w in words)


def numbers_in(line: str) -> list[int]:
    found: list[int] = []
    for first, last in re.findall(r"R(\d+)(?:-R(\d+))?", line):
        found += range(int(first), int(last or first) + 1)
    return found


def test_every_round_is_in_the_key_and_in_the_words_once() -> None:
    for slug, sheet in every_outline():
        shape = _SHAPES[sheet.drawing.id]
        numbers = [ring.number for ring in shape.whole]
        told = [n for line in sheet.words[2:] for n in numbers_in(line.split(":")[0].split(",")[0])]
        if shape.measured:
            assert told == numbers, slug


def test_a_band_for_each_yarn_has_its_tone_and_its_letter() -> None:
    sheet = sheet_of(FRILL, "cup")
    bands = [s for s in walk(sheet.drawing.shapes) if isinstance(s, Path) and "band" in s.css]
    assert [band.css for band in bands] == ["band y1", "band y2"]
    assert {"A", "B"} <= set(texts(sheet))
    # The second begins where R6 ends.
    shape = shape_of(proof_of(FRILL), "cup")
    share = shape.whole[5].height / shape.height
    tall = max(y for _, y in points(bands[1]))
    assert min(y for _, y in points(bands[1])) == pytest.approx(share * tall, abs=0.3)


@given(st.lists(st.floats(0, 300), max_size=20))
def test_letters_beside_a_piece_keep_their_order_and_their_distance(wanted: list[float]) -> None:
    places = spread(sorted(wanted), 13.5, -10, 310)
    assert all(b - a >= 13.5 - 1e-6 for a, b in pairwise(places))
    assert all(-10 - 1e-6 <= place <= 310 + 1e-6 for place in places)
    if all(b - a >= 13.5 for a, b in pairwise(sorted(wanted))):
        assert places == pytest.approx(sorted(wanted))


def test_letters_that_crowd_stand_round_their_middle() -> None:
    assert spread([50, 50, 50], 10, 0, 100) == [40, 50, 60]


# ---- words ----
def test_the_words_of_a_tube() -> None:
    assert "\n".join(sheet_of(FRILL, "cup").words).replace("\u00a0", " ") == WORDS


WORDS = """\
Cup, from the side: 3.9 cm (1½ in) across, 3.4 cm (1¼ in) high before stuffing.
Starts from a point.
R1-R3, A slate, flat: widens to 2.9 cm (1¼ in) across, 4.5 mm (0.2 in) from the start.
R4, A slate, cupped: stays 2.9 cm (1¼ in) across, 9.5 mm (0.4 in) from the start.
R5-R6, A slate, cone: stays 2.9 cm (1¼ in) across, 1.9 cm (0.8 in) from the start.
R7-R9, B chalk, cone: stays 2.9 cm (1¼ in) across, 3.4 cm (1¼ in) from the start.
R10, B chalk, ruffled, a gentle frill: widens to 3.9 cm (1½ in) across, 3.4 cm (1¼ in) from the \
start."""


def test_the_outline_can_be_drawn_from_its_words() -> None:
    """No ring lies farther from what the words say than the share that they are allowed, and what
    rounding to a millimetre takes."""
    for slug, sheet in every_outline():
        shape = _SHAPES[sheet.drawing.id]
        if not shape.measured:
            continue
        told = [(shape.opening + shape.straight / 2, 0.0)]
        for line in sheet.words[2:]:
            found = re.search(r"(?:to|stays) ([^(]+) \(.*?\) (?:wide|across), ([^(]+) \(", line)
            if found:
                wide, far = (millimetres(words) for words in found.groups())
                told.append((wide / 2, far))
        allowed = STRAY * max(shape.width, shape.height) + 1.0
        for ring in shape.whole:
            at = (ring.radius + shape.straight / 2, ring.height)
            assert min(off(at, a, b) for a, b in pairwise(told)) <= allowed, (slug, ring)


def off(at: tuple[float, float], a: tuple[float, float], b: tuple[float, float]) -> float:
    steps = (n / 50 for n in range(51))
    return min(
        hypot(a[0] + (b[0] - a[0]) * t - at[0], a[1] + (b[1] - a[1]) * t - at[1]) for t in steps
    )


# ---- what is written ----
def test_outlines_are_small_and_the_same_twice() -> None:
    sizes = sorted(len(write_svg(sheet.drawing)) for _, sheet in every_outline())
    assert sizes[len(sizes) // 2] < 3_000
    assert sizes[-1] < 7_000
    one, other = (write_file(sheet_of(FRILL, "cup").drawing, looks({})) for _ in range(2))
    assert one == other


def test_a_small_outline_as_it_is_written() -> None:
    text = HEAD + (
        "pieces:\n  dot:\n    yarn: slate\n    rounds: |\n"
        "      R1: 6 sc in magic ring (6)\n      R2: inc x 6 (12)\n"
    )
    golden = (HERE / "outline.svg").read_text().rstrip()
    assert write_svg(sheet_of(text, "dot").drawing) == golden


def test_hostile_names_stay_words() -> None:
    evil = "</text><script>alert(1)</script>"
    named = FRILL.replace("name: slate", f"name: '{evil}'").replace(
        "  cup:\n", f"  cup:\n    name: '{evil}'\n"
    )
    sheet = sheet_of(named, "cup")
    for text in (write_svg(sheet.drawing), write_file(sheet.drawing, looks({}))):
        assert "<script" not in text
        assert "&lt;script&gt;" in text


def test_five_thousand_rounds_are_drawn_with_few_rings() -> None:
    long = TUBE.replace("R3-R10", "R3-R5002")
    proof = proof_of(long)
    for measured in (True, False):
        shape = shape_of(proof, "tube", measured=measured)
        assert len(shape.rings) <= MOST_RINGS + 3
        drawn = outline(shape, "Tube")
        assert drawn is not None
        assert drawn.dot == shape.every > 1
        assert len(write_svg(drawn.sheet.drawing)) < 7_000


@pytest.mark.parametrize(
    ("millimetres", "words"),
    [(25.4, "1 in"), (63.5, "2½ in"), (6.35, "¼ in"), (9.525, "3/8 in"), (304.8, "12 in")],
)
def test_inches_are_told_as_a_ruler_has_them(millimetres: float, words: str) -> None:
    assert inch_words(millimetres) == words.replace(" ", "\u00a0")
