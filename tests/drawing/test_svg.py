import pytest

from roundproof.drawing.shapes import (
    Box,
    Circle,
    Drawing,
    Group,
    Line,
    Path,
    Rect,
    Share,
    Spot,
    Text,
)
from roundproof.drawing.svg import number, write_svg


def test_lengths_are_user_units_or_per_cent() -> None:
    drawing = Drawing((Rect(Share(12.345), 0, Share(50), 3.0, "yarn y1"),), "bar")
    assert write_svg(drawing) == (
        '<svg class="bar" aria-hidden="true">'
        '<rect class="yarn y1" x="12.35%" y="0" width="50%" height="3"/></svg>'
    )


def test_a_picture_is_named_by_its_title_and_ornament_is_not_read_out() -> None:
    named = write_svg(Drawing((), "plate", Box(0, 0, 2, 1), "A crab", "plate"))
    assert 'role="img" aria-labelledby="plate-title"' in named
    assert '<title id="plate-title">A crab</title>' in named
    assert 'viewBox="0 0 2 1"' in named
    assert 'aria-hidden="true"' in write_svg(Drawing((), "bar"))


def test_words_and_names_are_escaped() -> None:
    evil = '<script>"&'
    drawing = Drawing((Text(0, 0, evil, evil),), evil, title=evil, id=evil)
    svg = write_svg(drawing)
    assert "<script" not in svg
    assert "&lt;script&gt;&quot;&amp;" in svg


def test_every_shape_is_written_and_none_has_a_style() -> None:
    shapes = (
        Line(0, 0, 1, 1, "axis"),
        Circle(0, 0, 2, "eye"),
        Path((("M", 0, 0), ("A", 1, 1, 0, 0, 1, 2.5, -3), ("Z",)), "seam"),
        Group((Rect(0, 0, 1, 1),), "limb", 3, 4, 90),
        Spot(Share(50), Share(50), (Text(0, 0, "A", anchor="middle", dy=".36em"),)),
    )
    svg = write_svg(Drawing(shapes, ""))
    assert 'd="M0 0A1 1 0 0 1 2.5 -3Z"' in svg
    assert 'transform="translate(3 4)rotate(90)"' in svg
    assert '<svg x="50%" y="50%"><text' in svg
    assert "style" not in svg


@pytest.mark.parametrize(
    ("value", "text"),
    [(0, "0"), (-0.001, "0"), (1.5, "1.5"), (2.0, "2"), (1e300, "10000000"), (float("nan"), "0")],
)
def test_numbers_are_short_and_bounded(value: float, text: str) -> None:
    assert number(value) == text
