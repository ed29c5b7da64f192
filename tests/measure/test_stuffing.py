"""What is stuffed, and how much filling it takes."""

from __future__ import annotations

import pytest

from measure.made import disc, measures, piece
from roundproof.measure.stuffing import STRAIN, Firmness, firmness_of

BALL = [*disc(6, 12, 18, 18, 18, 18, 12, 6)]
YARN = {"slate": "gauge: 25 sts x 25 rounds = 10 cm, ball: 50 g / 200 m"}


def grams(*more: str, steps: tuple[str, ...] = (), others: dict[str, str] | None = None) -> float:
    found = measures({"body": piece("slate", *BALL, *more), **(others or {})}, YARN, steps)
    return found.stuffing or 0.0


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("Stuff firmly.", Firmness.FIRM),
        ("Stuff lightly: it is flat.", Firmness.SOFT),
        ("Stuff.", Firmness.MEDIUM),
        ("Do not stuff.", None),
        ("Stuff the hand lightly and leave the arm empty.", Firmness.SOFT),
        ("Stuff, but leave the top third unstuffed.", Firmness.MEDIUM),
        ("no", None),
    ],
)
def test_how_firmly_some_words_say(words: str, expected: Firmness | None) -> None:
    assert firmness_of(words) is expected


def test_grams_are_volume_times_density_less_the_fabric_more_for_stretch() -> None:
    found = measures({"body": piece("slate", *BALL)}, YARN)
    size = found.pieces["body"]
    assert size.volume is not None and size.diameter is not None
    # a yarn of 4 m a gram is 2.91 / 2 = 1.455 mm thick; half of a fabric of two strands is inside
    inside = size.volume * (1 - 1.455 / (size.diameter / 2)) ** 3 * (1 + 3 * STRAIN)
    assert found.stuffing == pytest.approx(inside * 0.035 * 1.1)


def test_firm_takes_more_than_light() -> None:
    assert grams("Stuff firmly.") == pytest.approx(2.5 * grams("Stuff lightly."))


def test_where_nothing_is_said_what_encloses_something_is_stuffed() -> None:
    assert grams() == pytest.approx(grams("Stuff."))


def test_a_piece_meant_to_stay_open_is_not() -> None:
    cup = piece("slate", *disc(6, 12, 18, 18, 18), more="open_edge: yes")
    assert grams(others={"cup": cup}) == pytest.approx(grams())


def test_only_what_is_told_to_be_stuffed_is() -> None:
    other = piece("slate", *BALL)
    assert grams("Stuff.", others={"other": other}) == pytest.approx(grams())
    assert grams(others={"other": other}) == pytest.approx(2 * grams())


def test_a_join_stuffs_both_pieces_it_closes_and_a_limb_alone() -> None:
    other = {"other": piece("slate", *BALL)}
    closing = "join: {edge: other, to: body, by: whipstitch, stuffed: while closing}"
    assert grams(others=other, steps=(closing,)) == pytest.approx(2 * grams())
    limb = (
        "join: {edge: other, to: body, at: {footprint: R4-R5, stitches: 2},"
        " by: whipstitch, stuffed: before}"
    )
    assert grams(others=other, steps=(limb,)) == pytest.approx(grams())


def test_the_assembly_may_say_how() -> None:
    firmly = "stuff: {piece: body, how: firmly}"
    assert grams(steps=(firmly,)) == pytest.approx(grams("Stuff firmly."))


def test_without_a_volume_no_weight_is_told() -> None:
    ruffled = piece("slate", *disc(6, 12, 24, 48, 96), "Stuff.")
    found = measures({"body": ruffled}, YARN)
    assert found.stuffing is None and "body: R" in found.working["stuffing"]
