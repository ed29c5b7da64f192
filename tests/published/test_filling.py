"""Filling, cushions and frills against outside figures, each with its source and tolerance."""

from __future__ import annotations

from math import pi, sin

import pytest

from measure.made import disc, measures, piece
from roundproof.measure.cushion import (
    INCH,
    OUNCE,
    RADIUS,
    THICKNESS,
    VOLUME,
    Cushion,
    cushion_grams,
    grams_a_litre,
)
from roundproof.measure.firmness import Firmness
from roundproof.measure.stuffing import GRAMS_A_LITRE
from roundproof.measure.waves import fullness_of, wave_height


def test_two_discs_joined_at_their_edges() -> None:
    # sheets of radius 1: radius 0.7627, thickness 0.9139, volume 1.2185 (Wikipedia, "Mylar balloon
    # (geometry)"; 0.001)
    made = Cushion(("face", "back"), 1.0)
    assert made.width / 2 == pytest.approx(0.7627, abs=1e-3)
    assert made.thickness == pytest.approx(0.9139, abs=1e-3)
    assert made.volume == pytest.approx(1.2185, abs=1e-3)


def test_the_shape_of_two_discs_by_its_own_equation() -> None:
    # dz/dx = -x^2 / sqrt(r^4 - x^4), as long as 1 from axis to rim (the same source; 0.001). With
    # x^2 = r^2 sin t the slices are dz = r sqrt(sin t) / 2 dt.
    steps = [(i + 0.5) * pi / 2 / 20000 for i in range(20000)]
    width = pi / 2 / 20000
    thickness = sum(RADIUS * sin(t) ** 0.5 * width for t in steps)
    volume = sum(pi * RADIUS**2 * sin(t) * RADIUS * sin(t) ** 0.5 * width for t in steps)
    assert thickness == pytest.approx(THICKNESS, abs=1e-3)
    assert volume == pytest.approx(VOLUME, abs=1e-3)


@pytest.mark.parametrize(
    ("fullness", "height"), [(1.05, 0.145), (1.2, 0.305), (1.5, 0.524), (2, 0.828), (3, 1.377)]
)
def test_a_frill_as_a_sine(fullness: float, height: float) -> None:
    # trough to crest over the length of a wave (derived; 0.001)
    assert wave_height(fullness) == pytest.approx(height, abs=1e-3)
    assert fullness_of(height) == pytest.approx(fullness, abs=2e-3)


@pytest.mark.parametrize(("ounces", "expected"), [(12, 12.0), (16, 16.0)])
def test_density_of_a_cushion(ounces: float, expected: float) -> None:
    # medium filling is 12 to 16 ounces a cubic foot, 12.0 to 16.0 g a litre (coziepillow.com; 0.1)
    assert grams_a_litre(ounces) == pytest.approx(expected, abs=0.1)


def test_toys_are_filled_two_to_four_times_as_densely() -> None:
    # derived from the pillows (coziepillow.com) and the toys (woohobby.com) of this page
    low, high = grams_a_litre(12), grams_a_litre(16)
    assert 2 <= GRAMS_A_LITRE[Firmness.MEDIUM] / high < GRAMS_A_LITRE[Firmness.FIRM] / low <= 4.2


@pytest.mark.parametrize(("side", "ounces"), [(20, 20.0), (22, 24.2)])
def test_the_rule_for_cushions(side: float, ounces: float) -> None:
    # 5 % of length times width in inches (quiltcraft.com, "Pillow fullness"; exact)
    assert cushion_grams((side * INCH) ** 2) / OUNCE == pytest.approx(ounces, rel=1e-9)


def test_a_toy_of_fifteen_to_twenty_centimetres() -> None:
    # takes 30 to 50 g (woohobby.com, assembly guide). A ball of 9.4 cm for a body, one of 8.7 cm
    # for a head, both of stitches of 4.9 mm.
    def ball(rounds: int) -> str:
        around = [round(2 * (rounds + 1) * sin(i * pi / (rounds + 1))) for i in range(1, rounds)]
        return piece("slate", *disc(*around), "Stuff firmly.")

    yarns = {"slate": "gauge: {stitches: 100, rounds: 100, over: 49 cm}"}
    found = measures({"body": ball(29), "head": ball(27)}, yarns)
    tall = sum(size.height_mm or 0.0 for size in found.pieces.values())
    assert 150 <= tall <= 200
    assert found.stuffing_g is not None and 30 <= found.stuffing_g <= 50
