"""How a difference is spread."""

from __future__ import annotations

import pytest

from roundproof.measure.spacing import partner, spread


@pytest.mark.parametrize(("count", "events"), [(124, 14), (60, 7), (6, 1), (5, 5), (30, 4)])
def test_the_gaps_come_to_the_whole(count: int, events: int) -> None:
    plan = spread(count, events)
    assert sum(gap * times for gap, times in plan) == count
    assert sum(times for _, times in plan) == events


def test_six_stitches_on_five_double_one() -> None:
    partners = [partner(stitch, 6, 5) for stitch in range(1, 7)]
    assert sorted(set(partners)) == [1, 2, 3, 4, 5]
    assert partners == sorted(partners) and len(partners) == 6
