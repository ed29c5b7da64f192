"""How rounds lie."""

from __future__ import annotations

import pytest

from measure.made import disc, size
from roundproof.measure.flatness import flat_increases, flatness, frill
from roundproof.measure.model import Flatness, Frill


def steady(slope: float, rounds: int = 6) -> Flatness:
    """The class of a disc that grows evenly, at its last round."""
    reached = 1 + (slope - 1) if slope > 1 else 1.0
    return flatness([slope] * rounds, [reached] * rounds)[-1]


@pytest.mark.parametrize(
    ("slope", "expected"),
    [
        (0.0, Flatness.CONE),
        (0.6, Flatness.CONE),
        (0.61, Flatness.CUPPED),
        (0.93, Flatness.CUPPED),
        (0.94, Flatness.FLAT),
        (1.15, Flatness.FLAT),
        (1.16, Flatness.WAVY),
        (1.35, Flatness.WAVY),
        (1.36, Flatness.RUFFLED),
    ],
)
def test_the_limits_belong_to_the_milder_class(slope: float, expected: Flatness) -> None:
    assert steady(slope) is expected


def test_one_round_out_of_step_is_evened_out_by_the_two_before() -> None:
    assert flatness([1.0, 1.0, 0.82], [1, 1, 1])[-1] is Flatness.FLAT


def test_a_steep_slope_on_a_wide_rim_hardly_shows() -> None:
    # three rounds that grow by half too much, on a rim they lengthen by 5 %
    assert flatness([1.5, 1.5, 1.5], [1.02, 1.04, 1.05])[-1] is Flatness.WAVY


def test_doubling_the_edge_of_a_tube_ruffles_it_at_once() -> None:
    found = size("\n".join(disc(18, 18, 18, 36)))
    assert found.outline[-1].flatness is Flatness.RUFFLED
    # 36 stitches on a circle that reaches one round out: 36 / (18 + 2 pi)
    assert found.outline[-1].fullness == pytest.approx(36 / (18 + 6.2832), rel=1e-4)


def test_a_ring_of_many_stitches_leaves_a_hole_and_does_not_ruffle() -> None:
    assert size("R1: 14 sc in magic ring (14)").outline[0].flatness is Flatness.FLAT


def test_flat_increases_are_two_pi_times_height_over_width() -> None:
    assert flat_increases(5, 5) == pytest.approx(6.2832, abs=1e-4)
    assert flat_increases(5, 4) == pytest.approx(5.0265, abs=1e-4)


@pytest.mark.parametrize(
    ("fullness", "expected"),
    [(1.1, None), (1.25, Frill.GENTLE), (1.5, Frill.GENTLE), (2.0, Frill.FULL), (3.0, Frill.TIGHT)],
)
def test_how_full_a_frill_is(fullness: float, expected: Frill | None) -> None:
    assert frill(fullness) is expected
