import pytest

from rendering import proof_of
from roundproof.drawing.bars import (
    MOST_BARS,
    MOST_FRAMED,
    Segment,
    between,
    longest_piece,
    round_bar,
    row_pixels,
    ruler,
    segments,
    silhouette,
    widest_round,
    yarn_bar,
)
from roundproof.drawing.shapes import Drawing, Line, Rect, Share, Spot, Text
from roundproof.drawing.svg import write_svg
from roundproof.drawing.yarns import YarnMark, yarn_marks
from roundproof.fabric.model import WorkedRound
from roundproof.proof import Proof

CONE = """
terms: US
yarns:
  sand: {letter: S, colour: {name: sand, shade: "#d9c7a3"}}
  navy: {letter: N, colour: {name: navy, shade: "#27344f"}}
pieces:
  body:
    yarn: sand
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: inc x 6 (12)
      R3: with sand 6 sc, with navy 6 sc (12)
      R4-R6: sc around (12)
"""


@pytest.fixture
def cone() -> Proof:
    return proof_of(CONE)


def bar(proof: Proof, place: int) -> Drawing:
    worked = proof.fabric.pieces["body"].rounds[place]
    return round_bar(worked, widest_round(proof.fabric), yarn_marks(proof.pattern))


def rects(drawing: Drawing) -> list[Rect]:
    return [shape for shape in drawing.shapes if isinstance(shape, Rect)]


def test_the_widest_round_takes_96_per_cent_and_others_their_share(cone: Proof) -> None:
    (first,), (second,) = rects(bar(cone, 0)), rects(bar(cone, 1))
    assert (first.x, first.width) == (Share(26), Share(48))
    assert (second.x, second.width) == (Share(2), Share(96))


def test_colours_stand_in_working_order_with_their_letters(cone: Proof) -> None:
    drawing = bar(cone, 2)
    assert [r.css for r in rects(drawing)] == ["yarn y1", "yarn y2"]
    letters = [shape.words for shape in drawing.shapes if isinstance(shape, Text)]
    assert letters == ["S", "N"]


def test_a_range_has_a_bar_for_each_round_and_room_for_them(cone: Proof) -> None:
    drawing = bar(cone, 3)
    assert len(rects(drawing)) == 3
    heights = [r.height.value for r in rects(drawing) if isinstance(r.height, Share)]
    assert sum(heights) == pytest.approx(100 - 2 * 2.4)
    worked = cone.fabric.pieces["body"].rounds
    assert row_pixels(worked[3]) is None  # three bars fit in any row


def test_a_round_that_ruffles_is_hatched_on_every_colour(cone: Proof) -> None:
    worked = cone.fabric.pieces["body"].rounds[2]
    drawing = round_bar(worked, 12, yarn_marks(cone.pattern), ruffled=True)
    fills = [r.fill for r in rects(drawing) if r.fill]
    assert fills == ["url(#hatch)", "url(#hatch-y1)", "url(#hatch)", "url(#hatch-y2)"]


def test_a_round_that_could_not_be_read_has_no_bar() -> None:
    proof = proof_of("terms: US\npieces:\n  a: |\n    R1: 6 sc in magic ring (6)\n    R2: blub\n")
    worked = proof.fabric.pieces["a"].rounds[-1]
    assert segments(worked, {}) == ()
    assert round_bar(worked, 6, {}).shapes == ()
    assert between(worked, 6) is None


def test_a_yarn_nobody_knows_is_drawn_bare() -> None:
    proof = proof_of("terms: US\npieces:\n  a: |\n    6 sc in magic ring\n")
    (only,) = segments(proof.fabric.pieces["a"].rounds[0], {})
    assert only == Segment(YarnMark("y0", "", ""), 6)


def test_dotted_sides_stand_where_the_bar_above_ended(cone: Proof) -> None:
    sides = between(cone.fabric.pieces["body"].rounds[0], 12)
    assert sides is not None
    assert [s.x1 for s in sides.shapes if isinstance(s, Line)] == [Share(26), Share(74)]


def test_many_colours_lose_their_edges_and_very_many_their_order() -> None:
    few = proof_of(CONE.replace("with sand 6 sc, with navy 6 sc", "(sand 1 sc, navy 1 sc) x 6"))
    drawing = bar(few, 2)
    assert sum("narrow" in r.css for r in rects(drawing)) == 12 > MOST_FRAMED
    assert rects(drawing)[-1].css == "frame"
    crowd = CONE.replace("6 sc in magic ring (6)", "120 sc in magic ring (120)")
    crowd = crowd.replace("inc x 6 (12)", "sc around (120)")
    stripes = "(sand 1 sc, navy 1 sc) x 60 (120)"
    crowd = crowd.replace("with sand 6 sc, with navy 6 sc (12)", stripes)
    many = proof_of(crowd)
    parts = segments(many.fabric.pieces["body"].rounds[2], yarn_marks(many.pattern))
    assert [(p.mark.letter, p.stitches) for p in parts] == [("S", 60), ("N", 60)]


@pytest.mark.parametrize(
    ("widest", "words"), [(1, "1 st"), (6, "1 st"), (9, "2 sts"), (44, "10 sts"), (144, "20 sts")]
)
def test_the_ruler_is_a_round_number_of_stitches(widest: int, words: str) -> None:
    (label,) = [shape.words for shape in ruler(widest).shapes if isinstance(shape, Text)]
    assert label == words


def test_ten_million_stitches_and_five_thousand_rounds_stay_small() -> None:
    text = (
        "terms: US\npieces:\n  vast: |\n    R1: 10000000 sc in magic ring (10000000)\n"
        "    R2-R5001: sc around (10000000)\n  dot: |\n    R1: 6 sc in magic ring (6)\n"
    )
    proof = proof_of(text)
    vast, dot = proof.fabric.pieces["vast"], proof.fabric.pieces["dot"]
    widest = widest_round(proof.fabric)
    assert widest == 10_000_000
    long = round_bar(vast.rounds[1], widest, {})
    assert len(rects(long)) == 1
    assert row_pixels(vast.rounds[1]) == MOST_BARS * 12
    for piece in (vast, dot):
        small = silhouette(piece, widest, longest_piece(proof.fabric), {})
        assert small is not None
        assert len(write_svg(small)) < 20_000
    assert len(write_svg(ruler(widest))) < 2_000


def test_the_bar_of_a_yarn_is_its_share_of_the_longest() -> None:
    drawing = yarn_bar(0.5, YarnMark("y2", "B", "sand"))
    (rect,) = rects(drawing)
    assert (rect.x, rect.width, rect.css) == (Share(27), Share(46), "yarn y2")


def test_a_tab_carries_the_letter_of_a_long_range() -> None:
    proof = proof_of(CONE.replace("R4-R6", "R4-R9"))
    drawing = bar(proof, 3)
    assert sum(isinstance(shape, Spot) for shape in drawing.shapes) == 1
    worked: WorkedRound = proof.fabric.pieces["body"].rounds[3]
    assert row_pixels(worked) == 6 * 12
