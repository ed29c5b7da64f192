"""Sizes of pieces, checked by plain arithmetic."""

from __future__ import annotations

from math import pi, sqrt

import pytest

from measure.made import disc, measures, piece, size
from roundproof.measure.model import Flatness, Form


def lines(*counts: int) -> str:
    return "\n".join(disc(*counts))


# ---- round pieces ----
def test_a_tube_is_as_high_as_its_rounds() -> None:
    # 12 stitches of 4 mm are 48 mm round. The first round's circle, 7.64 mm, is larger than the
    # round is high, so a hole stays; four rounds of 4 mm follow.
    found = size(lines(12, 12, 12, 12, 12))
    assert found.form is Form.TURNED
    assert found.edge_mm == pytest.approx(48.0)
    assert found.diameter_mm == pytest.approx(48 / pi)
    assert found.height_mm == pytest.approx(16.0)
    # the disc in its start has no height: the volume is that of the tube
    assert found.volume_ml == pytest.approx(pi * (24 / pi) ** 2 * 16 / 1000)


def test_a_step_goes_up_by_what_it_does_not_go_out() -> None:
    # From 12 to 15 stitches the radius grows by 3 x 4 / 2 pi = 1.91 mm: 3.51 mm up.
    found = size(lines(12, 12, 15))
    out = 12 / (2 * pi)
    assert found.outline[2].height_mm - found.outline[1].height_mm == pytest.approx(
        sqrt(16 - out**2)
    )


def test_a_disc_lies_flat_from_its_ring_on() -> None:
    found = size(lines(6, 12, 18, 24), "20 sts x 20 rounds = 10 cm")
    assert [r.flatness for r in found.outline] == [Flatness.FLAT] * 4
    assert found.outline[0].height_mm == 0
    assert found.diameter_mm == pytest.approx(24 * 5 / pi)


def test_rounds_that_grow_faster_than_they_are_high_reach_only_as_far_as_they_are_high() -> None:
    # 6 a round at 3.8 mm high and 5 mm wide would have to go out by 4.77 mm each
    found = size(lines(6, 12, 18), "20 sts x 26.3 rounds = 10 cm")
    rise = 100 / 26.3
    assert found.diameter_mm == pytest.approx(2 * (30 / (2 * pi) + 2 * rise))
    assert found.outline[2].fullness > 1.1


def test_the_end_that_is_drawn_shut_adds_a_tip() -> None:
    open_ = size(lines(6, 6, 6))
    shut = size(lines(6, 6, 6) + "\nFasten off and draw the last round shut.")
    tip = sqrt(16 - (24 / (2 * pi)) ** 2)
    assert open_.height_mm is not None and shut.height_mm is not None
    assert shut.height_mm - open_.height_mm == pytest.approx(tip)
    assert (
        shut.volume_ml is not None
        and open_.volume_ml is not None
        and shut.volume_ml > open_.volume_ml
    )


def test_an_end_gathered_in_the_assembly_counts_as_drawn_shut() -> None:
    rounds = lines(6, 6, 6)
    gathered = size(rounds, steps=["close: {edge: body, by: gather}"])
    assert gathered.height_mm == size(rounds + "\nFasten off and draw shut.").height_mm


def test_a_ball_is_about_as_high_as_wide() -> None:
    # counts of a sphere of 12 rounds (crochettycrochet.blogspot.com, May 2021), closed from 6
    found = size(lines(6, 12, 17, 21, 24, 25, 25, 24, 21, 17, 12, 6) + "\nDraw shut.")
    assert found.height_mm is not None and found.diameter_mm is not None
    assert found.height_mm / found.diameter_mm == pytest.approx(1.0, abs=0.1)


def test_taller_stitches_make_higher_rounds() -> None:
    # double crochet is twice, half double 1.33 times as high as single crochet
    found = size("R1: 12 sc in magic ring\nR2: dc around\nR3: hdc around")
    assert found.outline[1].height_mm - found.outline[0].height_mm == pytest.approx(8.0)
    assert found.outline[2].height_mm - found.outline[1].height_mm == pytest.approx(4 * 1.33)


def test_a_round_of_several_heights_counts_with_their_mean_and_says_so() -> None:
    found = size("R1: 12 sc in magic ring\nR2: 6 sc, 6 dc")
    assert found.outline[1].height_mm == pytest.approx(6.0)
    assert "R2 has stitches of several heights" in found.working["height"]


def test_a_ring_of_chains_leaves_a_hole() -> None:
    # 18 chains of 4 mm are the circle the tube starts from: no step inwards or outwards
    found = size("R1: ch 18, join with sl st, sc around (18)\nR2: sc around (18)")
    assert found.outline[0].height_mm == pytest.approx(4.0)
    assert found.diameter_mm == pytest.approx(18 * 4 / pi)


def test_a_round_through_both_layers_closes_half_the_stitches() -> None:
    found = size(lines(6, 6, 6) + "\nFold flat.\nR4: sc 3 through both layers (3)")
    assert found.edge_mm == pytest.approx(12.0)
    assert found.diameter_mm == pytest.approx(24 / pi)


# ---- pieces grown from another ----
BELL = ["R1: 12 sc in magic ring (12)", "R2: sc around (12)", "R3: sc in BLO around (12)"]


def test_a_piece_grown_from_loops_starts_from_their_circle() -> None:
    rim = piece("slate", "R1: sc around (12)", more="starts: {in: bell R2 free front loops}")
    found = measures({"bell": piece("slate", *BELL), "rim": rim}).pieces["rim"]
    assert found.outline[0].radius_mm == pytest.approx(48 / (2 * pi))
    assert found.height_mm == pytest.approx(4.0)


