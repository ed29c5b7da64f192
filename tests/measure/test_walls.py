"""Pieces that are more than one plain wall: rows and then rounds, frills on the way, fans."""

from __future__ import annotations

from math import pi, sin

import pytest

from measure.made import disc, measures, piece, size
from roundproof.measure.fans import Arc
from roundproof.measure.model import Flatness, Form

# ---- rows, then rounds ----
SPLIT = """\
Row 1: ch 21, sc in 2nd ch from hook, sc 19, turn (20)
Rows 2-4: ch 1, sc across, turn (20)
Row 5: ch 1, sc across (20)
{}: sc around (20)
"""


def test_a_piece_that_goes_on_in_rounds_is_a_tube() -> None:
    found = size(SPLIT.format("R6-R15"))
    assert found.form is Form.TURNED
    assert found.height_mm == pytest.approx(15 * 4.0)
    assert found.diameter_mm == pytest.approx(80 / pi)
    assert "5 rows and 10 rounds" in found.working["height"]


def test_only_its_rounds_enclose_something() -> None:
    found = size(SPLIT.format("R6-R15"))
    assert found.volume_ml == pytest.approx(pi * (40 / pi) ** 2 * 10 * 4 / 1000)
    assert "10 rounds in all" in found.working["volume"]


def test_rows_to_the_end_stay_a_flat_piece() -> None:
    found = size(SPLIT.format("Rows 6-15"))
    assert found.form is Form.ROWS and found.diameter_mm == pytest.approx(80)


def test_a_piece_said_to_be_in_rows_is_taken_at_its_word() -> None:
    rounds = SPLIT.format("R6-R15").strip().splitlines()
    found = measures({"body": piece("slate", *rounds, more="worked: rows")}).pieces["body"]
    assert found.form is Form.ROWS


# ---- frills on the way ----
WALL = "R1: 18 sc in magic ring (18)\nR2-R4: sc around (18)\n"
BEHIND = "R6: in the free back loops of R4: sc around (18)\nR7-R9: sc around (18)\n"
FRILLED = WALL + "R5: FLO: 3 sc in each st around (54)\n" + BEHIND
PLAIN = "R1: 18 sc in magic ring (18)\nR2-R8: sc around (18)\n"


def test_a_frill_passed_by_behind_is_left_out_of_the_wall() -> None:
    plain, frilled = size(PLAIN), size(FRILLED)
    assert not frilled.unreliable
    assert frilled.height_mm == pytest.approx(plain.height_mm)
    assert frilled.diameter_mm == pytest.approx(plain.diameter_mm)
    assert frilled.volume_ml == pytest.approx(plain.volume_ml)
    assert frilled.working["height"].endswith("without R5, which hangs off it")


def test_the_outline_still_has_every_round_and_the_frill_its_class() -> None:
    found = size(FRILLED)
    assert [each.number for each in found.outline] == list(range(1, 10))
    ruffled = [each.number for each in found.outline if each.flatness is Flatness.RUFFLED]
    assert ruffled == [5]


def test_two_frills_on_one_wall() -> None:
    more = (
        "R10: FLO: 3 sc in each st around (54)\nR11: in the free back loops of R9: sc around (18)\n"
    )
    found = size(FRILLED + more)
    assert found.working["volume"].endswith("without R5 and R10, which hang off it")
    assert found.height_mm == pytest.approx(8 * 4.0)


def test_a_plain_collar_is_left_out_too() -> None:
    collar = "R5: FLO: 18 sc (18)\n"
    found, plain = size(WALL + collar + BEHIND), size(PLAIN)
    assert found.volume_ml == pytest.approx(plain.volume_ml)
    assert found.height_mm == pytest.approx(plain.height_mm)


def test_a_skirt_worked_last_into_loops_of_a_closed_body_is_no_wall() -> None:
    closed = "R5: BLO: sc around (18)\nR6: 9 dec (9)\n"
    skirt = "R7: in the free front loops of R4: sc around (18)\nR8-R12: sc around (18)\n"
    alone, skirted = size(WALL + closed), size(WALL + closed + skirt)
    assert skirted.volume_ml == pytest.approx(alone.volume_ml, rel=0.02)


# ---- fans ----
FAN = """\
Row 1: 6 sc in magic ring, turn (6)
Row 2: ch 1, 2 sc in each st across, turn (12)
Row 3: ch 1, (sc, 2 sc in next st) x 6, turn (18)
"""


def test_a_fan_is_as_wide_as_its_arc_is_straight_across() -> None:
    # 18 stitches of 2 mm at 12 mm from the ring: 3 radians
    rounds = piece("slate", *FAN.splitlines(), more="worked: rows")
    yarns = {"slate": "gauge: 50 sts x 25 rounds = 10 cm"}
    found = measures({"body": rounds}, yarns).pieces["body"]
    assert found.form is Form.ROWS
    assert found.diameter_mm == pytest.approx(24 * sin(1.5))
    assert found.height_mm == found.length_mm == pytest.approx(12.0)
    assert found.edge_mm == pytest.approx(36.0)
    assert "straight across" in found.working["diameter"]


@pytest.mark.parametrize(
    ("length", "width", "reach"),
    [
        (10 * pi, 20.0, 10.0),  # half round
        (15 * pi, 20.0, 10 * (1 + sin(pi / 4))),  # three quarters
        (20 * pi, 20.0, 20.0),  # all round
        (30 * pi, 20.0, 20.0),  # more than that ruffles
        (10 * pi / 3, 10.0, 10.0),  # a sixth: the chord is the radius
    ],
)
def test_arcs_of_ten_millimetres(length: float, width: float, reach: float) -> None:
    arc = Arc(10.0, length)
    assert arc.width == pytest.approx(width)
    assert arc.reach == pytest.approx(reach)


def test_a_square_of_rows_is_no_fan() -> None:
    rows = "Row 1: ch 11, sc in 2nd ch from hook, sc 9, turn (10)\nRow 2: ch 1, sc across (10)"
    assert size(rows).diameter_mm == pytest.approx(40.0)
    assert disc(6, 12) and size("\n".join(disc(6, 12, 18))).form is Form.TURNED
