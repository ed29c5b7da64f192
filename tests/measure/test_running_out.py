"""Where the listed balls run out, checked by plain arithmetic."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from measure.made import measures, pattern, piece
from proving import proved
from roundproof.findings import Finding, Severity
from roundproof.measure.model import RunsOut, YarnNeed
from roundproof.measure.spending import loop_path

GAUGE = "gauge: 20 sts x 20 rounds = 10 cm"
EACH = loop_path(5, 5, 2.91 / (2.5**0.5)) / 1000
"""Metres in a stitch in yarn of 50 g / 125 m."""
RING = "R1: 100 sc in magic ring (100)"


def yarn(balls: int, metres: float, more: str = "") -> dict[str, str]:
    """One yarn, 2.5 m a gram, in balls of so many metres."""
    put_up = f"ball: {{grams: {metres / 2.5:.9f}, length: {metres:.9f} m}}"
    return {"slate": f"{GAUGE}, {put_up}, balls: {balls}{more}"}


def need(pieces: dict[str, str], yarns: dict[str, str], *steps: str) -> YarnNeed:
    return measures(pieces, yarns, steps).yarns["slate"]


def rounds(count: int, make: int = 1) -> str:
    return piece("slate", RING, f"R2-R{count}: sc around (100)", more=f"make: {make}")


def place(pieces: dict[str, str], metres: float, *steps: str) -> RunsOut | None:
    return need(pieces, yarn(1, metres), *steps).runs_out


def test_it_is_the_round_in_which_stitches_and_the_tail_before_exceed_the_ball() -> None:
    # one tail of 15 cm at the start, then 100 stitches a round
    body = {"body": rounds(20)}
    assert place(body, 0.15 + 1000 * EACH + 0.01) == RunsOut("body", 1, "R11")
    assert place(body, 0.15 + 1000 * EACH - 0.01) == RunsOut("body", 1, "R10")
    assert place(body, 0.10) == RunsOut("body", 1, "R1")


def test_the_tail_at_the_end_belongs_to_the_last_round() -> None:
    body = {"body": rounds(4)}
    assert place(body, 0.15 + 400 * EACH + 0.14) == RunsOut("body", 1, "R4")
    assert place(body, 0.15 + 400 * EACH + 0.16) is None


def test_copies_are_worked_one_after_another() -> None:
    one = 0.3 + 400 * EACH
    claws = {"claw": rounds(4, make=3)}
    assert place(claws, one + 0.15 + 150 * EACH) == RunsOut("claw", 2, "R2")
    assert place(claws, 2 * one + 0.15 + 350 * EACH) == RunsOut("claw", 3, "R4")
    assert place(claws, 3 * one + 0.01) is None


def test_pieces_are_worked_in_the_order_of_the_file() -> None:
    one = 0.3 + 400 * EACH
    both = {"body": rounds(4), "arm": rounds(4, make=2)}
    assert place(both, one + 0.15 + 250 * EACH) == RunsOut("arm", 1, "R3")
    other = {"arm": rounds(4, make=2), "body": rounds(4)}
    assert place(other, one + 0.15 + 250 * EACH) == RunsOut("arm", 2, "R3")


def test_seams_come_last() -> None:
    pieces = {"upper": rounds(4), "under": rounds(4)}
    step = "join: {edge: under, to: upper}"
    worked = 2 * (0.3 + 400 * EACH)
    seam = 3 * 0.5 + 0.3  # 100 stitches of 5 mm, two tails
    assert place(pieces, worked + 0.5 * seam, step) == RunsOut("under", 1, None)
    assert place(pieces, worked + seam + 0.01, step) is None


def test_another_yarn_takes_nothing_of_it() -> None:
    yarns = yarn(1, 0.15 + 250 * EACH) | {"chalk": GAUGE}
    body = piece("chalk", "R1: 100 sc in magic ring (100)", "R2: sc around (100)")
    found = need({"body": body, "arm": rounds(4)}, yarns)
    assert found.runs_out == RunsOut("arm", 1, "R3")


def test_a_weighed_swatch_tells_how_much_a_stitch_takes() -> None:
    # 2 g in 100 stitches: 5 m a round
    found = need({"body": rounds(4)}, yarn(1, 12.0, ", swatch: {stitches: 100, grams: 2}"))
    assert found.runs_out == RunsOut("body", 1, "R3")
    assert not found.estimated


def test_without_balls_nothing_is_listed_and_nothing_runs_out() -> None:
    found = need({"body": rounds(4)}, {"slate": f"{GAUGE}, ball: 50 g / 125 m"})
    assert (found.listed_metres, found.runs_out) == (None, None)


def test_a_piece_made_a_million_times_is_not_worked_a_million_times() -> None:
    found = place({"leg": rounds(4, make=10**8)}, 1000.0)
    assert found is not None and found.copy == 1000 // (0.3 + 400 * EACH) + 1


@given(
    make=st.integers(1, 5),
    count=st.integers(2, 30),
    balls=st.integers(1, 3),
    share=st.floats(0.05, 1.4),
)
def test_it_runs_out_just_where_the_balls_hold_less_than_is_used(
    make: int, count: int, balls: int, share: float
) -> None:
    used = make * (0.3 + 100 * count * EACH)
    found = need({"body": rounds(count, make)}, yarn(balls, share * used / balls))
    assert found.listed_metres == pytest.approx(share * used)
    assert found.metres == pytest.approx(used * 1.15)
    assert (found.runs_out is None) == (share >= 1)
    if found.runs_out is not None and found.runs_out.round is not None:
        worked = int(found.runs_out.round[1:]) - 1
        before = (found.runs_out.copy - 1) * (0.3 + 100 * count * EACH)
        assert before + (0.15 + 100 * worked * EACH if worked else 0) <= share * used + 1e-6
        after = before + 0.3 + 100 * (worked + 1) * EACH
        assert share * used <= after + 1e-6


# ---- what is said ----
def said(balls: int, metres: float, more: str = "", make: int = 1) -> Finding | None:
    text = pattern({"claw": rounds(4, make)}, yarn(balls, metres, more))
    _, findings = proved(text)
    found = [f for f in findings if f.check == "balls-short"]
    return found[0] if found else None


def test_the_finding_names_balls_metres_and_the_round() -> None:
    found = said(1, 15.0, make=2)
    assert found is not None
    per = 0.3 + 400 * EACH
    assert found.message == (
        f"1 ball of slate is 15 m, and about {2 * per * 1.15:.0f} m are needed with 15 % to spare:"
        " it runs out in R1 of the second claw."
    )
    assert (found.severity, found.piece, found.round) == (Severity.WARNING, "claw", "R1")
    assert found.mend == "List 2 balls." or found.mend == "List 3 balls."
    (edit,) = found.edits
    assert edit.span.text == "1" and f"List {edit.text} balls." == found.mend


def test_once_the_edit_is_made_nothing_is_found() -> None:
    found = said(1, 5.0)
    assert found is not None
    assert said(int(found.edits[0].text), 5.0) is None
    assert said(int(found.edits[0].text) - 1, 5.0) is not None


def test_by_a_weighed_swatch_it_is_an_error_in_grams() -> None:
    found = said(1, 12.0, ", swatch: {stitches: 100, grams: 2}")
    assert found is not None and found.severity is Severity.ERROR
    # 8 g in 400 stitches and 30 cm of tails, 15 % more
    assert found.message.startswith("1 ball of slate is 5 g, and 9 g are needed with 15 % to spare")


def test_where_only_the_margin_is_missing_it_may_just_be_enough() -> None:
    found = said(1, (0.3 + 400 * EACH) * 1.05)
    assert found is not None and found.severity is Severity.NOTE
    assert found.message.endswith(": without that it may just be enough.")
    assert found.round is None


def test_enough_is_enough() -> None:
    assert said(1, (0.3 + 400 * EACH) * 1.16) is None
