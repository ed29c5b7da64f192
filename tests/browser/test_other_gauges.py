"""The arithmetic of the page in a maker's own gauge, against that of the tool: the same cases, and
all patterns there are at several gauges. The joined script of the theme runs in a real browser."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from functools import cache
from math import isclose
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page
from ruamel.yaml import YAML

from proving import proved
from rendering import THEME
from roundproof.fabric.work import work
from roundproof.frozen import replace
from roundproof.measure.finished import finished, stated
from roundproof.measure.gauge import yarn_stitch
from roundproof.measure.gauges_said import Unclear, gauges_said
from roundproof.measure.model import Measures
from roundproof.measure.regauge import in_another_gauge, notion_sizes
from roundproof.pages.scripts import joined
from roundproof.pages.yarn_data import gauge_lines, stitch_height, yarn_data
from roundproof.pattern.model import Gauge
from roundproof.pipeline import prove
from roundproof.proof import Proof

pytestmark = pytest.mark.browser

ROOT = Path(__file__).parents[2]
CASES: Mapping[str, Any] = YAML(typ="safe").load(ROOT / "tests/measure/another_gauge.yaml")
FOLDERS = ("patterns", "tests/clean")
PATTERNS = sorted(
    path.parent.relative_to(ROOT).as_posix()
    for folder in FOLDERS
    for path in (ROOT / folder).glob("*/pattern.yaml")
)
END = "})();\n"
"""How a joined script ends; what it holds is seen from nowhere else."""
SCALES = ((1.0, 1.0), (1.25, 1.25), (0.8, 0.8), (1.1, 0.95), (0.9, 1.2), (2.0, 2.0), (0.37, 0.61))
"""Stitches so many times as wide and as tall; the third yarn of a pattern gets the second one's,
so that yarns that went together no longer do."""


@pytest.fixture(scope="module")
def page(browser: Browser) -> Iterator[Page]:
    page = browser.new_page()
    script = joined(THEME / "js/gauge.js")
    assert script.endswith(END)
    shown = "window.inGauges = inGauges;"
    page.add_script_tag(content=f"{script.removesuffix(END)}{shown}\n{END}")
    yield page
    page.close()


@cache
def proof_in(folder: str) -> Proof:
    (proof,) = prove(ROOT / folder).proofs
    return proof


def then(proof: Proof, gauges: Mapping[str, Gauge]) -> Proof:
    """What the tool makes of other gauges."""
    other = in_another_gauge(proof.pattern, gauges)
    return replace(proof, pattern=other, fabric=work(other)[0])


def on_the_page(page: Page, proof: Proof, gauges: Mapping[str, Gauge]) -> Any:
    """What the page does."""
    lines = gauge_lines(proof)
    own = [size_of(gauges[yarn.key]) if yarn.key in gauges else None for yarn in lines]
    told = json.loads(json.dumps(yarn_data(proof, lines)))
    return page.evaluate("([data, own]) => inGauges(data, own)", [told, own])


def size_of(gauge: Gauge) -> dict[str, float]:
    tall = {"sc": 1.0, "dc": 2.0, "hdc": 1.33, "tr": 2.67}[gauge.stitch]
    return {"width": gauge.over / gauge.stitches, "height": gauge.over / gauge.rounds / tall}


def near(told: list[float | None], wanted: list[float | None]) -> bool:
    """The same to nine digits, and missing where the other is."""
    return len(told) == len(wanted) and all(
        a is b if a is None or b is None else isclose(a, b, rel_tol=1e-9, abs_tol=1e-9)
        for a, b in zip(told, wanted, strict=True)
    )


def same(page: Any, was: Proof, now: Proof) -> None:
    """All figures of the page are those of the tool."""
    measures = now.measures
    for told, size in zip(page["pieces"], measures.pieces.values(), strict=True):
        figures = [size.height_mm, size.diameter_mm, size.length_mm, size.edge_mm]
        there = [told[name] for name in ("height", "diameter", "length", "edge")]
        assert near(there, figures), (size.piece, there, figures)
    same_fits(page, measures)
    metres = [need.metres for need in measures.yarns.values()]
    assert near(page["yarns"], metres), (page["yarns"], metres)
    sizes = notion_sizes(was.pattern, was.fabric, now.pattern, now.fabric)
    assert {size for each in page["notions"] for size in each if size is not None} == {
        n.size_mm for n in sizes
    }
    whole = finished(was.pattern, was.measures.pieces, measures.pieces)
    assert near(page["size"], [each.mm for each in whole])


def same_fits(page: Any, measures: Measures) -> None:
    for told, fit in zip(page["fits"], measures.fits, strict=True):
        assert near(told["lengths"], list(fit.lengths_mm))
        assert told["verdict"] == fit.verdict
        assert told["suggest"] == list(fit.suggest)
        assert told["kept"] == list(fit.kept)


@pytest.mark.parametrize("name", CASES)
def test_a_case_comes_out_on_the_page_as_it_says(page: Page, name: str) -> None:
    case = CASES[name]
    was = proof_in(f"patterns/{case['from']}") if "from" in case else read(case["pattern"])
    gauges = gauges_said(was.pattern, was.measures.yarns, case["gauges"])
    assert not isinstance(gauges, Unclear)
    told = on_the_page(page, was, gauges)
    keys = list(was.fabric.pieces)
    for key, figures in case["sizes"].items():
        names = {"width": "diameter"}
        there = {f: told["pieces"][keys.index(key)][names.get(f, f)] / 10 for f in figures}
        assert there == pytest.approx(figures, abs=0.006), key
    for fit, wanted in zip(told["fits"], case.get("fits", []), strict=True):
        assert [mm / 10 for mm in fit["lengths"]] == pytest.approx(wanted["lengths"], abs=0.006)
        assert (fit["suggest"], fit["verdict"]) == (wanted["suggest"], wanted["verdict"])
    words = [each.word for each in stated(was.pattern, was.measures.pieces)]
    for name, wanted in case.get("finished", {}).items():
        assert told["size"][words.index(name)] == pytest.approx(10 * wanted, abs=0.06)
    metres = dict(zip(was.measures.yarns, told["yarns"], strict=True))
    assert metres == pytest.approx(case["metres"], abs=0.006)
    assert told["notions"] == [[each["size"]] for each in case.get("notions", [])]
    same(told, was, then(was, gauges))


@pytest.mark.parametrize("folder", PATTERNS)
def test_the_page_and_the_tool_come_to_the_same(page: Page, folder: str) -> None:
    was = proof_in(folder)
    same(on_the_page(page, was, {}), was, was)
    for turn, (width, height) in enumerate(SCALES):
        gauges = {}
        for place, yarn in enumerate(gauge_lines(was)):
            size, more = yarn_stitch(yarn), SCALES[(turn + place // 2) % len(SCALES)]
            if size is None or (place == 1 and turn % 2):  # one keeps its own
                continue
            wide, tall = (width, height) if place < 2 else more
            gauges[yarn.key] = Gauge(
                round(100 / size.width_mm / wide, 2),
                round(100 / size.height_mm / tall, 2),
                100,
                yarn.span,
            )
        same(on_the_page(page, was, gauges), was, then(was, gauges))


ODD = """
terms: US
yarns:
  slate: {ball: 50 g / 125 m, gauge: 25 sts x 25 rounds = 10 cm, hook: 3 mm}
  chalk: {weight: 3}
  moss: {fibre: linen}
  rust: {gauge: 20 sts x 20 rounds = 10 cm}
  dove: {ball: 50 g / 125 m, gauge: 22 sts x 24 rounds = 10 cm, swatch: {stitches: 100, grams: 5}}