def test_the_circle_it_grows_from_is_measured_in_the_other_yarn() -> None:
    yarns = {
        "slate": "gauge: 25 sts x 25 rounds = 10 cm",
        "chalk": "gauge: 20 sts x 20 rounds = 10 cm",
    }
    rim = piece("chalk", "R1: sc around (12)", more="starts: {in: bell R2 free front loops}")
    found = measures({"bell": piece("slate", *BELL), "rim": rim}, yarns).pieces["rim"]
    # from 48 mm round to 60 mm: 1.91 mm out, so 4.62 mm up
    assert found.height_mm == pytest.approx(sqrt(25 - (12 / (2 * pi)) ** 2))


def test_a_frill_has_an_edge_and_no_other_figure() -> None:
    rim = piece("slate", "R1: inc around (24)", more="starts: {in: bell R2 free front loops}")
    found = measures({"bell": piece("slate", *BELL), "rim": rim}).pieces["rim"]
    assert found.outline[0].flatness is Flatness.RUFFLED
    assert found.edge_mm == pytest.approx(96.0)
    assert (found.diameter_mm, found.height_mm, found.volume_ml) == (None, None, None)
    assert "R1 ruffles" in found.unreliable["diameter"]


def test_a_short_frill_at_the_end_leaves_the_volume_of_the_rest() -> None:
    plain = size(lines(12, 12, 12, 12))
    frilled = size(lines(12, 12, 12, 12, 24))
    assert frilled.height_mm is None and "R5 ruffles" in frilled.unreliable["height"]
    assert frilled.volume_ml == pytest.approx(plain.volume_ml)


# ---- ovals ----
OVAL = """\
R1: ch 7, sc in 2nd ch from hook, sc 4, 3 sc in last ch, other side sc 4, 2 sc in last ch (14)
R2: inc, sc 4, inc x 3, sc 4, inc x 2 (20)
R3: sc, inc, sc 4, (sc, inc) x 3, sc 4, (sc, inc) x 2 (26)
"""


def test_an_oval_is_longer_than_wide_by_its_straight_side() -> None:
    # 4 straight stitches a side of 4 mm; at the ends 6 stitches a round: 24 mm of half circles
    found = size(OVAL)
    assert found.form is Form.OVAL
    assert found.diameter_mm == pytest.approx(2 * 3 * 24 / (2 * pi))
    assert found.length_mm == pytest.approx(16 + found.diameter_mm)
    assert found.edge_mm == pytest.approx(26 * 4)


def test_an_oval_of_low_rounds_is_as_wide_as_they_are_high() -> None:
    # at 25 x 28 the ends would have to go out by 3.82 mm a round and are 3.57 mm high
    found = size(OVAL, "25 sts x 28 rounds = 10 cm")
    assert found.diameter_mm == pytest.approx(2 * 3 * 100 / 28)


def test_the_volume_of_an_oval_is_stacked_from_stadiums() -> None:
    low, high = size(OVAL + "R4-R5: sc around (26)"), size(OVAL + "R4-R7: sc around (26)")
    radius = 3 * 24 / (2 * pi)
    two_rounds = (2 * 16 * radius + pi * radius**2) * 8 / 1000
    assert low.volume_ml is not None and high.volume_ml == pytest.approx(low.volume_ml + two_rounds)


def test_a_pocket_on_a_chain_has_no_volume_of_its_own() -> None:
    found = size(
        "R1: ch 11, sc in 2nd ch from hook, sc 9, on the other side sc 9\nR2-R5: sc around"
    )
    assert found.volume_ml is None
    assert "pocket" in found.unreliable["volume"]


# ---- rows ----
BAND = "Row 1: ch 11, sc in 2nd ch from hook, sc 9 (10)\nRows 2-5: ch 1, turn, sc in each st (10)"


def test_a_band_of_rows_is_flat() -> None:
    found = size(BAND, "25 sts x 20 rounds = 10 cm")
    assert found.form is Form.ROWS
    assert found.diameter_mm == pytest.approx(40.0)
    assert found.length_mm == found.height_mm == pytest.approx(25.0)
    assert found.edge_mm == pytest.approx(40.0)
    assert found.volume_ml is None and "rows" in found.unreliable["volume"]


# ---- what cannot be told ----
def test_after_a_round_that_cannot_be_read_only_a_known_edge_is_told() -> None:
    found = size("R1: 6 sc in magic ring (6)\nR2: wibble\nR3: 12 sc (12)")
    assert found.edge_mm == pytest.approx(48.0)
    assert found.height_mm is None and found.unreliable["height"] == "R2 could not be read"


def test_a_round_known_by_its_stated_count_is_measured() -> None:
    found = size("R1: 6 sc in magic ring (6)\nR2: wibble (12)\nR3: sc around (12)")
    assert found.height_mm is not None


def test_a_slip_of_the_key_in_a_range_does_not_fill_the_memory() -> None:
    found = size("R1: 6 sc in magic ring (6)\nR2-R999999: sc around (6)")
    assert found.outline == () and "3000" in found.unreliable["height"]


def test_a_piece_drawn_together_in_one_round_has_no_certain_height() -> None:
    found = size("R1: 36 sc in magic ring (36)\nR2: sc around (36)\nR3: sc3tog around (12)")
    assert found.height_mm is None and "drawn together" in found.unreliable["height"]


def test_every_figure_says_how_it_was_reached() -> None:
    found = size(lines(6, 12, 18))
    told = {"height", "diameter", "edge", "volume"}
    assert told <= set(found.working)
    assert found.working["edge"] == "the last round: 18 stitches of 4 mm are 7.2 cm"
    assert (
        "18 stitches of 4 mm are 7.2 cm round, which is 2.3 cm across" in found.working["diameter"]
    )
