from collections.abc import Iterator
from itertools import combinations
from math import cos, hypot, pi, sin

import pytest

from drawing.every_sheet import SLUGS, proof, proof_in, sheets
from rendering import proof_of
from roundproof.drawing.labels import SIZE, box_of, meet, texts
from roundproof.drawing.looks import looks
from roundproof.drawing.placing.host import hosts
from roundproof.drawing.placing.ring import figures, ring_height, rings
from roundproof.drawing.placing.sheet import HIGHEST, placement_sheets
from roundproof.drawing.shapes import Circle, Group, Path, Shape
from roundproof.drawing.sheet import Kind, Sheet
from roundproof.drawing.svg import write_file
from roundproof.fabric.stands import stands

BEAST = """
terms: US
yarns:
  slate:
    colour: {name: slate, shade: "#6d7680"}
    gauge: 20 sts x 20 rounds = 10 cm
notions:
  - {item: safety eyes, size: 6 mm, count: 2, hazard: small part}
pieces:
  body:
    yarn: slate
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: inc x 6 (12)
      R3: (sc, inc) x 6 (18)
      R4: (2 sc, inc) x 6 (24)
      Mark front between sts 8 and 9.
      R5-R16: sc around (24)
  leg:
    make: 4
    yarn: slate
    rounds: |
      R1: 4 sc in magic ring (4)
      R2-R9: sc around (4)
  tail:
    yarn: slate
    rounds: |
      R1: 8 sc in magic ring (8)
assembly:
  - place: {item: safety eyes, piece: body, between: [R6, R7], around: {mark: front, apart: 4}}
  - join:
      {edge: leg, to: body, at: {between: [R14, R15], stitches: 2}, around: {evenly: 4, from: st 1},
       fold: flat, by: whipstitch}
  - join: {edge: tail, to: body, at: {footprint: R10-R11, stitches: 2}, by: whipstitch}
  - embroider:
      piece: body
      lines:
        - {name: mouth, stitch: backstitch, from: R9 st 8, to: R9 st 9}
"""


def sheet_of(text: str, **more: bool) -> Sheet:
    (sheet,) = placement_sheets(proof_of(text), **more)
    return sheet


def every(shapes: tuple[Shape, ...]) -> Iterator[Shape]:
    for shape in shapes:
        if isinstance(shape, Group):
            yield from every(shape.shapes)
        yield shape


def written(sheet: Sheet) -> list[str]:
    return [text.words for text in texts(sheet.drawing.shapes)]


def file_of(sheet: Sheet) -> str:
    return write_file(sheet.drawing, looks({}))


# ---- what is told ----
def test_the_words_are_good_enough_to_work_from() -> None:
    assert sheet_of(BEAST).words == (
        "Stitches are counted in the direction of work from the start of the round; rounds from the"
        " start of the piece.",
        "The mark front: between stitches 8 and 9 of R4 of Body, 24 stitches.",
        "a. Safety eyes (2): between R6 and R7 of Body, 4 stitches free between them, centred on"
        " the mark front: after stitches 6 and 10 of R6, which has 24 stitches.",
        "b. Leg (4): between R14 and R15 of Body, each 2 stitches wide, 4 stitches free after each:"
        " stitches 1 to 2, 7 to 8, 13 to 14 and 19 to 20 of R14, which has 24 stitches.",
        "c. Tail: on R10 to R11 of Body; at which stitches is not said.",
        "d. Mouth, backstitch: from stitch 8 of R9 to stitch 9 of R9 of Body.",
    )


def test_the_drawing_says_the_same_in_figures() -> None:
    sheet = sheet_of(BEAST)
    assert (sheet.kind, sheet.piece, sheet.part) == (Kind.PLACES, "body", "")
    said = written(sheet)
    assert {"a 6|7", "a 10|11", "b 1–2", "b 7–8", "b 13–14", "b 19–20", "d 8", "d 9"} <= set(said)
    assert {"Body, start at the top", "from the front", "from the back"} <= set(said)
    # Every round that a step names has its number, in both views.
    for number in (6, 7, 9, 10, 11, 14, 15):
        assert said.count(f"R{number}") >= 2
    assert "Tail, on R10 to R11; stitches not said" in said


def test_a_left_handed_maker_gets_the_mirror_image_with_the_same_numbers() -> None:
    right, left = sheet_of(BEAST), sheet_of(BEAST, mirrored=True)
    assert sorted(written(right)) == sorted(written(left))
    assert "anticlockwise for a right-handed" in right.caption
    assert ", clockwise for a left-handed" in left.caption
    where = [{t.words: t.x for t in texts(s.drawing.shapes)} for s in (right, left)]
    for words in ("a 6|7", "a 10|11", "b 1–2"):
        assert float(str(where[0][words])) * float(str(where[1][words])) < 0


