"""Where the size of a stitch is taken from."""

from __future__ import annotations

import pytest

from measure.made import measures, piece
from roundproof.measure.model import PieceSize

ROUND = "R1: 10 sc in magic ring (10)"


def one(yarn: str, more: str = "") -> PieceSize:
    return measures({"body": piece("slate", ROUND, more=more)}, {"slate": yarn}).pieces["body"]


def test_the_yarns_gauge_gives_the_width_of_a_stitch() -> None:
    found = one("gauge: 20 sts x 22 rounds = 10 cm, weight: 3")
    assert found.edge_mm == pytest.approx(50.0)
    assert not found.guessed
    assert "20 stitches and 22 rounds to 10 cm" in found.working["gauge"]


def test_a_piece_may_have_a_gauge_of_its_own() -> None:
    found = one("gauge: 20 sts x 22 rounds = 10 cm", "gauge: 25 sts x 25 rounds = 10 cm")
    assert found.edge_mm == pytest.approx(40.0)


def test_without_a_gauge_it_is_guessed_from_the_weight_and_says_so() -> None:
    # 13 wraps per inch are 1.95 mm, and a stitch is about 2.5 times as wide: 4.9 mm, near the usual
    # 22 stitches to 10 cm of DK in toys (common practice, no source)
    found = one("weight: 3")
    assert found.guessed
    assert found.edge_mm == pytest.approx(10 * 100 / 20.5, rel=0.01)
    assert "guessed" in found.working["gauge"]


def test_without_gauge_and_weight_it_is_guessed_from_the_ball() -> None:
    found = one("ball: 50 g / 112.5 m")
    assert found.guessed
    assert found.edge_mm == pytest.approx(10 * 2.5 * 1.94, rel=0.01)


def test_of_a_yarn_that_says_nothing_no_size_can_be_told() -> None:
    found = one("fibre: cotton")
    assert found.edge_mm is None and found.diameter_mm is None and found.outline == ()
    assert found.unreliable["diameter"] == "no gauge and no weight is given for slate"


def test_a_gauge_in_taller_stitches_is_brought_back_to_single_crochet() -> None:
    # double crochet is twice as high as single crochet: 10 rounds of it are 20 rounds
    tall = one("gauge: {stitches: 20, rounds: 10, over: 10 cm, in: dc}")
    assert tall.outline[0].length_mm == pytest.approx(50.0)
    rounds = piece("slate", "R1: 10 sc in magic ring (10)", "R2: sc around (10)")
    two = measures(
        {"body": rounds}, {"slate": "gauge: {stitches: 20, rounds: 10, over: 10 cm, in: dc}"}
    ).pieces["body"]
    assert two.outline[1].height_mm - two.outline[0].height_mm == pytest.approx(5.0)


def test_two_strands_are_as_thick_as_one_of_twice_the_area() -> None:
    found = one("gauge: 20 sts x 20 rounds = 10 cm", "strands: 2")
    assert found.edge_mm == pytest.approx(50 * 2**0.5)
    assert found.guessed and "2 strands together" in found.working["gauge"]


def test_another_hook_makes_the_gauge_a_guess() -> None:
    found = one("hook: 3 mm, gauge: 20 sts x 20 rounds = 10 cm", "hook: 4 mm")
    assert found.edge_mm == pytest.approx(50.0) and found.guessed


def test_a_round_in_two_yarns_has_their_mean_width() -> None:
    yarns = {
        "slate": "gauge: 20 sts x 20 rounds = 10 cm",
        "chalk": "gauge: 25 sts x 25 rounds = 10 cm",
    }
    rounds = piece(
        "slate", "R1: 10 sc in magic ring (10)", "R2: with slate 5 sc, with chalk 5 sc (10)"
    )
    found = measures({"body": rounds}, yarns).pieces["body"]
    assert found.outline[1].length_mm == pytest.approx(5 * 5 + 5 * 4)
