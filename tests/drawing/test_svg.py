import pytest

from roundproof.drawing.looks import looks
from roundproof.drawing.shapes import (
    Box,
    Circle,
    Drawing,
    Group,
    Letters,
    Line,
    Path,
    Rect,
    Share,
    Spot,
    Text,
    compact,
)
from roundproof.drawing.svg import number, write_file, write_svg


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


def test_a_file_has_a_ground_of_its_own_for_light_and_dark() -> None:
    """Or light ink would stand on the white that a browser shows a file on."""
    drawing = Drawing((Line(0, 0, 1, 1, "line"),), "", Box(-5, -2, 20, 10), "A", "a")
    file = write_file(drawing, looks({}))
    ground = '<rect class="paper" fill="#FFFFFF" x="-5" y="-2" width="20" height="10"/>'
    assert f"</style>{ground}<line" in file
    assert ".line{stroke:#E9EFEC}" in file and ".paper{fill:#10191E}" in file
    assert "paper" not in write_svg(drawing)


def test_letters_have_each_their_own_place() -> None:
    letters = Letters((8, 24, 40), 12, ("A", "<", "B"), "words")
    assert write_svg(Drawing((letters,), "")) == (
        '<svg aria-hidden="true"><text class="words" x="8 24 40" y="12" text-anchor="middle">'
        "A&lt;B</text></svg>"
    )


def test_a_path_in_few_letters_leads_to_the_same_places() -> None:
    steps = (("M", 1, 2), ("L", 4, 6.04), ("H", 9), ("V", 1), ("Z",), ("M", 3, 3), ("v", -2))
    found = compact(Path((*steps, ("l", 1, 1), ("h", 0)), "edge"))
    assert found == Path(
        (
            ("M", 1, 2),
            ("l", 3, 4),
            ("h", 5),
            ("v", -5),
            ("z",),
            ("m", 2, 1),
            ("v", -2),
            ("l", 1, 1),
            ("h", 0),
        ),
        "edge",
    )


@pytest.mark.parametrize(
    ("value", "text"),
    [(0, "0"), (-0.001, "0"), (1.5, "1.5"), (2.0, "2"), (1e300, "10000000"), (float("nan"), "0")],
)
def test_numbers_are_short_and_bounded(value: float, text: str) -> None:
    assert number(value) == text
