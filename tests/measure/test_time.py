"""Making time, checked by plain arithmetic."""

from __future__ import annotations

import pytest

from measure.made import disc, measures, piece

OPEN = "open_edge: yes"


def hours(*rounds: str, more: str = OPEN, steps: tuple[str, ...] = ()) -> tuple[float, float]:
    found = measures({"body": piece("slate", *rounds, more=more)}, None, steps).hours
    assert found is not None
    return found


def test_time_is_stitches_at_a_pace_and_the_ends_35_percent_either_way() -> None:
    # 120 stitches at 12 a minute with 1.3 for counting: 13 minutes; start 2, fasten off 1, 2 ends
    # of 1.5: 6 minutes
    low, high = hours("R1: 120 sc in magic ring")
    assert low == pytest.approx(19 / 60 * 0.65)
    assert high == pytest.approx(19 / 60 * 1.35)


def test_taller_stitches_take_longer() -> None:
    # 120 double crochets at three quarters of the pace: 160 stitches' time
    low, _ = hours("R1: 120 sc in magic ring", "R2: dc around")
    assert low == pytest.approx((1.3 * 280 / 12 + 6) / 60 * 0.65)


def test_shaping_takes_longer() -> None:
    # 6 increases: 12 stitches and half a stitch more for each
    low, _ = hours(*disc(6, 12))
    assert low == pytest.approx((1.3 * (6 + 12 + 3) / 12 + 6) / 60 * 0.65)


def test_every_copy_takes_its_time() -> None:
    once, twice = (
        hours("R1: 120 sc in magic ring"),
        hours("R1: 120 sc in magic ring", more=f"{OPEN}\nmake: 2"),
    )
    assert twice[0] == pytest.approx(2 * once[0])


def test_a_seam_takes_three_minutes_and_one_for_eight_stitches() -> None:
    rounds = piece("slate", "R1: 24 sc in magic ring", more=OPEN)
    pieces = {"upper": rounds, "under": rounds}
    alone, sewn = measures(pieces).hours, measures(pieces, None, ["join: {edge: under, to: upper}"])
    assert alone is not None and sewn.hours is not None
    assert sewn.hours[0] - alone[0] == pytest.approx(6 / 60 * 0.65)


def test_placing_and_embroidering_take_their_time() -> None:
    rounds = "R1: 24 sc in magic ring"
    eyes = "place: {item: eyes, piece: body, between: [R1, R1], around: {st: 3, apart: 4}}"
    assert hours(rounds, steps=(eyes,))[0] - hours(rounds)[0] == pytest.approx(4 / 60 * 0.65)
    line = "embroider: {piece: body, with: slate, lines: [{name: one}, {name: two}]}"
    assert hours(rounds, steps=(line,))[0] - hours(rounds)[0] == pytest.approx(10 / 60 * 0.65)


def test_a_round_that_cannot_be_read_leaves_the_time_open() -> None:
    found = measures({"body": "R1: 6 sc in magic ring\nR2: wibble"})
    assert found.hours is None and "body" in found.working["hours"]
