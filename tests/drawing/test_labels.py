from itertools import pairwise

import pytest
from PIL import ImageFont

from conftest import ROOT
from roundproof.drawing.labels import (
    SIZE,
    box_of,
    cut,
    lines,
    meet,
    placed,
    spread_out,
    texts,
    width_of,
)
from roundproof.drawing.shapes import Box, Group, Text

FONTS = ROOT / "theme" / "fonts"
LETTERS = [chr(code) for code in (*range(0x20, 0x7F), *range(0xA0, 0x100), 0x2013, 0x2026)]


@pytest.mark.parametrize(
    ("css", "file"),
    [("words", "andika-latin-400-normal.woff2"), ("strong", "andika-latin-700-normal.woff2")],
)
def test_no_letter_of_the_themes_font_is_wider_than_it_is_taken_for(css: str, file: str) -> None:
    font = ImageFont.truetype(str(FONTS / file), 1000)
    wider = [c for c in LETTERS if font.getlength(c) / 1000 * SIZE > width_of(c, css) + 0.01]
    # Rare signs alone; words are never made of them.
    assert not {c for c in wider if c.isalnum() or c in " .,:;|()–-~…"}


def test_words_go_to_the_first_spot_where_nothing_is() -> None:
    there = Box(-20, -10, 40, 20)
    text = placed("R7", [(0, 0, "middle"), (30, 0, "start")], [there], "words")
    assert text is not None and text.x == 30 and not meet(box_of(text), there)
    assert placed("R7", [(0, 0, "middle")], [there], "words") is None


def test_labels_stay_apart_and_in_order_and_near() -> None:
    found = spread_out([10, 11, 12, 60, 100, 100], 14, 0, 107)
    assert all(b - a >= 14 - 1e-9 for a, b in pairwise(found))
    assert found[0] == pytest.approx(0, abs=5) and found[3] == 60
    assert max(found) <= 107


def test_long_words_are_cut_or_broken() -> None:
    assert cut("safety eyes", 200) == "safety eyes"
    short = cut("a landmark with a very long name", 60)
    assert short.endswith("…") and width_of(short) <= 60
    broken = lines("one two three four five six seven eight", 60, most=3)
    assert len(broken) == 3 and all(width_of(line) <= 60 for line in broken)
    assert broken[-1].endswith("…")


def test_words_in_a_group_are_where_the_group_is() -> None:
    (text,) = texts([Group((Text(1, 2, "a"),), x=10, y=20)])
    assert (text.x, text.y) == (11, 22)
