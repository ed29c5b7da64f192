"""Letters that no font has."""

from __future__ import annotations

import re
from pathlib import Path

from fontTools.ttLib import TTFont

from roundproof.letters import has
from roundproof.pages.paper.glyphs import Glyphs

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


def test_each_font_goes_by_a_name_of_its_own() -> None:
    """Typst takes one font of a name and weight: what only a second of them has would come from
    whatever font happens to have it."""
    told = re.search(r"#let fonts = \((.*?)\)", (FONTS.parent / "parts.typ").read_text("utf-8"))
    assert told is not None
    named = re.findall(r'"(.*?)"', told[1])
    fonts = [TTFont(file) for file in FONTS.glob("*.ttf")]
    kinds = [
        (font["name"].getBestFamilyName(), font["OS/2"].usWeightClass, font["post"].italicAngle)
        for font in fonts
    ]
    assert len(set(kinds)) == len(kinds)
    assert {family for family, _, _ in kinds} == {*named, "Old Standard TT"}


def test_letters_of_many_tongues_are_there() -> None:
    for letter in "aßžőØåč½⅛₂×–“…→≈≤⌀✓★♀ЖяשםعربΩễ🐚🦀":
        assert has(letter), letter


def test_what_no_font_has_is_named_and_not_dropped() -> None:
    glyphs = Glyphs()
    assert glyphs.printable({"a": ["蟹 crab", ["p", {}, ["鋏"]]]}) == {
        "a": ["[U+87F9] crab", ["p", {}, ["[U+92CF]"]]]
    }
    assert list(glyphs.missing) == ["蟹", "鋏"]
    assert Glyphs().text("r\u030cad") == "\u0159ad"
    assert Glyphs().text("蟹\u200d石\ufe0f") == "[U+87F9]\u200d[U+77F3]"


def test_drawings_are_left_as_they_are() -> None:
    glyphs = Glyphs()
    assert glyphs.printable({"svg": "<svg>鋏</svg>"}) == {"svg": "<svg>鋏</svg>"}