# ---- where it is drawn, against the fabric ----
@pytest.mark.parametrize("mirrored", [False, True])
@pytest.mark.parametrize("slug", SLUGS)
def test_everything_stands_in_its_ring_where_the_fabric_has_it(slug: str, mirrored: bool) -> None:
    """Angles are reckoned here from the stands alone: a share of the round for each stitch, from
    the front at the foot, anticlockwise for the right hand."""
    there = stands(proof(slug).pattern, proof(slug).fabric)
    drawn = placement_sheets(proof(slug), mirrored=mirrored)
    for host in hosts(proof(slug).pattern, proof(slug).fabric):
        mine = [stand for stand in there if stand.host == host.key]
        points = [p for s in drawn if s.piece == host.key for p in _in_rings(s)]
        if not points:
            continue
        for stand in mine:
            angle = 2 * pi * (stand.start / stand.count - host.front)
            side = -1 if mirrored else 1
            at = (side * sin(angle), cos(angle))
            assert any(hypot(x - at[0], y - at[1]) < 1e-6 for x, y in points), stand


def _in_rings(sheet: Sheet) -> Iterator[tuple[float, float]]:
    """Where cells begin and dots are in the rings of a sheet, on a circle of radius 1."""
    for block in sheet.drawing.shapes:
        if not isinstance(block, Group) or any(isinstance(s, Group) for s in block.shapes):
            continue
        middle = ring_height() / 2
        for shape in block.shapes:
            if isinstance(shape, Path) and shape.css == "set" and shape.steps[1][0] == "A":
                _, x, y = shape.steps[0]
            elif isinstance(shape, Circle) and shape.css == "solid":
                x, y = shape.cx, shape.cy
            else:
                continue
            x, y = float(x), float(y) - middle
            yield x / hypot(x, y), y / hypot(x, y)


def test_a_view_is_to_scale() -> None:
    view, body = _front(sheet_of(BEAST))
    size = proof_of(BEAST).measures.pieces["body"]
    xs, ys = ([float(step[n]) for step in body.steps if len(step) > 2] for n in (1, 2))
    assert size.diameter_mm and size.height_mm
    scale, middle = (max(xs) - min(xs)) / size.diameter_mm, (max(xs) + min(xs)) / 2
    assert (max(ys) - min(ys)) / size.height_mm == pytest.approx(scale)
    eyes = [s for s in view.shapes if isinstance(s, Circle) and s.css == "set"]
    assert [eye.r for eye in eyes] == pytest.approx([3 * scale] * 2)  # 6 mm across
    # 2 stitches to either side of the front, on a circle of 24.
    out = size.diameter_mm / 2 * scale * sin(2 * pi * 2 / 24)
    assert sorted(eye.cx - middle for eye in eyes) == pytest.approx([-out, out])
    # A line between R6 and R7 is at the upper edge of R6.
    high = next(r.height_mm for r in size.outline if r.number == 6)
    assert [eye.cy for eye in eyes] == pytest.approx([min(ys) + high * scale] * 2)


def _front(sheet: Sheet) -> tuple[Group, Path]:
    """The view from the front and the outline of the piece in it."""
    groups = [s for s in every(sheet.drawing.shapes) if isinstance(s, Group)]
    for group in groups:
        for shape in group.shapes:
            if isinstance(shape, Path) and shape.css == "edge" and shape.steps[-1] == ("Z",):
                return group, shape
    raise AssertionError("no view")


def test_later_stitches_are_to_the_right_in_a_view_and_in_a_ring() -> None:
    sheet = sheet_of(BEAST.replace("{mark: front, apart: 4}", "{st: 12}"))
    view, body = _front(sheet)
    (eye,) = (s for s in view.shapes if isinstance(s, Circle) and s.css == "set")
    assert eye.cx > sum(float(step[1]) for step in body.steps[:-1]) / (len(body.steps) - 1)
    label = next(t for t in texts(sheet.drawing.shapes) if t.words == "a 11|12")
    assert float(str(label.x)) > 0


def test_first_and_last_stitches_are_counted_from_one() -> None:
    def figure(text: str, what: str) -> list[str]:
        made = proof_of(text)
        return [figures(s) for s in stands(made.pattern, made.fabric) if s.what == what]

    assert figure(BEAST, "leg") == ["1–2", "7–8", "13–14", "19–20"]
    assert figure(BEAST.replace("from: st 1", "from: st 24"), "leg")[0] == "24–1"
    assert figure(BEAST.replace("apart: 4", "apart: 5"), "safety eyes") == ["6", "11"]  # within one


def test_what_would_lie_on_the_same_cells_gets_a_ring_of_its_own() -> None:
    beads = (
        "  - place:\n      {item: beads, piece: body, between: [R8, R9],"
        " around: {mark: front, apart: 4}}\n"
    )
    few, many = (
        hosts(made.pattern, made.fabric)[0] for made in map(proof_of, (BEAST, BEAST + beads))
    )
    assert len(rings(many.items)) == len(rings(few.items)) + 1


