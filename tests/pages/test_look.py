"""A site's own colours: taken, made to do, or refused."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roundproof.drawing.colour import GROUNDS, RGB, contrast, read_shade, write_shade
from roundproof.pages.look import LABELS, THEME, look

TOKENS = (Path(__file__).parents[2] / "theme/css/tokens.css").read_text("utf-8")
SHADES = st.tuples(*[st.integers(0, 255)] * 3)

# Web Content Accessibility Guidelines 2.2 (W3C): 7 for enhanced text, 3 for the edges of controls.
TEXT, EDGES = 7.0, 3.0


def told(sheet: str, name: str) -> list[RGB]:
    found = [read_shade(shade) for shade in re.findall(rf"--{name}: (#[0-9A-F]{{6}})", sheet)]
    assert None not in found
    return [shade for shade in found if shade]


def test_without_colours_of_its_own_a_site_has_the_theme_s() -> None:
    assert look(None, None) == (THEME, ())
    assert THEME.sheet == "" and THEME.grounds == GROUNDS


def test_the_labels_are_those_of_the_theme() -> None:
    for name, ground in zip(("white", "cream", "dark"), GROUNDS, strict=True):
        block = next(b for b in re.split(r"\n:root", TOKENS) if write_shade(ground.ink) in b)
        captions, boxes = LABELS[name]
        assert f"--ink-2: {write_shade(captions)}" in block
        assert f"--line: {write_shade(boxes)}" in block


@given(SHADES)
def test_one_accent_is_made_to_do_on_every_ground(shade: RGB) -> None:
    made, troubles = look(write_shade(shade), None)
    assert troubles == ()
    accents = told(made.sheet, "accent")
    for accent, ground in zip(accents, (*GROUNDS, GROUNDS[2]), strict=True):
        for under in (ground.paper, ground.strip, ground.buff):
            assert contrast(accent, under) >= TEXT


@given(SHADES)
def test_a_strip_is_taken_as_it_is_or_refused_with_one_that_does(shade: RGB) -> None:
    made, troubles = look(None, write_shade(shade))
    white = made.grounds[0]
    if troubles:
        (trouble,) = troubles
        assert white.strip == GROUNDS[0].strip
        better = read_shade(re.findall(r'"(#[0-9a-f]{6})" would do', trouble)[0])
        assert better is not None
        assert look(None, write_shade(better))[1] == ()
    else:
        assert white.strip == shade
    for ground in made.grounds:
        captions, boxes = LABELS[ground.name]
        assert contrast(ground.ink, ground.strip) >= TEXT
        assert contrast(captions, ground.strip) >= TEXT
        assert contrast(boxes, ground.strip) >= EDGES


def test_a_shade_told_for_one_ground_is_not_mended_in_silence() -> None:
    made, troubles = look({"dark": "#552233"}, {"white": "#8899aa"})
    assert len(troubles) == 2
    assert troubles[0].startswith('theme: strip: "#8899aa" does not do on the white ground: ')
    assert re.search(r"contrast of \d\.\d, and 7 is needed", troubles[0])
    assert troubles[1].startswith('theme: accent: "#552233" does not do on the dark ground: links')
    assert made.grounds == GROUNDS


@pytest.mark.parametrize(
    ("accent", "strip", "said"),
    [
        ("purple", None, "theme: accent: 'purple' is no colour code"),
        (None, {"white": None}, "theme: strip: white: is empty"),
        ({"black": "#000000"}, None, "there is no such ground"),
        (0x123456, None, "is no colour code"),
        (["#123456"], None, "is no colour code"),
    ],
)
def test_what_is_no_colour_is_named(accent: object, strip: object, said: str) -> None:
    made, (trouble,) = look(accent, strip)
    assert said in trouble
    assert made.grounds == GROUNDS
