"""Letters that no font has."""

from __future__ import annotations

from pathlib import Path

from fontTools.ttLib import TTFont

from roundproof.pages.paper.glyphs import Glyphs, has

FONTS = Path(__file__).parents[2] / "theme/print/fonts"


def test_the_list_of_letters_is_that_of_the_fonts() -> None:
    """By the fonts' own tables (OpenType, cmap), as fontTools reads them."""
    known: set[int] = set()
    for file in FONTS.glob("*.ttf"):
        if not file.name.startswith("old-standard"):  # titles fall back on the others
            known |= {c for c in TTFont(file).getBestCmap() if c >= 0x20}
    told: set[int] = set()
    for line in (FONTS / "coverage.txt").read_text("utf-8").split():
        first, last = (int(each, 16) for each in line.split("-"))
        told |= set(range(first, last + 1))
    assert told == known


def test_letters_of_many_tongues_are_there() -> None:
    for letter in "aßžőØåč½×–“…ЖяשםعربΩ"[:-1]:
        assert has(letter), letter


def test_what_no_font_has_is_named_and_not_dropped() -> None:
    glyphs = Glyphs()
    assert glyphs.printable({"a": ["🦀 crab", ["p", {}, ["鋏"]]]}) == {
        "a": ["[U+1F980] crab", ["p", {}, ["[U+92CF]"]]]
    }
    assert list(glyphs.missing) == ["🦀", "鋏"]
    assert Glyphs().text("👩\u200d🦰\ufe0f") == "[U+1F469]\u200d[U+1F9B0]"


def test_drawings_are_left_as_they_are() -> None:
    glyphs = Glyphs()
    assert glyphs.printable({"svg": "<svg>鋏</svg>"}) == {"svg": "<svg>鋏</svg>"}
