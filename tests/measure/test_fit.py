"""Fit of joins, checked by plain arithmetic."""

from __future__ import annotations

import pytest

from measure.made import disc, fit, piece
from roundproof.measure.fit import verdict
from roundproof.measure.model import Fit, Frill, Verdict

SAME = {"slate": "gauge: 25 sts x 25 rounds = 10 cm"}
TWO = {"ivory": "gauge: 23 sts x 25 rounds = 10 cm", "glass": "gauge: 19 sts x 20 rounds = 10 cm"}


def tube(yarn: str, count: int) -> str:
    return piece(yarn, f"R1: {count} sc in magic ring ({count})", "R2-R12: sc around")


def edges(one: int, two: int, more: str = "", yarns: dict[str, str] | None = None) -> Fit:
    first, second = (list(yarns or SAME) * 2)[:2]
    pieces = {"under": tube(first, one), "upper": tube(second, two)}
    return fit(pieces, yarns or SAME, f"join: {{edge: under, to: upper, by: whipstitch{more}}}")


# ---- edge to edge ----
def test_equal_counts_in_two_gauges_do_not_fit_and_the_counts_that_would_are_told() -> None:
    # 36 x 100 / 23 mm = 156.5 mm; 36 x 100 / 19 = 189.5 mm
    found = edges(36, 36, yarns=TWO)
    assert found.lengths_mm == pytest.approx((156.52, 189.47), abs=0.01)
    assert found.fit == pytest.approx(0.826, abs=0.001)
    assert found.mismatch == pytest.approx(189.47 / 156.52 - 1, abs=1e-4)
    # 189.47 / 4.348 = 43.6, 156.52 / 5.263 = 29.7
    assert found.suggest == (44, 30)
    assert found.verdict is Verdict.MISFIT
    assert found.working == "36 stitches of ivory are 15.7 cm and 36 stitches of glass are 18.9 cm"


def test_unequal_counts_in_two_gauges_may_fit() -> None:
    found = edges(23, 19, yarns=TWO)
    assert found.fit == pytest.approx(1.0)
    assert found.verdict is Verdict.FITS and not found.by_count


@pytest.mark.parametrize(
    ("counts", "expected"),
    [
        ((100, 103), Verdict.FITS),
        ((100, 104), Verdict.EASE),
        ((100, 106), Verdict.EASE),
        ((100, 107), Verdict.CARE),
        ((100, 110), Verdict.CARE),
        ((100, 111), Verdict.MISFIT),
        ((111, 100), Verdict.MISFIT),
    ],
)
def test_each_limit_belongs_to_the_milder_verdict(
    counts: tuple[int, int], expected: Verdict
) -> None:
    found = edges(*counts)
    assert found.verdict is expected and found.by_count
    assert found.suggest == (counts[1], counts[0])


def test_limits_are_halved_on_a_body_and_inclusive() -> None:
    assert verdict(0.015, halved=True) is Verdict.FITS
    assert verdict(0.016, halved=True) is Verdict.EASE
    assert verdict(0.05, halved=True) is Verdict.CARE
    assert verdict(0.051, halved=True) is Verdict.MISFIT
    assert verdict(1.03 - 1) is Verdict.FITS


def test_ease_moves_one_step_down() -> None:
    assert edges(100, 111, ", ease: yes").verdict is Verdict.CARE
    assert edges(100, 104, ", ease: yes").verdict is Verdict.FITS


def test_what_is_gathered_is_judged_by_its_fullness() -> None:
    frill = edges(60, 40, ", ease: gathered")
    assert frill.verdict is Verdict.FITS
    assert frill.fullness == pytest.approx(1.5) and frill.frill is Frill.GENTLE
    hardly = edges(44, 40, ", ease: gathered")
    assert hardly.verdict is Verdict.EASE and hardly.frill is None


def test_where_no_other_count_is_nearer_it_is_eased_in_at_most() -> None:
    # 4 stitches of 4.35 mm against 4 of 4.76 mm: 9.5 % short, and 4.38 stitches would be even
    found = edges(4, 4, yarns={**TWO, "glass": "gauge: 21 sts x 21 rounds = 10 cm"})
    assert found.mismatch == pytest.approx(23 / 21 - 1)
    assert found.suggest[0] == 4 and found.verdict is Verdict.EASE


# ---- without a gauge ----
def test_in_one_yarn_the_counts_tell_even_without_a_gauge() -> None:
    found = edges(24, 30, yarns={"slate": "fibre: cotton"})
    assert found.lengths_mm == (None, None) and found.fit is None
    assert found.mismatch == pytest.approx(0.25)
    assert found.verdict is Verdict.MISFIT and found.suggest == (30, 24)


