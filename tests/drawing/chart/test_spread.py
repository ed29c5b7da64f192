"""Places for stitches side by side."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roundproof.drawing.chart.spread import evened, spread

places = st.lists(st.floats(0, 50), min_size=1, max_size=12)


def cost(found: list[float], wanted: list[float]) -> float:
    return sum((one - other) ** 2 for one, other in zip(found, wanted, strict=True))


@pytest.mark.parametrize(
    ("wanted", "found"),
    # Isotonic regression by hand: neighbours that fall are pooled to their mean.
    [
        ([0, 2, 4], [0, 2, 4]),
        ([1, 1], [0.5, 1.5]),
        ([3, 1, 2], [1, 2, 3]),
        ([0, 0, 0, 9], [-1, 0, 1, 9]),
        ([5, 4, 8], [4, 5, 8]),
    ],
)
def test_stitches_that_crowd_share_the_room(wanted: list[float], found: list[float]) -> None:
    assert spread(wanted, [1.0] * len(wanted)) == pytest.approx(found)


@given(places, st.integers(0, 11), st.floats(-1, 1))
def test_no_other_places_are_nearer(wanted: list[float], which: int, by: float) -> None:
    """Moving all from one on, or all up to one, as far as the gaps let them, never helps."""
    gaps = [1.0] * len(wanted)
    found = spread(wanted, gaps)
    assert all(other - one >= 1 - 1e-9 for one, other in pairwise(found))
    at = which % len(found)
    for moved in (
        [place + (by if n >= at else 0) for n, place in enumerate(found)],
        [place + (by if n <= at else 0) for n, place in enumerate(found)],
        [place + (by if n == at else 0) for n, place in enumerate(found)],
    ):
        if all(other - one >= 1 - 1e-9 for one, other in pairwise(moved)):
            assert cost(moved, wanted) >= cost(found, wanted) - 1e-6


@given(st.lists(st.floats(0, 29.9), min_size=2, max_size=12).map(sorted))
def test_on_a_ring_the_ends_keep_apart_as_well(wanted: list[float]) -> None:
    gaps = [*[1.0] * (len(wanted) - 1), 2.0]
    found = spread(wanted, gaps, 30.0)
    assert all(other - one >= 1 - 1e-6 for one, other in pairwise(found))
    assert found[0] + 30 - found[-1] >= 2 - 1e-6


def test_room_to_spare_is_shared_out() -> None:
    """Where two stitches were made one, their neighbours close up by and by."""
    wanted = [0.0, 1.0, 4.0, 5.0]
    found = evened(wanted, [1.0] * 4)
    assert found[2] - found[1] < 3 - 0.5
    ring = evened([0.0, 1.0, 2.0, 3.0], [1.0] * 4, 8.0)
    steps = [other - one for one, other in pairwise([*ring, ring[0] + 8])]
    assert max(steps) < 4  # it was 5 across the end
