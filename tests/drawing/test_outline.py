import pytest

from rendering import proof_of
from roundproof.drawing.outline import HALF, LARGER, length_words, outline
from roundproof.drawing.profile import MOST_RINGS, Profile, profile
from roundproof.drawing.shapes import Circle, Path, Text
from roundproof.drawing.svg import write_svg
from roundproof.drawing.yarns import yarn_marks
from roundproof.measure.model import Form
from roundproof.proof import Proof

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


def test_without_a_gauge_the_profile_comes_from_the_counts() -> None:
    proof = proof_of(TUBE.replace("    gauge: 20 sts x 20 rounds = 10 cm\n", ""))
    shape = shape_of(proof, "tube", measured=False)
    assert not shape.measured
    assert shape.width == pytest.approx(12 / 3.14159, abs=0.01)  # in stitches
    drawn = outline(shape, "tube-outline", "Tube")
    assert drawn is not None
    assert not drawn.ruled
    assert not any(isinstance(s, Text) and "cm" in s.words for s in drawn.drawing.shapes)


def test_the_outline_fills_its_box_over_a_ruler_in_whole_divisions() -> None:
    drawn = outline(shape_of(proof_of(TUBE), "tube"), "tube-outline", "Tube")
    assert drawn is not None
    assert not drawn.above
    dots = [shape for shape in drawn.drawing.shapes if isinstance(shape, Circle)]
    assert len(dots) == 2 * 10
    assert max(dot.cx for dot in dots) <= HALF
    words = [shape.words for shape in drawn.drawing.shapes if isinstance(shape, Text)]
    assert "0" in words
    assert any(word.endswith(" cm") for word in words)


def test_flat_pieces_are_drawn_from_above() -> None:
    disc = TUBE.replace("R3-R10: sc around (12)", "R3: (sc, inc) x 6 (18)")
    shape = shape_of(proof_of(disc), "tube")
    assert shape.flat
    drawn = outline(shape, "disc", "Disc")
    assert drawn is not None
    assert drawn.above
    lines = [s for s in drawn.drawing.shapes if isinstance(s, Path)]
    assert len(lines) == 3 + 1  # the rounds and the ruler


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


def test_a_small_piece_is_not_blown_up_beyond_its_share() -> None:
    shape = shape_of(proof_of(TUBE), "tube")
    alone = outline(shape, "a", "A")
    beside = outline(shape, "a", "A", across=10 * shape.width)
    assert alone and beside

    def reach(shapes: object) -> float:
        assert isinstance(shapes, tuple)
        return max(s.cx for s in shapes if isinstance(s, Circle))

    # Alone it is held by its height; beside a wide piece by a tenth of that one's width.
    assert reach(beside.drawing.shapes) == pytest.approx(HALF * LARGER / 10, abs=0.1)
    assert reach(beside.drawing.shapes) < reach(alone.drawing.shapes)


def test_five_thousand_rounds_are_drawn_with_few_rings() -> None:
    long = TUBE.replace("R3-R10", "R3-R5002")
    proof = proof_of(long)
    for measured in (True, False):
        shape = shape_of(proof, "tube", measured=measured)
        assert len(shape.rings) <= MOST_RINGS + 3
        assert shape.every >= 5000 // MOST_RINGS
        drawn = outline(shape, "tube", "Tube")
        assert drawn is not None
        assert len(write_svg(drawn.drawing)) < 30_000


@pytest.mark.parametrize(
    ("millimetres", "words"), [(5, "5 mm"), (10, "1 cm"), (60, "6 cm"), (1200, "1.2 m")]
)
def test_lengths_are_told_in_the_unit_a_maker_uses(millimetres: float, words: str) -> None:
    assert length_words(millimetres) == words
