import re
from itertools import product
from pathlib import Path

import pytest

from roundproof.drawing.colour import (
    BLACK,
    GROUNDS,
    WHITE,
    Ground,
    accent,
    contrast,
    grey,
    luminance,
    mix,
    on,
    pale,
    read_shade,
    write_shade,
)

TOKENS = (Path(__file__).parents[2] / "theme/css/tokens.css").read_text("utf-8")
SHADES = [(r, g, b) for r, g, b in product(range(0, 256, 51), repeat=3)]


def test_luminance_weighs_the_three_colours_as_wcag_defines_it() -> None:
    # W3C, Web Content Accessibility Guidelines 2.2, definition of relative luminance:
    # L = 0.2126 R + 0.7152 G + 0.0722 B, 0 for the darkest black and 1 for the lightest white.
    assert luminance((255, 0, 0)) == pytest.approx(0.2126)
    assert luminance((0, 255, 0)) == pytest.approx(0.7152)
    assert luminance((0, 0, 255)) == pytest.approx(0.0722)
    assert (luminance(BLACK), luminance(WHITE)) == (0, pytest.approx(1))


def test_contrast_runs_from_1_to_21() -> None:
    # The same, definition of contrast ratio: (L1 + 0.05) / (L2 + 0.05), from 1:1 to 21:1.
    assert contrast(WHITE, WHITE) == 1
    assert contrast(BLACK, WHITE) == contrast(WHITE, BLACK) == pytest.approx(21)


@pytest.mark.parametrize(
    ("shade", "ratio"),
    # Often quoted greys on white: #767676 is the lightest to pass 4.5, #777777 just fails,
    # #595959 is the lightest to pass 7 (from memory).
    [("#767676", 4.54), ("#777777", 4.48), ("#595959", 7.0)],
)
def test_greys_on_white(shade: str, ratio: float) -> None:
    assert contrast(read_shade(shade) or BLACK, WHITE) == pytest.approx(ratio, abs=0.005)


@pytest.mark.parametrize("text", ["", "red", "#12", "#12345", "#12345g", "url(#a)", "#123456; x"])
def test_what_is_no_shade_is_not_read(text: str) -> None:
    assert read_shade(text) is None


def test_a_shade_is_read_in_both_lengths_and_written_in_one() -> None:
    assert read_shade("#abc") == read_shade("#aabbcc") == (0xAA, 0xBB, 0xCC)
    assert write_shade((0xAA, 0xBB, 0x0C)) == "#AABB0C"


def test_mix_goes_from_one_end_to_the_other() -> None:
    assert mix(BLACK, WHITE, 0) == WHITE
    assert mix(BLACK, WHITE, 1) == BLACK
    assert mix(BLACK, WHITE, 0.5) == (128, 128, 128)


def test_letters_on_any_shade_can_be_read() -> None:
    for shade in SHADES:
        assert contrast(on(shade), shade) >= 4.5, shade
        assert contrast(BLACK, grey(shade)) >= 7, shade


@pytest.mark.parametrize("ground", GROUNDS, ids=lambda g: g.name)
def test_what_is_made_of_any_shade_can_be_read(ground: Ground) -> None:
    for shade in SHADES:
        assert contrast(ground.ink, pale(shade, ground)) >= 4.5, shade
        tone = accent(shade, ground)
        for under in (ground.paper, ground.strip, ground.buff):
            assert contrast(tone, under) >= 7, shade


def tokens(ground: Ground) -> dict[str, str]:
    """The tokens that tokens.css gives a ground; white's are those of the root."""
    start = ":root {" if ground.name == "white" else f':root:where([data-ground="{ground.name}"]'
    block = TOKENS[TOKENS.index(start) :]
    block = block[: block.index("\n}")]
    return dict(re.findall(r"--([a-z0-9-]+): (#[0-9A-Fa-f]{6})", block))


@pytest.mark.parametrize("ground", GROUNDS, ids=lambda g: g.name)
def test_grounds_are_those_of_the_theme(ground: Ground) -> None:
    found = tokens(ground)
    for name, colour in (
        ("ground", ground.paper),
        ("strip-tint", ground.strip),
        ("buff", ground.buff),
        ("ink", ground.ink),
    ):
        assert read_shade(found[name]) == colour


@pytest.mark.parametrize("ground", GROUNDS, ids=lambda g: g.name)
def test_the_theme_s_own_colours_can_be_read_on_all_that_lies_under_them(ground: Ground) -> None:
    found = {name: read_shade(shade) or BLACK for name, shade in tokens(ground).items()}
    under = (ground.paper, ground.strip, ground.buff)
    least = {"ink": 7, "ink-2": 7, "accent": 7, "line": 3}
    for name, ratio in least.items():
        for back in under:
            assert contrast(found[name], back) >= ratio, name
    assert contrast(ground.ink, found["bare-pale"]) >= 4.5


def test_a_reader_s_device_that_is_dark_gets_the_same_values_as_the_choice() -> None:
    blocks = re.findall(r"\{\s*color-scheme: dark;(.*?)\n\s*\}", TOKENS, re.DOTALL)
    assert len(blocks) == 2
    first, second = (" ".join(block.split()) for block in blocks)
    assert first == second
