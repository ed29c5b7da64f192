"""What is stuffed, and how much filling it takes."""

from __future__ import annotations

import pytest

from measure.made import disc, measures, pattern, piece
from proving import proved
from roundproof.measure.cushion import VOLUME, cushion_grams
from roundproof.measure.firmness import Firmness, firmness_of
from roundproof.measure.model import RoundSize
from roundproof.measure.stuffing import GRAMS_A_LITRE, MORE, STRAIN

BALL = [*disc(6, 12, 18, 18, 18, 18, 12, 6)]
YARN = {"slate": "gauge: 25 sts x 25 rounds = 10 cm, ball: 50 g / 200 m"}


def grams(*more: str, steps: tuple[str, ...] = (), others: dict[str, str] | None = None) -> float:
    found = measures({"body": piece("slate", *BALL, *more), **(others or {})}, YARN, steps)
    return found.stuffing_g or 0.0


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
    assert size.volume_ml is not None and size.diameter_mm is not None
    # a yarn of 4 m a gram is 2.91 / 2 = 1.455 mm thick; half of a fabric of two strands is inside
    inside = size.volume_ml * (1 - 1.455 / (size.diameter_mm / 2)) ** 3 * (1 + 3 * STRAIN)
    assert found.stuffing_g == pytest.approx(inside * 0.035 * 1.1)


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
    assert found.stuffing_g is None and "body: R" in found.working["stuffing"]


# ---- several lines ----
LONG = disc(*[18] * 21)


def long(*lines: tuple[int, str]) -> str:
    """A tube of 21 rounds with lines after some of them."""
    rounds = list(LONG)
    for after, line in sorted(lines, reverse=True):
        rounds.insert(after, line)
    return piece("slate", *rounds)


def filled(*lines: tuple[int, str]) -> float:
    return measures({"body": long(*lines)}, YARN).stuffing_g or 0.0


def test_each_line_holds_for_the_rounds_up_to_it_and_the_last_to_the_end() -> None:
    firm, light = filled((11, "Stuff firmly.")), filled((11, "Stuff lightly."))
    # R1 is the flat bottom: 10 of 20 rounds of wall each
    mixed = filled((11, "Stuff firmly."), (21, "Stuff lightly."))
    assert mixed == pytest.approx((firm + light) / 2)


def test_a_line_from_here_on_leaves_what_is_below_as_it_was() -> None:
    firm, light = filled((6, "Stuff firmly.")), filled((6, "Stuff lightly."))
    mixed = filled((6, "Stuff firmly."), (16, "Stuff the thin end lightly from here on."))
    assert mixed == pytest.approx(0.75 * firm + 0.25 * light)


# ---- cushions ----
COARSE = {"slate": "gauge: 20 sts x 20 rounds = 10 cm, ball: 50 g / 200 m"}
CLOSING = "join: {edge: back, to: face, by: whipstitch, stuffed: while closing}"


def test_two_flat_rounds_joined_at_their_edges_are_filled_as_a_cushion() -> None:
    flat = piece("slate", *disc(*range(6, 66, 6)))
    found = measures({"face": flat, "back": flat}, COARSE, (CLOSING,))
    radius = sum(each.radius_mm - before for each, before in _steps(found.pieces["face"].outline))
    sheet = max(radius, 50.0)  # ten rounds of 5 mm from the middle to the edge, or a little less
    assert found.stuffing_g is not None
    inside = VOLUME * sheet**3 - 2 * 3.14159 * sheet**2 * 1.455
    grams = inside * (1 + 3 * STRAIN) / 1e6 * GRAMS_A_LITRE[Firmness.MEDIUM] * (1 + MORE)
    assert found.stuffing_g == pytest.approx(grams, rel=0.03)
    assert "back and face make a cushion 7.6 cm across" in found.working["stuffing"]


def _steps(outline: tuple[RoundSize, ...]) -> list[tuple[RoundSize, float]]:
    before = [0.0, *(each.radius_mm for each in outline)]
    return list(zip(outline, before, strict=False))


def test_two_copies_joined_to_one_another_are_a_cushion_and_one_alone_is_not() -> None:
    rounds = disc(*range(6, 66, 6))
    to_itself = "join: {edge: face, to: face, by: whipstitch, stuffed: while closing}"
    two = measures({"face": piece("slate", *rounds, more="make: 2")}, COARSE, (to_itself,))
    flat = piece("slate", *rounds)
    apart = measures({"face": flat, "back": flat}, COARSE, (CLOSING,))
    assert two.stuffing_g == pytest.approx(apart.stuffing_g)
    one = measures({"face": flat}, COARSE, (to_itself,))
    assert "cushion" not in one.working["stuffing"]


def test_a_large_cushion_is_filled_by_the_rule_for_its_area() -> None:
    flat = piece("slate", *disc(*range(6, 246, 6)))
    found = measures({"face": flat, "back": flat}, COARSE, (CLOSING,))
    # 40 rounds of 5 mm: 20 cm from the middle to the edge
    expected = cushion_grams(3.14159 * 200**2) * (1 + MORE)
    assert found.stuffing_g == pytest.approx(expected, rel=0.06)


def test_a_stretch_of_ones_own_takes_the_place_of_the_usual_one() -> None:
    text = pattern({"body": piece("slate", *BALL)}, YARN)
    usual = proved(text)[0]
    own = proved(f"stretch: 10 %\n{text}")[0]
    assert usual is not None and own is not None
    first, second = usual.measures.stuffing_g, own.measures.stuffing_g
    assert first is not None and second is not None
    assert second / first == pytest.approx((1 + 3 * 0.10) / (1 + 3 * 0.03))


@pytest.mark.parametrize(
    "line",
    ["Do not stuff.", "Don't stuff the arm.", "Leave the arm empty.", "Leave it unstuffed."],
)
def test_what_is_told_to_stay_empty_takes_nothing(line: str) -> None:
    alone, both = grams("Stuff."), grams("Stuff.", others={"arm": piece("slate", *BALL, line)})
    assert alone and both == pytest.approx(alone)
