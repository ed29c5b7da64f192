"""Making time, checked by plain arithmetic."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from measure.made import disc, measures, pattern, piece
from proving import proved
from roundproof.measure.model import Measures

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


# ---- pace ----
def at_pace(pace: str) -> Measures:
    rounds = piece("slate", "R1: 120 sc in magic ring", more=OPEN)
    proof, findings = proved(f"pace: {pace}\n" + pattern({"body": rounds}))
    assert proof is not None and not [f for f in findings if f.check != "value-missing"]
    return proof.measures


@pytest.mark.parametrize("pace", ["15 sts a minute", "15 sts per minute", "15 stitches/min."])
def test_the_pattern_may_say_the_pace(pace: str) -> None:
    found = at_pace(pace)
    assert found.hours is not None
    assert found.hours[0] == pytest.approx((1.3 * 120 / 15 + 6) / 60 * 0.65)
    assert "at 15 single crochets a minute (as the pattern says)" in found.working["hours"]


def test_without_one_the_working_says_that_the_pace_is_a_common_one() -> None:
    found = measures({"body": "R1: 120 sc in magic ring"})
    assert "at 12 single crochets a minute (a common pace)" in found.working["hours"]


# ---- piece by piece ----
EYES = "place: {item: eyes, piece: body, between: [R1, R1], around: {st: 3, apart: 4}}"


def test_all_copies_of_a_piece_together_and_making_up_apart() -> None:
    pieces = {
        "body": piece("slate", "R1: 120 sc in magic ring", more=OPEN),
        "leg": piece("slate", "R1: 12 sc in magic ring", more=f"{OPEN}\nmake: 4"),
    }
    found = measures(pieces, None, [EYES])
    body, leg = found.time["body"].hours, found.time["leg"].hours
    assert body is not None and leg is not None and found.making_up.hours is not None
    assert body[0] == pytest.approx((13 + 6) / 60 * 0.65)
    assert leg[1] == pytest.approx(4 * (1.3 + 6) / 60 * 1.35)
    assert found.making_up.hours[1] == pytest.approx(4 / 60 * 1.35)
    assert found.time["leg"].working.startswith("all 4 copies: stitches ")


def test_filling_a_piece_is_part_of_its_time() -> None:
    rounds = ["R1: 6 sc in magic ring", "R2: inc x 6", "R3-R9: sc around", "Fasten off."]
    empty = measures({"body": piece("slate", *rounds, more=OPEN)})
    full = measures({"body": piece("slate", *rounds[:3], "Stuff.", *rounds[3:], more=OPEN)})
    less, more = empty.time["body"].hours, full.time["body"].hours
    assert less is not None and more is not None
    ml = full.pieces["body"].volume_ml or 0.0
    assert more[0] - less[0] == pytest.approx((2 + ml / 100) / 60 * 0.65)


@given(
    makes=st.lists(st.integers(1, 9), min_size=1, max_size=4),
    counts=st.lists(st.integers(3, 40), min_size=4, max_size=4),
    eyes=st.booleans(),
)
def test_the_pieces_and_making_up_are_the_whole(
    makes: list[int], counts: list[int], eyes: bool
) -> None:
    pieces = {
        key: piece("slate", f"R1: {n} sc in magic ring", "R2-R3: sc around", more=f"make: {make}")
        for key, make, n in zip(("body", "arm", "leg", "ear"), makes, counts, strict=False)
    }
    steps = [f"join: {{edge: {key}, to: body R2, ease: gathered}}" for key in list(pieces)[1:]]
    found = measures(pieces, None, [*steps, *([EYES] if eyes else [])])
    parts = [found.making_up, *found.time.values()]
    assert found.hours is not None
    for end in (0, 1):
        assert sum(p.hours[end] for p in parts if p.hours) == pytest.approx(found.hours[end])


def test_a_piece_that_cannot_be_read_leaves_only_its_own_time_open() -> None:
    found = measures(
        {"body": "R1: 6 sc in magic ring\nR2: wibble", "arm": "R1: 6 sc in magic ring"}
    )
    assert found.hours is None and found.time["body"].hours is None
    assert found.time["body"].working == "body has a round that could not be read"
    assert found.time["arm"].hours is not None


def test_a_piece_without_rounds_takes_no_time_yet() -> None:
    found = measures({"body": "R1: 6 sc in magic ring", "arm": "Note: later."})
    assert found.time["arm"].hours is None
    assert found.time["arm"].working == "arm has no rounds yet"
    assert found.hours == found.time["body"].hours
