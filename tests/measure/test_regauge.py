"""A pattern in a maker's own yarn: the cases of another_gauge.yaml, and what holds for any."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import isclose
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from ruamel.yaml import YAML

from measure.made import disc, pattern, piece
from proving import proved
from roundproof.fabric.work import work
from roundproof.frozen import replace
from roundproof.measure.finished import finished
from roundproof.measure.gauges_said import Unclear, gauges_said
from roundproof.measure.model import Measures, PieceSize
from roundproof.measure.regauge import as_sold, in_another_gauge, notion_sizes
from roundproof.pipeline import prove
from roundproof.proof import Proof

ROOT = Path(__file__).parents[2]
CASES: Mapping[str, Any] = YAML(typ="safe").load(Path(__file__).with_name("another_gauge.yaml"))


def proof_of(text: str) -> Proof:
    proof, _ = proved(text)
    assert proof is not None
    return proof


def regauged(proof: Proof, *said: str) -> Proof:
    gauges = gauges_said(proof.pattern, proof.measures.yarns, said)
    assert not isinstance(gauges, Unclear), gauges.message
    other = in_another_gauge(proof.pattern, gauges)
    return Proof(other, work(other)[0])


def before(case: Mapping[str, Any]) -> Proof:
    if "pattern" in case:
        return proof_of(case["pattern"])
    (proof,) = prove(ROOT / "patterns" / case["from"]).proofs
    return proof


# ---- the cases ----
@pytest.mark.parametrize("name", CASES)
def test_a_case_comes_out_as_it_says(name: str) -> None:
    case = CASES[name]
    was = before(case)
    now = regauged(was, *case["gauges"])
    assert {k: v.metres for k, v in now.measures.yarns.items()} == pytest.approx(
        case["metres"], abs=0.006
    )
    for key, figures in case["sizes"].items():
        size = now.measures.pieces[key]
        there = {"height": size.height_mm, "width": size.diameter_mm, "length": size.length_mm}
        there["edge"] = size.edge_mm
        told = {k: (there[k] or -1.0) / 10 for k in figures}
        assert told == pytest.approx(figures, abs=0.006), key
    fits = [
        {"lengths": [mm / 10 for mm in f.lengths_mm if mm], "suggest": [*f.suggest]}
        for f in now.measures.fits
    ]
    for fit, told in zip(fits, case.get("fits", []), strict=True):
        assert fit["lengths"] == pytest.approx(told["lengths"], abs=0.006)
        assert fit["suggest"] == told["suggest"]
    said = [fit["verdict"] for fit in case.get("fits", [])]
    assert [fit.verdict for fit in now.measures.fits] == said
    whole = finished(was.pattern, was.measures.pieces, now.measures.pieces)
    for name, wanted in case.get("finished", {}).items():
        assert next(f.mm for f in whole if f.stated.word == name) == pytest.approx(
            10 * wanted, abs=0.06
        )
    sizes = notion_sizes(was.pattern, was.fabric, now.pattern, now.fabric)
    notions = [{"item": n.item, "was": n.was_mm, "size": n.size_mm} for n in sizes]
    assert notions == case.get("notions", [])


# ---- laws ----
COUNTS = st.lists(st.integers(0, 6), min_size=1, max_size=8).map(
    lambda steps: [6, *(6 + sum(steps[: i + 1]) for i in range(len(steps)))]
)
SQUARE = st.floats(1.5, 12)
SCALE = st.floats(0.25, 4)


def toy(counts: Sequence[int], width: float, height: float) -> Proof:
    """A ball and a cap of their own gauge, sewn together, with eyes."""
    over = f"stitches: {100 / width:.9f}, rounds: {100 / height:.9f}, over: 10 cm"
    tight = f"gauge: {{stitches: {125 / width:.9f}, rounds: {110 / height:.9f}, over: 10 cm}}"
    pieces = {
        "body": piece("slate", *disc(*counts, *reversed(counts[:-1]))),
        "cap": piece("slate", *disc(6, 12), more=tight),
    }
    steps = [
        "join: {edge: cap, to: body, ease: gathered}",
        "place: {item: eyes, piece: body, between: [R2, R3], around: {st: 2, apart: 1}}",
    ]
    yarns = {"slate": f"ball: 50 g / 125 m, gauge: {{{over}}}"}
    text = pattern(pieces, yarns, steps) + "notions: [{item: eyes, size: 6.3 mm, count: 2}]\n"
    return proof_of(text)


def times(proof: Proof, k: float) -> Proof:
    """In a yarn whose stitches are k times as wide and as tall."""
    gauge = proof.pattern.yarns[0].gauge
    assert gauge is not None
    larger = replace(gauge, stitches=gauge.stitches / k, rounds=gauge.rounds / k)
    other = in_another_gauge(proof.pattern, {"slate": larger})
    return Proof(other, work(other)[0])


def to(width: float, height: float) -> str:
    return f"{100 / width:.9f} sts x {100 / height:.9f} rounds = 10 cm"


def same(a: float | None, b: float | None, factor: float = 1.0) -> bool:
    if a is None or b is None:
        return a is b
    return isclose(a * factor, b, rel_tol=1e-5, abs_tol=1e-6)


def lengths(size: PieceSize) -> list[float | None]:
    return [size.height_mm, size.diameter_mm, size.length_mm, size.edge_mm]


def scaled(was: Measures, now: Measures, k: float) -> None:
    """Lengths k times, volumes k³ times as large, and all counts and verdicts the same."""
    for key, size in was.pieces.items():
        other = now.pieces[key]
        assert all(same(a, b, k) for a, b in zip(lengths(size), lengths(other), strict=True))
        assert same(size.volume_ml, other.volume_ml, k**3)
        assert [r.flatness for r in size.outline] == [r.flatness for r in other.outline]
    for fit, other_fit in zip(was.fits, now.fits, strict=True):
        assert same(fit.mismatch, other_fit.mismatch)
        assert (fit.counts, fit.suggest) == (other_fit.counts, other_fit.suggest)


@given(counts=COUNTS, width=SQUARE, aspect=st.floats(0.7, 1.4), k=SCALE)
def test_k_times_the_stitch_gives_k_times_the_lengths_and_k_cubed_the_volume(
    counts: list[int], width: float, aspect: float, k: float
) -> None:
    was = toy(counts, width, width * aspect)
    now = times(was, k)
    scaled(was.measures, now.measures, k)
    fixed = 1.15 * (2 * 2 * 150 + 2 * 150) / 1000  # tails of two pieces and of a seam
    one, two = was.measures.yarns["slate"].metres, now.measures.yarns["slate"].metres
    assert one is not None and two is not None
    assert same(one - fixed, two - fixed, k)
    (eyes,) = notion_sizes(was.pattern, was.fabric, now.pattern, now.fabric)
    assert eyes.was_mm == 6.3
    assert (
        abs(eyes.size_mm - 6.3 * k) <= (0.25 if eyes.size_mm < 10 else 0.5) + 1e-6
        or eyes.size_mm == 0.5
    )


@given(counts=COUNTS, width=SQUARE, aspect=st.floats(0.7, 1.4))
def test_the_same_gauge_gives_the_same_figures(
    counts: list[int], width: float, aspect: float
) -> None:
    was = toy(counts, width, width * aspect)
    now = regauged(was, to(width, width * aspect))
    scaled(was.measures, now.measures, 1.0)
    assert same(was.measures.yarns["slate"].metres, now.measures.yarns["slate"].metres)
    assert same(was.measures.stuffing_g, now.measures.stuffing_g)
    assert was.measures.hours == pytest.approx(now.measures.hours)
    (eyes,) = notion_sizes(was.pattern, was.fabric, now.pattern, now.fabric)
    assert eyes.size_mm == eyes.was_mm


@given(counts=COUNTS, width=SQUARE, k=SCALE)
def test_there_and_back_again(counts: list[int], width: float, k: float) -> None:
    was = toy(counts, width, width)
    again = times(times(was, k), 1 / k)
    scaled(was.measures, again.measures, 1.0)
    assert same(was.measures.yarns["slate"].metres, again.measures.yarns["slate"].metres)


def test_the_time_stays_but_for_the_filling() -> None:
    was = toy([6, 12, 18], 4, 4)
    now = regauged(was, to(8, 8))
    old, new = was.measures, now.measures
    assert old.making_up.hours == new.making_up.hours
    assert old.time["cap"].hours == pytest.approx(new.time["cap"].hours, abs=0.001)
    assert old.hours == pytest.approx(new.hours, rel=0.01)


# ---- what no longer holds ----
def test_grams_and_balls_are_not_told_and_why() -> None:
    was = proof_of(
        pattern(
            {"body": piece("slate", "R1: 100 sc in magic ring")},
            {
                "slate": "ball: 50 g / 125 m, balls: 1, gauge: 20 sts x 20 rounds = 10 cm,"
                " swatch: {stitches: 100, grams: 30}"
            },
        )
    )
    old = was.measures.yarns["slate"]
    new = regauged(was, "10 sts x 10 rounds = 10 cm").measures.yarns["slate"]
    assert (old.estimated, old.no_put_up, old.balls, old.listed_metres) == (False, "", 1, 125)
    assert (new.estimated, new.grams, new.balls) == (True, None, None)
    assert new.no_put_up == "how another yarn is put up is not known"
    assert (new.listed_metres, new.runs_out) == (None, None)
    assert new.metres is not None


def test_two_strands_and_another_hook_alter_the_other_gauge_too() -> None:
    was = proof_of(
        pattern(
            {"body": piece("slate", "R1: 10 sc in magic ring", more="strands: 2")},
            {"slate": "gauge: 20 sts x 20 rounds = 10 cm"},
        )
    )
    size = regauged(was, "10 sts x 10 rounds = 10 cm").measures.pieces["body"]
    assert size.edge_mm == pytest.approx(100 * 2**0.5) and size.guessed


def test_a_piece_that_is_like_another_with_a_gauge_of_its_own() -> None:
    tight = "gauge: 40 sts x 40 rounds = 10 cm"
    was = proof_of(
        pattern(
            {
                "arm": piece("slate", "R1: 20 sc in magic ring", more=tight),
                "leg": "same_as: arm\nmake: 2\n# rounds: |",
            },
            {"slate": "gauge: 20 sts x 20 rounds = 10 cm"},
        )
    )
    now = regauged(was, "10 sts x 10 rounds = 10 cm").measures.pieces
    assert now["arm"].edge_mm == pytest.approx(100) and now["leg"].edge_mm == pytest.approx(100)


def test_a_yarn_of_which_nothing_was_known_gets_its_sizes() -> None:
    was = proof_of(pattern({"body": piece("slate", "R1: 10 sc in magic ring")}, {"slate": ""}))
    assert was.measures.pieces["body"].edge_mm is None
    now = regauged(was, "slate: 20 sts x 20 rounds = 10 cm").measures
    assert now.pieces["body"].edge_mm == pytest.approx(50)
    assert now.yarns["slate"].metres == pytest.approx((10 * 6.9 * 5 + 300) / 1000 * 1.15)


# ---- eyes ----
@pytest.mark.parametrize(
    ("was", "factor", "size"),
    [
        (6, 1.2, 7), (6, 1.12, 6.5), (6, 1.1, 6.5), (8, 1.22, 10), (8, 1.3, 10), (12, 1.2, 14),
        (12, 0.8, 9.5), (4.8, 1.0, 4.8), (1, 0.1, 0.5), (9, 1.15, 10), (10, 1.05, 11),
    ],
)  # fmt: skip
def test_eyes_come_in_half_millimetres_below_ten(was: float, factor: float, size: float) -> None:
    assert as_sold(was, factor) == size


# ---- which yarn ----
TWO = pattern(
    {
        "one": piece("slate", "R1: 10 sc in magic ring"),
        "two": piece("chalk", "R1: 10 sc in magic ring"),
    },
    {
        "slate": "gauge: 25 sts x 25 rounds = 10 cm, colour: {name: storm grey}",
        "chalk": "gauge: 20 sts x 20 rounds = 10 cm",
        "idle": "gauge: 9 sts x 9 rounds = 10 cm",
    },
)


def unclear(*said: str, text: str = TWO) -> str:
    proof = proof_of(text)
    found = gauges_said(proof.pattern, proof.measures.yarns, said)
    assert isinstance(found, Unclear)
    return found.message


@pytest.mark.parametrize("word", ["slate", "Slate", "storm grey", "A"])
def test_a_yarn_goes_by_its_key_its_colour_or_its_letter(word: str) -> None:
    sizes = regauged(proof_of(TWO), f"{word}: 10 sts x 10 rounds = 10 cm").measures.pieces
    assert (sizes["one"].edge_mm, sizes["two"].edge_mm) == (pytest.approx(100), pytest.approx(50))


def test_one_without_a_name_is_for_the_yarns_that_no_other_names() -> None:
    said = ("slate: 10 sts x 10 rounds = 10 cm", "16 sts x 16 rounds = 10 cm")
    sizes = regauged(proof_of(TWO), *said).measures.pieces
    assert (sizes["one"].edge_mm, sizes["two"].edge_mm) == (pytest.approx(100), pytest.approx(62.5))


def test_one_without_a_name_is_unclear_where_the_yarns_differ() -> None:
    said = unclear("18 sts x 20 rounds = 10 cm")
    assert said.startswith("The yarns slate and chalk are not all in one gauge.")
    assert '--gauge "slate: 18 sts x 20 rounds = 10 cm"' in said


@pytest.mark.parametrize(
    ("said", "why"),
    [
        ("slat: 18 sts x 20 rounds = 10 cm", "There is no yarn called `slat`. Did you mean slate?"),
        ("moss: 18 sts x 20 rounds = 10 cm", "`moss`. Its yarns are: slate, chalk."),
        ("18 sts x 20 rounds", "it does not say over what length it is counted"),
        ("slate: 0 sts x 20 rounds = 10 cm", "that cannot be"),
        ("slate", "`slate` is no gauge."),
        ("", "is no gauge."),
        (":::", "is no gauge."),
    ],
)
def test_what_is_no_gauge_or_no_yarn_is_refused(said: str, why: str) -> None:
    assert why in unclear(said)


@given(st.text(max_size=60))
def test_nothing_that_is_typed_raises(said: str) -> None:
    proof = proof_of(TWO)
    assert gauges_said(proof.pattern, proof.measures.yarns, [said]) is not None
