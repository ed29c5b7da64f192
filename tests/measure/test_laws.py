"""What holds for any piece: sizes scale, and neither terms nor order change them."""

from __future__ import annotations

from itertools import pairwise
from math import isclose

import pytest
from hypothesis import given
from hypothesis import strategies as st

from measure.made import disc, measures, piece
from proving import proved
from roundproof.measure.cushion import cushion_grams
from roundproof.measure.meridian import Stadium
from roundproof.measure.model import Measures, PieceSize

COUNTS = (
    st.lists(st.integers(0, 2), min_size=1, max_size=8)
    .map(lambda steps: [6, *(6 * (1 + sum(steps[: i + 1])) for i in range(len(steps)))])
    .filter(lambda counts: all(b <= 2 * a for a, b in pairwise(counts)))
)
SCALE = st.floats(0.25, 8)
ASPECT = st.floats(0.7, 1.4)


def made(counts: list[int], width: float, height: float) -> Measures:
    """A ball or a bag of these rounds up and down again, with stitches of that size in mm."""
    over = 100.0
    gauge = f"gauge: {{stitches: {over / width:.9f}, rounds: {over / height:.9f}, over: 10 cm}}"
    rounds = disc(*counts, *reversed(counts[:-1]))
    return measures(
        {"body": piece("slate", *rounds), "cap": piece("slate", *disc(6, 12))}, {"slate": gauge}
    )


def same(a: float | None, b: float | None, factor: float = 1.0) -> bool:
    if a is None or b is None:
        return a is b
    return isclose(a * factor, b, rel_tol=1e-5, abs_tol=1e-6)


def lengths(size: PieceSize) -> list[float | None]:
    return [size.height_mm, size.diameter_mm, size.length_mm, size.edge_mm]


@given(counts=COUNTS, aspect=ASPECT, k=SCALE)
def test_lengths_scale_with_the_gauge_and_volumes_with_its_cube(
    counts: list[int], aspect: float, k: float
) -> None:
    small, large = made(counts, 4, 4 * aspect), made(counts, 4 * k, 4 * aspect * k)
    for key, size in small.pieces.items():
        other = large.pieces[key]
        assert all(same(a, b, k) for a, b in zip(lengths(size), lengths(other), strict=True))
        assert same(size.volume_ml, other.volume_ml, k**3)
        assert [r.flatness for r in size.outline] == [r.flatness for r in other.outline]


@given(straight=st.floats(0, 200), radius=st.floats(1, 200), k=SCALE)
def test_areas_scale_with_the_square(straight: float, radius: float, k: float) -> None:
    assert same(Stadium(straight, radius).area, Stadium(k * straight, k * radius).area, k**2)
    assert same(cushion_grams(radius**2), cushion_grams((k * radius) ** 2), k**2)


def spelled(terms: str, plain: int, order: bool, gauge: int = 20) -> Measures:
    sc, dc, hdc = {"US": ("sc", "dc", "hdc"), "UK": ("dc", "tr", "htr")}[terms]
    body = [
        f"R1: 6 {sc} in magic ring (6)",
        "R2: inc x 6 (12)",
        f"R3: {plain} {sc}, {12 - plain} {dc} (12)",
        f"R4: {hdc} around (12)",
    ]
    texts = {"body": body, "arm": [f"R1: 6 {sc} in magic ring (6)", f"R2: {sc} around (6)"]}
    lines = [
        "title: Example",
        f"terms: {terms}",
        "yarns:",
        f"  slate: {{ball: 50 g / 125 m, gauge: {gauge} sts x {gauge} rounds = 10 cm}}",
        "pieces:",
    ]
    for key in sorted(texts, reverse=order):
        lines += [f"  {key}: |", *(f"    {line}" for line in texts[key])]
    lines += ["assembly:", "  - join: {edge: arm, to: body, ease: gathered, by: whipstitch}"]
    proof, _ = proved("\n".join(lines) + "\n")
    assert proof is not None
    return proof.measures


def figures(found: Measures) -> dict[str, object]:
    sizes = {key: (lengths(s), s.volume_ml, s.outline) for key, s in sorted(found.pieces.items())}
    yarns = {key: (need.metres, need.grams) for key, need in found.yarns.items()}
    fits = [(f.counts, f.lengths_mm, f.fit, f.verdict) for f in found.fits]
    return {"sizes": sizes, "yarns": yarns, "fits": fits}


@given(plain=st.integers(1, 11), gauge=st.integers(8, 40))
def test_both_spellings_measure_alike(plain: int, gauge: int) -> None:
    us, uk = spelled("US", plain, False, gauge), spelled("UK", plain, False, gauge)
    assert figures(us) == figures(uk)
    assert (us.stuffing_g, us.hours) == (uk.stuffing_g, uk.hours)
    assert us.pieces["body"].height_mm is not None


@given(plain=st.integers(1, 11), gauge=st.integers(8, 40))
def test_the_order_of_the_pieces_changes_nothing(plain: int, gauge: int) -> None:
    one, two = (
        figures(spelled("US", plain, False, gauge)),
        figures(spelled("US", plain, True, gauge)),
    )
    assert one["sizes"] == two["sizes"] and one["fits"] == two["fits"]
    (a,), (b,) = one["yarns"].values(), two["yarns"].values()  # type: ignore[attr-defined]
    assert a == pytest.approx(b)
