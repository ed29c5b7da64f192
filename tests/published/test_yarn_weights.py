"""The tables of yarn weights and hooks against their sources."""

from __future__ import annotations

import pytest

from roundproof.reference.hooks import hook, hooks
from roundproof.reference.yarn_weights import yarn_weight, yarn_weights

# Craft Yarn Council, Standard Yarn Weight System, current table: name, single crochets to 4 in,
# hook in mm. A 0 is a bound that is not set. Category 0 is counted in double crochets.
CYC = [
    (0, "Lace", (32, 42), (2.25, 2.25)),
    (1, "Super Fine", (21, 32), (2.25, 3.5)),
    (2, "Fine", (16, 20), (3.5, 4.5)),
    (3, "Light", (12, 17), (4.5, 5.5)),
    (4, "Medium", (11, 14), (5.5, 6.5)),
    (5, "Bulky", (8, 11), (6.5, 9)),
    (6, "Super Bulky", (7, 9), (9, 15)),
    (7, "Jumbo", (0, 6), (15, 0)),
]


@pytest.mark.parametrize(("category", "name", "gauge", "hooks_mm"), CYC)
def test_the_standard_categories(
    category: int, name: str, gauge: tuple[float, float], hooks_mm: tuple[float, float]
) -> None:
    found = yarn_weight(category)
    assert found is not None and found.name == name
    assert (found.gauge.least, found.gauge.most) == gauge
    assert (found.hook.least, found.hook.most) == hooks_mm
    assert found.source.startswith("Craft Yarn Council")


def test_there_are_eight() -> None:
    assert [w.category for w in yarn_weights()] == list(range(8))
    assert yarn_weight(8) is None
    assert [w.gauge_stitch for w in yarn_weights()] == ["dc", *["sc"] * 7]


@pytest.mark.parametrize(
    ("category", "gauge"),
    # Crochet World, October 2018, p. 64, which reprints the standard
    [(3, (12, 17)), (4, (11, 14))],
)
def test_a_magazine_prints_the_same(category: int, gauge: tuple[float, float]) -> None:
    found = yarn_weight(category)
    assert found is not None and (found.gauge.least, found.gauge.most) == gauge


def test_dk_as_shops_describe_it() -> None:
    # 200 to 250 m in 100 g and 11 to 15 wraps per inch (craftys.uk, "Yarn weight & WPI")
    dk = yarn_weight(3)
    assert dk is not None
    assert (dk.wraps.least, dk.wraps.most) == (11, 15)
    assert dk.metres.holds(200) and dk.metres.holds(250)


def test_thinner_yarns_wrap_more_often() -> None:
    middles = [w.wraps.middle for w in yarn_weights()]
    assert middles == sorted(middles, reverse=True)


# Craft Yarn Council, hooks and needles list, from memory; the old UK numbers from shop charts.
@pytest.mark.parametrize(
    ("mm", "us", "uk"),
    [
        (2.25, "B-1", "13"),
        (2.75, "C-2", ""),
        (3.25, "D-3", "10"),
        (3.5, "E-4", "9"),
        (3.75, "F-5", ""),
        (4.0, "G-6", "8"),
        (4.5, "7", "7"),
        (5.0, "H-8", "6"),
        (5.5, "I-9", "5"),
        (6.0, "J-10", "4"),
        (6.5, "K-10 1/2", "3"),
        (8.0, "L-11", "0"),
        (9.0, "M/N-13", "00"),
        (10.0, "N/P-15", "000"),
    ],
)
def test_hook_sizes(mm: float, us: str, uk: str) -> None:
    found = hook(mm)
    assert found is not None and (found.us, found.uk) == (us, uk)


def test_hooks_are_in_order_and_say_how_sure_they_are() -> None:
    sizes = [h.mm for h in hooks()]
    assert sizes == sorted(set(sizes))
    assert all(h.sure in "ABCM" and h.sure for h in hooks())
    assert hook(4.1) is None
