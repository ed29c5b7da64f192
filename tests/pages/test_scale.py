"""A model against what it stands for: model over life, told both ways."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rendering import proof_of
from roundproof.pages.scale import Scale, in_proportion, scale_words, scales
from roundproof.pages.specimen import specimen
from whole_patterns import PEBBLE


@pytest.mark.parametrize(
    ("ratio", "words"),
    # By hand: the ratio is the length of the model over the real length.
    [
        (3.0, "about 3:1, three times life size"),  # 120 mm of 40 mm
        (1 / 3, "about 1:3, one third of life size"),
        (0.5, "about 1:2, half life size"),
        (95 / 250, "about 1:2.6, 0.38 times life size"),
        (62 / 80, "about 1:1.3, 0.78 times life size"),
        (0.04, "about 1:25, a 25th of life size"),
        (1 / 250, "about 1:250, a 250th of life size"),
        (2000.0, "about 2,000:1, 2,000 times life size"),
        (2345.0, "about 2,300:1, 2,300 times life size"),
        (1.0, "1:1, life size"),
        (0.97, "1:1, life size"),
    ],
)
def test_a_scale_is_told_both_ways(ratio: float, words: str) -> None:
    assert scale_words(ratio) == words


@given(st.floats(min_value=1e-6, max_value=1e7))
def test_the_ratio_told_is_the_ratio_there_is(ratio: float) -> None:
    pair = scale_words(ratio).partition(",  ")[0].removeprefix("about ").split(", ")[0]
    made, real = (float(part.replace(",", "")) for part in pair.split(":"))
    assert made / real == pytest.approx(ratio, rel=0.06)


def lines(text: str) -> list[str]:
    found = specimen(proof_of(text))
    assert found is not None
    return [line.striptags().replace("\u00a0", " ") for line in found.lines]


def test_a_model_of_120_mm_of_an_animal_of_40_mm_is_three_times_life_size() -> None:
    text = PEBBLE.replace("width: 3.4 cm", "width: 120 mm").replace("width: 34 mm", "width: 40 mm")
    told = next(line for line in lines(text) if line.startswith("Scale"))
    assert told.startswith("Scale: about 3:1, three times life size, by the width (12 cm")
    assert "4 cm" in told


def test_measures_in_several_scales_are_told_each() -> None:
    text = PEBBLE.replace("real_size: {width: 34 mm", "real_size: {width: 34 mm, height: 7 mm")
    told = lines(text)
    assert "The measures are not all in one scale." in told
    assert len([line for line in told if line.startswith("Scale")]) == 2


def test_scales_come_from_measures_that_both_have() -> None:
    proof = proof_of(PEBBLE)
    real = proof.pattern.specimen.real_size if proof.pattern.specimen else None
    assert scales(proof.pattern.size, real) == (Scale("width", 34.0, 34.0),)
    assert scales(None, real) == () and in_proportion(())


def test_the_parts_name_their_pieces() -> None:
    text = PEBBLE.replace("    name: Foot\n", "    name: Foot\n    stands_for: foot\n")
    found = specimen(proof_of(text))
    assert found is not None
    assert [
        (row.part, str(row.pieces).replace("\u00a0", " "), str(row.about)) for row in found.parts
    ] == [
        ("upper surface", "Upper", "The side that is seen."),
        ("foot", "Foot × 3", ""),
    ]
