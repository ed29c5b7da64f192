"""Amounts of yarn, checked by plain arithmetic."""

from __future__ import annotations

import pytest

from measure.made import measures, piece
from roundproof.measure.model import YarnNeed
from roundproof.measure.spending import loop_path

RING = "R1: 100 sc in magic ring (100)"
BALL = "gauge: 22 sts x 23 rounds = 10 cm, ball: 50 g / 112.5 m"


def need(yarn: str, *rounds: str, more: str = "") -> YarnNeed:
    return measures({"body": piece("slate", *rounds, more=more)}, {"slate": yarn}).yarns["slate"]


def test_an_estimate_is_stitches_times_the_path_of_the_loop() -> None:
    found = need(BALL, RING)
    each = loop_path(100 / 22, 100 / 23, 2.91 / (2.25**0.5))
    # 100 stitches, two tails of 15 cm, 15 % more
    assert found.metres == pytest.approx((100 * each + 300) / 1000 * 1.15)
    assert found.estimated
    assert found.grams == pytest.approx((found.metres or 0) / 2.25)
    assert found.balls == 1


def test_a_weighed_swatch_replaces_the_estimate() -> None:
    # 4.6 g in 460 stitches: 1 g in 100; 1 g is 2.25 m; two tails of 15 cm; 15 % more
    found = need(f"{BALL}, swatch: {{stitches: 460, grams: 4.6}}", RING)
    assert found.metres == pytest.approx((2.25 + 0.3) * 1.15)
    assert found.grams == pytest.approx((1 + 0.3 / 2.25) * 1.15)
    assert not found.estimated
    assert "460 stitches in 4.6 g" in found.working


def test_all_copies_are_counted() -> None:
    one, four = need(BALL, RING), need(BALL, RING, more="make: 4")
    assert four.metres == pytest.approx(4 * (one.metres or 0))


def test_each_strand_goes_the_whole_way() -> None:
    one = need(BALL, RING, more="gauge: 18 sts x 18 rounds = 10 cm")
    two = need(BALL, RING, more="gauge: 18 sts x 18 rounds = 10 cm\nstrands: 2")
    assert two.metres == pytest.approx(2 * (one.metres or 0))
    assert two.grams == pytest.approx(2 * (one.grams or 0))


def test_taller_stitches_take_more() -> None:
    # double crochet 1.9 times as much as single crochet
    plain, tall = need(BALL, RING, "R2: sc around"), need(BALL, RING, "R2: dc around")
    ends = 0.3 * 1.15
    one_round = ((plain.metres or 0) - ends) / 2
    assert (tall.metres or 0) - ends == pytest.approx(one_round * 2.9)


def test_an_increase_is_two_stitches_and_two_together_one_and_a_half() -> None:
    ends, base = 0.3 * 1.15, need(BALL, RING)
    each = ((base.metres or 0) - ends) / 100
    more = need(BALL, RING, "R2: inc x 100 (200)")
    assert (more.metres or 0) - ends == pytest.approx(each * 300)
    less = need(BALL, RING, "R2: sc2tog x 50 (50)")
    assert (less.metres or 0) - ends == pytest.approx(each * 175)


def test_a_range_counts_every_round() -> None:
    found = need(BALL, RING, "R2-R10: sc around")
    base = need(BALL, RING)
    ends = 0.3 * 1.15
    assert (found.metres or 0) - ends == pytest.approx(10 * ((base.metres or 0) - ends))


def test_a_long_tail_is_added() -> None:
    plain = need(BALL, RING, "Fasten off.")
    long = need(BALL, RING, "Fasten off, leaving a 45 cm tail for sewing.")
    assert (long.metres or 0) - (plain.metres or 0) == pytest.approx(0.30 * 1.15)


def test_a_seam_without_a_long_tail_takes_three_times_its_length() -> None:
    pieces = {
        "upper": piece("slate", "R1: 20 sc in magic ring"),
        "under": piece("slate", "R1: 20 sc in magic ring"),
    }
    alone = measures(pieces, {"slate": BALL}).yarns["slate"]
    sewn = measures(pieces, {"slate": BALL}, ["join: {edge: under, to: upper}"]).yarns["slate"]
    seam = 3 * 20 * 100 / 22 + 300
    assert (sewn.metres or 0) - (alone.metres or 0) == pytest.approx(seam / 1000 * 1.15)


def test_two_colours_are_counted_apart() -> None:
    yarns = {"slate": BALL, "chalk": BALL}
    found = measures(
        {"body": piece("slate", RING, "R2: with slate 75 sc, with chalk 25 sc")}, yarns
    ).yarns
    slate, chalk = found["slate"].metres or 0, found["chalk"].metres or 0
    ends = 0.3 * 1.15
    assert slate - ends == pytest.approx(7 * (chalk - ends))


def test_a_guessed_gauge_gets_a_wider_margin_and_says_so() -> None:
    found = need("weight: 3", RING)
    assert "25 % more to be safe, since the gauge is a guess" in found.working
    assert found.grams is None and found.balls is None


def test_a_round_that_cannot_be_read_leaves_the_amount_open() -> None:
    found = need(BALL, RING, "R2: wibble")
    assert found.metres is None and found.unreliable == "R2 of body could not be counted"


def test_of_a_yarn_used_for_nothing_nothing_is_said() -> None:
    found = measures({"body": piece("slate", RING)}, {"slate": BALL, "chalk": BALL}).yarns
    assert set(found) == {"slate"}


def test_more_than_a_ball_takes_two() -> None:
    # 100 x 250 stitches of about 3 cm are some 750 m
    found = need(BALL, RING, "R2-R250: sc around")
    assert found.grams is not None and found.balls == -(-found.grams // 50)