# ---- every pattern there is ----
@pytest.mark.parametrize("slug", SLUGS)
def test_no_two_labels_lie_on_one_another_and_none_leaves_the_sheet(slug: str) -> None:
    for sheet in sheets(placement_sheets, slug):
        hold(sheet)


def hold(sheet: Sheet) -> None:
    """What every sheet keeps to."""
    box = sheet.drawing.box
    assert box is not None and box.width * SIZE / 360 <= SIZE  # 12 pixels at 360
    labels = [(text.words, box_of(text)) for text in texts(sheet.drawing.shapes)]
    for (one, a), (two, b) in combinations(labels, 2):
        assert not meet(a, b), (one, two)
    for words, a in labels:
        assert box.x <= a.x and a.x + a.width <= box.x + box.width, words
        assert box.y <= a.y and a.y + a.height <= box.y + box.height, words
    assert sheet.words and sheet.caption


@pytest.mark.parametrize("slug", ["shore-crab", "oystercatcher"])
def test_the_same_pattern_gives_the_same_bytes(slug: str) -> None:
    one, two = ([file_of(s) for s in placement_sheets(proof_in(slug))] for _ in range(2))
    assert one == two and len(set(one)) == len(one)
    ids = [sheet.drawing.id for sheet in placement_sheets(proof(slug))]
    assert len(set(ids)) == len(ids)


def test_a_sheet_goes_on_a_page_and_a_long_one_is_parted() -> None:
    drawn = [s for s in placement_sheets(proof("oystercatcher")) if s.piece == "body"]
    assert [sheet.part for sheet in drawn] == ["", "2"]
    for sheet in drawn:
        assert sheet.drawing.box is not None and sheet.drawing.box.height < HIGHEST + 250


# ---- extremes ----
def test_hostile_names_are_written_as_words() -> None:
    name = '"</svg><script>alert(1)</script>&amp;"'
    text = BEAST.replace("item: safety eyes", f"item: '{name}'").replace(
        "  body:\n", "  body:\n    name: '<b>]]>Body&</b>'\n"
    )
    svg = file_of(sheet_of(text))
    assert "<script" not in svg and "<b>" not in svg and "&lt;script" in svg


@pytest.mark.parametrize(
    "around",
    [
        "{evenly: 0}",
        "{evenly: 1000}",
        "{evenly: 24}",
        "{st: 9999}",
        "{free: [0]}",
        "{mark: nowhere}",
    ],
)
def test_odd_numbers_of_copies_give_a_small_drawing(around: str) -> None:
    text = BEAST.replace("{evenly: 4, from: st 1}", around)
    for sheet in placement_sheets(proof_of(text)):
        hold(sheet)
        assert len(file_of(sheet)) < 60_000


@pytest.mark.parametrize("count", [0, 1, 1000, 2000])
def test_very_many_things_on_a_wide_round(count: int) -> None:
    wide = BEAST.replace("(2 sc, inc) x 6 (24)", "200 sc in each st (3600)")
    wide = wide.replace("(24)", "(3600)")
    text = wide.replace("{evenly: 4, from: st 1}", f"{{evenly: {count}}}")
    for sheet in placement_sheets(proof_of(text)):
        hold(sheet)
        assert len(file_of(sheet)) < 120_000
        assert sum(map(len, sheet.words)) < 6_000


def test_ten_million_stitches_are_told_in_arcs() -> None:
    vast = BEAST.replace("(2 sc, inc) x 6 (24)", "500000 sc in each st (9000000)").replace(
        "(24)", "(9000000)"
    )
    for sheet in placement_sheets(proof_of(vast)):
        hold(sheet)
        assert len(file_of(sheet)) < 60_000


@pytest.mark.parametrize("rounds", [300, 5_000_000])
def test_very_many_rounds(rounds: int) -> None:
    for sheet in placement_sheets(proof_of(BEAST.replace("R5-R16", f"R5-R{rounds}"))):
        hold(sheet)
        assert len(file_of(sheet)) < 60_000


def test_a_piece_without_a_gauge_is_drawn_from_its_counts() -> None:
    sheet = sheet_of(BEAST.replace("    gauge: 20 sts x 20 rounds = 10 cm\n", ""))
    assert "from the counts alone" in sheet.caption
    hold(sheet)


def test_an_oval_whose_front_is_not_said_is_not_drawn_from_a_side() -> None:
    (sheet,) = (s for s in placement_sheets(proof("cuttlefish")) if s.piece == "mantle")
    assert not any("from the front" in words or "side" in words for words in written(sheet))
    assert "a 14–22" in written(sheet)


def test_pieces_on_which_nothing_is_set_have_no_sheet() -> None:
    assert placement_sheets(proof("sea-urchin")) == ()