def test_in_two_yarns_without_a_gauge_unlike_counts_are_a_warning_at_most() -> None:
    yarns = {"slate": "fibre: cotton", "chalk": "fibre: cotton"}
    assert edges(24, 30, yarns=yarns).verdict is Verdict.CARE
    assert edges(30, 30, yarns=yarns).verdict is None


def test_a_guessed_gauge_is_a_warning_at_most() -> None:
    found = edges(36, 36, yarns={"slate": "weight: 3", "chalk": "weight: 4"})
    assert found.guessed and found.mismatch is not None and found.mismatch > 0.1
    assert found.verdict is Verdict.CARE


def test_an_edge_that_could_not_be_read_is_not_judged() -> None:
    broken = piece("slate", "R1: 6 sc in magic ring (6)", "R2: wibble")
    found = fit(
        {"under": broken, "upper": tube("slate", 12)}, SAME, "join: {edge: under, to: upper}"
    )
    assert found.counts == (None, 12) and found.verdict is None and found.suggest == (None, None)


# ---- on the side of a piece ----
def on_body(guest: str, where: str, gauge: str = "25 sts x 25 rounds = 10 cm") -> Fit:
    pieces = {"leg": guest, "body": tube("slate", 40)}
    step = f"join: {{edge: leg, to: body, {where}, by: whipstitch}}"
    return fit(pieces, {"slate": f"gauge: {gauge}"}, step)


def test_a_footprint_goes_round_its_rounds_and_stitches() -> None:
    # 4 rounds and 5 stitches: 2 x (4 + 5) = 18, at 4 mm each 72 mm
    found = on_body(tube("slate", 18), "at: {footprint: R8-R11, stitches: 5}")
    assert found.counts == (18, 18)
    assert found.lengths_mm == pytest.approx((72.0, 72.0))
    assert found.halved and found.verdict is Verdict.FITS and found.folded == (False, False)


def test_a_footprint_is_measured_by_height_and_width() -> None:
    # 2 x 5 x 4 mm + 2 x 4 x 5 mm = 80 mm
    found = on_body(
        tube("slate", 18), "at: {footprint: R8-R11, stitches: 5}", "25 sts x 20 rounds = 10 cm"
    )
    assert found.lengths_mm == pytest.approx((72.0, 80.0))
    assert found.suggest == (20, 16)
    assert found.verdict is Verdict.MISFIT


def test_two_rounds_that_are_no_neighbours_hold_a_footprint() -> None:
    found = on_body(tube("slate", 16), "at: {between: [R8, R11], stitches: 5}")
    assert found.counts == (16, 16) and found.verdict is Verdict.FITS


def test_a_round_edge_sewn_between_two_rounds_closes_to_half() -> None:
    found = on_body(tube("slate", 12), "at: {between: [R8, R9], stitches: 6}")
    assert found.counts == (12, 6) and found.folded == (True, False)
    assert found.lengths_mm == pytest.approx((24.0, 24.0))
    assert found.suggest == (12, 6)


def test_an_edge_already_worked_through_both_layers_is_not_halved_again() -> None:
    leg = piece("slate", *disc(6, 6), "Fold flat.", "R3: sc 3 through both layers (3)")
    found = on_body(leg, "at: {between: [R8, R9], stitches: 3}")
    assert found.lengths_mm == pytest.approx((12.0, 12.0)) and found.folded == (False, False)


def test_an_edge_may_run_up_a_piece() -> None:
    # 6 rounds of 4 mm; row ends of 6 rows of 4 mm
    fin = piece(
        "slate",
        "Row 1: ch 5, sc in 2nd ch from hook, sc 3 (4)",
        "Rows 2-6: ch 1, turn, sc in each st (4)",
    )
    step = "join: {edge: leg row ends, to: body, at: {up: R3-R8}, by: whipstitch}"
    found = fit({"leg": fin, "body": tube("slate", 40)}, SAME, step)
    assert found.counts == (6, 6) and found.lengths_mm == pytest.approx((24.0, 24.0))


def test_gaps_in_a_round_leave_the_rest_to_the_pieces() -> None:
    # 40 stitches less 2 gaps of 14 leave 6 each to two legs of 12, closed to half
    pieces = {"leg": tube("slate", 12), "body": tube("slate", 40)}
    step = "join: {edge: leg, to: body R8, around: {st: 1, free: [14, 14]}, by: whipstitch}"
    found = fit(pieces, SAME, step)
    assert found.counts == (12, 6) and found.verdict is Verdict.FITS
