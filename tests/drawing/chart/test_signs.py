"""The signs of stitches in charts."""

from __future__ import annotations

import pytest

from roundproof.drawing.chart.signs import Sign, drawn, known, scaled, tall
from roundproof.drawing.shapes import Path
from roundproof.notation.tree import Loop
from roundproof.reference import stitches


def strokes(kind: str) -> int:
    return len(drawn(Sign(kind)))


@pytest.mark.parametrize(
    ("kind", "count"),
    # JIS L 0201:1995 and the Craft Yarn Council's crochet chart symbols (2018): an oval, open for
    # a chain and filled for a slip stitch; a cross of two strokes; a T of two, and a slash more for
    # each yarn over of double crochet and the taller ones (US names).
    [("ch", 1), ("sl st", 1), ("sc", 2), ("hdc", 2), ("dc", 3), ("tr", 4), ("dtr", 5), ("trtr", 6)],
)
def test_a_sign_has_the_strokes_of_the_published_charts(kind: str, count: int) -> None:
    assert strokes(kind) == count


def test_a_slip_stitch_is_filled_and_a_chain_is_not() -> None:
    filled = {s: drawn(Sign(s))[0] for s in ("ch", "sl st")}
    assert isinstance(filled["ch"], Path) and "solid" not in filled["ch"].css
    assert isinstance(filled["sl st"], Path) and "solid" in filled["sl st"].css


def test_taller_stitches_have_taller_signs() -> None:
    """The heights that the trade's charts suggest: standards 8, from several published keys."""
    order = ["sl st", "ch", "sc", "hdc", "dc", "tr", "dtr", "trtr", "qtr"]
    heights = [tall(kind) for kind in order]
    assert heights == sorted(heights) and len(set(heights)) == len(heights)


def test_loops_and_posts_are_told_apart() -> None:
    forms = [
        Sign("dc"),
        Sign("dc", Loop.FRONT),
        Sign("dc", Loop.BACK),
        Sign("FPdc"),
        Sign("BPdc"),
    ]
    assert len({drawn(form) for form in forms}) == len(forms)


def test_every_stitch_of_the_table_has_a_sign_of_its_own() -> None:
    """What stands for other stitches is drawn as these."""
    kinds = [kind.id for kind in stitches().values() if not kind.made_of]
    unknown = [kind for kind in kinds if not known(kind)]
    assert not unknown
    assert len({drawn(Sign(kind)) for kind in kinds}) == len(kinds)
    for kind in kinds:
        for shape in drawn(Sign(kind)):
            assert isinstance(shape, Path)
            for letter, *numbers in shape.steps:
                if letter != "Z":
                    x, y = map(float, numbers[-2:])
                    assert -0.6 <= x <= 0.6 and -0.1 <= y <= tall(kind) + 0.6, kind


def test_a_stitch_that_a_pattern_invents_has_a_letter() -> None:
    assert not known("frond")
    assert "a" in repr(drawn(Sign("frond", letter="a")))


def test_a_sign_is_scaled_and_moved() -> None:
    (oval,) = scaled(drawn(Sign("ch")), 10, 100, 50)
    assert isinstance(oval, Path)
    assert oval.steps[0] == ("M", 96.0, 52.5)
    assert oval.steps[1][:3] == ("A", 4.0, 2.2)
