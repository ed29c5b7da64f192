"""The signs of stitches in charts."""

import pytest

from roundproof.drawing.shapes import Path
from roundproof.drawing.symbols import KNOWN, symbol
from roundproof.reference import stitches


def marks(stitch: str) -> int:
    return len(symbol(stitch, 20, 40))


@pytest.mark.parametrize(
    ("stitch", "strokes"),
    # JIS L 0201:1995 and the Craft Yarn Council's crochet chart symbols (2018): an oval, open for
    # a chain and filled for a slip stitch; a cross of two strokes; a T of two, and a slash more for
    # each yarn over of double crochet and the taller ones (US names).
    [("ch", 1), ("sl st", 1), ("sc", 2), ("hdc", 2), ("dc", 3), ("tr", 4), ("dtr", 5)],
)
def test_a_sign_has_the_strokes_of_the_published_charts(stitch: str, strokes: int) -> None:
    assert marks(stitch) == strokes


def test_a_slip_stitch_is_filled_and_a_chain_is_not() -> None:
    filled = {s: symbol(s, 20, 12)[0] for s in ("ch", "sl st")}
    assert isinstance(filled["ch"], Path) and "solid" not in filled["ch"].css
    assert isinstance(filled["sl st"], Path) and "solid" in filled["sl st"].css


def test_a_sign_stays_within_its_stitch() -> None:
    for stitch in KNOWN:
        for shape in symbol(stitch, 20, 40):
            assert isinstance(shape, Path)
            for letter, *numbers in shape.steps:
                if letter != "Z":
                    x, y = map(float, numbers)
                    assert 0 <= x <= 20 and 0 <= y <= 40, stitch


def test_stitches_on_which_charts_disagree_have_none() -> None:
    assert [id for id in stitches() if symbol(id, 20, 40)] == list(KNOWN)
