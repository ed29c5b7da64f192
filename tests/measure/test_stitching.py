"""Lines of embroidery, by plain arithmetic on a gauge of 4 mm by 4 mm."""

from __future__ import annotations

from math import hypot

import pytest

from measure.made import measures, pattern
from proving import proved
from roundproof.measure.spending import TAIL
from roundproof.measure.stitching import sewn_lines

BALL = ["R1: 6 sc in magic ring", "R2: inc x 6", "R3: (sc, inc) x 6", "R4-R9: sc around"]


def line(ends: str, more: str = "") -> float:
    step = f"embroider: {{piece: body, with: slate, lines: [{{{ends}{more}}}]}}"
    proof, _ = proved(pattern({"body": "\n".join(BALL)}, steps=[step]))
    assert proof is not None
    (sewn,) = sewn_lines(proof.pattern, proof.fabric)
    return sewn.mm


@pytest.mark.parametrize(
    ("ends", "mm"),
    [
        ("from: R5 st 3, to: R5 st 6", 3 * 4),
        ("from: R5 st 3, to: R8 st 3", 3 * 4),
        ("from: R5 st 3, to: R8 st 7", hypot(3 * 4, 4 * 4)),
        ("from: R5 st 2, to: R5 st 17", 3 * 4),  # the shorter way round 18
        ("from: between R5 and R6 st 3, to: R5 st 3", 0.5 * 4),
        ("from: R5, to: R7", 2 * 4),
    ],
)
def test_a_line_is_as_long_as_it_runs_over_rounds_and_stitches(ends: str, mm: float) -> None:
    assert line(ends) == pytest.approx(mm)


def test_its_yarn_counts() -> None:
    step = "embroider: {piece: body, with: chalk, lines: [{from: R5 st 3, to: R8 st 7, times: 2}]}"
    yarns = {
        "slate": "gauge: 25 sts x 25 rounds = 10 cm",
        "chalk": "gauge: 25 sts x 25 rounds = 10 cm",
    }
    body = "yarn: slate\nrounds: |\n" + "\n".join(f"  {each}" for each in BALL)
    need = measures({"body": body}, yarns, [step]).yarns["chalk"]
    # 20 mm, on both sides of the fabric, twice, and two tails; 15 % to be safe
    assert need.metres == pytest.approx((20 * 2 * 2 + 2 * TAIL) / 1000 * 1.15)