pieces:
  one:
    yarn: slate
    open_edge: yes
    rounds: |
      R1: 24 sc in magic ring (24)
  two:
    yarn: chalk
    open_edge: yes
    rounds: |
      R1: 26 sc in magic ring (26)
  three:
    yarn: moss
    open_edge: yes
    rounds: |
      R1: 24 sc in magic ring (24)
  four:
    yarn: moss
    open_edge: yes
    rounds: |
      R1: 30 sc in magic ring (30)
  five:
    yarn: rust
    open_edge: yes
    rounds: |
      R1: 30 sc in magic ring (30)
  six:
    yarn: dove
    open_edge: yes
    make: 2
    rounds: |
      R1: 34 sc in magic ring (34)
  seven:
    yarn: slate
    strands: 2
    open_edge: yes
    rounds: |
      R1: 24 sc in magic ring (24)
  eight:
    yarn: slate
    hook: 4 mm
    open_edge: yes
    rounds: |
      R1: 40 sc in magic ring (40)
  nine:
    yarn: slate
    open_edge: yes
    rounds: |
      R1: 25 sc in magic ring (25)
assembly:
  - join: {edge: one, to: two, by: whipstitch}
  - join: {edge: three, to: four, by: whipstitch}
  - join: {edge: three, to: five, by: whipstitch, ease: yes}
  - join: {edge: four, to: three, by: whipstitch, ease: gathered}
  - join: {edge: two, to: four, by: whipstitch}
  - join: {edge: one, to: six, by: crochet, stitch: sc, count: 24, with: dove}
  - join: {edge: six, to: five, by: whipstitch, with: rust, ease: yes}
  - join: {edge: eight, to: one, by: whipstitch}
  - join: {edge: seven, to: one, by: whipstitch, ease: gathered}
  - join: {edge: nine, to: one, by: whipstitch}
  - join: {edge: one, to: nine, by: whipstitch, ease: yes}
"""
"""Yarns of which little is known, and joins of every kind."""
SAID = (
    (),
    ("slate",),
    ("chalk",),
    ("moss",),
    ("rust", "dove"),
    ("moss", "chalk"),
    ("slate", "dove"),
)


@pytest.mark.parametrize("said", SAID, ids="-".join)
@pytest.mark.parametrize("gauge", [(20.0, 20.0), (23.0, 26.5), (26.0, 24.0), (12.5, 14.0)])
def test_little_is_known_of_some_yarns(
    page: Page, said: tuple[str, ...], gauge: tuple[float, float]
) -> None:
    was = read(ODD)
    yarns = {yarn.key: yarn for yarn in was.pattern.yarns}
    gauges = {key: Gauge(*gauge, 100, yarns[key].span) for key in said}
    same(on_the_page(page, was, gauges), was, then(was, gauges))


def read(text: str) -> Proof:
    proof, _ = proved(text)
    assert proof is not None
    return proof


def test_the_heights_of_stitches_are_those_of_the_table() -> None:
    proof = read(CASES["counted-in-another-stitch"]["pattern"])
    (yarn,) = proof.pattern.yarns
    assert yarn.gauge is not None
    for stitch, tall in (("sc", 1.0), ("hdc", 1.33), ("dc", 2.0), ("tr", 2.67)):
        assert stitch_height(replace(yarn, gauge=replace(yarn.gauge, stitch=stitch))) == tall
