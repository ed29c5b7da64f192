"""Care goes by the least washable material, and is told in words."""

from __future__ import annotations

import pytest

from proving import proved

PATTERN = """\
title: Pebble
terms: US
yarns:
  slate: {fibre: "FIBRE", gauge: 20 sts x 20 rounds = 10 cm}
  spare: {fibre: 100 % silk, gauge: 20 sts x 20 rounds = 10 cm}
notions: [THING]
care: "CARE"
pieces:
  body:
    yarn: slate
    rounds: |
      R1: 6 sc in magic ring (6)
"""


def told(care: str, fibre: str = "100 % cotton", thing: str = "tapestry needle") -> list[str]:
    text = PATTERN.replace("CARE", care).replace("FIBRE", fibre).replace("THING", thing)
    _, findings = proved(text)
    return [f.span.text for f in findings if f.check == "care-fits"]


# Common practice, no source, which fibre bears what; temperatures as in ISO 3758:2023.
@pytest.mark.parametrize(
    ("care", "fibre", "words"),
    [
        ("Machine wash at 30 degrees.", "100 % merino wool", "Machine wash"),
        ("Machine wash warm.", "50 % wool, 50 % cotton", "Machine wash"),
        ("Hand wash at 60 °C.", "100 % wool", "Hand wash"),
        ("Hand wash hot.", "100 % silk", "Hand wash"),
        ("Hand wash cool, tumble dry.", "100 % alpaca", "tumble dry"),
        ("Hand wash cool. Bleach if stained.", "100 % silk", "Bleach"),
        ("Machine wash at 60 degrees.", "100 % acrylic", "Machine wash"),
        ("Machine wash cool, iron.", "100 % acrylic", "iron"),
        ("Hand wash cool.", "100 % jute", "Hand wash"),
    ],
)
def test_what_a_fibre_does_not_bear_is_told(care: str, fibre: str, words: str) -> None:
    assert told(care, fibre) == [words]


@pytest.mark.parametrize(
    ("care", "fibre"),
    [
        ("Machine wash at 60 degrees, tumble dry, iron.", "100 % cotton"),
        ("Hand wash cool in wool soap.", "100 % wool"),
        ("Machine wash cool on the wool cycle.", "100 % wool"),
        ("Machine wash at 40 degrees.", "100 % superwash wool"),
        ("Machine wash at 30 degrees.", "75 % wool, 25 % polyamide"),
        ("Do not machine wash, tumble dry or iron.", "100 % wool"),
        ("Hand wash at 30 °C. Never tumble dry.", "100 % mohair"),
        ("Machine wash at 40 degrees, iron cool.", "100 % acrylic"),
        ("Brush off; do not wash.", "100 % jute"),
        ("Machine wash at 40 °C in a wash bag.", "100 % cotton"),
    ],
)
def test_what_it_bears_is_not(care: str, fibre: str) -> None:
    assert told(care, fibre) == []


@pytest.mark.parametrize(
    "thing",
    ["florist wire", "disc magnets", "button cells", "cardboard base", "rice", "lead weight"],
)
def test_what_spoils_in_water_is_not_washed(thing: str) -> None:
    assert told("Hand wash cool.", thing=thing) == ["Hand wash"]
    assert told("Wipe with a damp cloth.", thing=thing) == []
    assert told("Do not wash.", thing=thing) == []


@pytest.mark.parametrize("thing", ["wire cutters", "safety eyes", "magnetic needle holder"])
def test_tools_and_plastic_may_be(thing: str) -> None:
    assert told("Machine wash warm.", thing=thing) == []


def test_a_thing_that_the_care_text_speaks_of_is_left_to_the_designer() -> None:
    care = "Take the magnets out through the slit, then hand wash cool."
    assert told(care, thing="disc magnets") == []


def test_a_yarn_that_is_not_worked_with_does_not_count() -> None:
    assert told("Machine wash at 60 degrees.") == []


@pytest.mark.parametrize(
    "care", ["⊠ △ ◯", "40 / P / 110", "☂ Hand wash", ":wash-30: gentle please"]
)
def test_signs_and_codes_are_no_words(care: str) -> None:
    assert told(care)


def test_one_care_text_gives_one_finding() -> None:
    assert len(told("Machine wash hot, tumble dry, iron.", "100 % wool", "florist wire")) == 1
