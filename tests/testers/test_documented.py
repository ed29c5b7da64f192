"""How to write a pattern tells the form of a report: its example is read, and every key is told."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from roundproof.pattern.load import read_pattern
from roundproof.pipeline import prove_pattern
from roundproof.proof import Proof
from roundproof.source import Source
from roundproof.testers.corrections import corrections
from roundproof.testers.schema import DECISION, REPORT

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "theme/pages/how-to-write.md").read_text("utf-8")
SECTION = PAGE.partition("\n## Testers\n")[2].partition("\n## ")[0]


def blocks(text: str) -> list[str]:
    return re.findall(r"^```yaml\n(.*?)^```$", text, re.M | re.S)


def example(tmp_path: Path) -> Proof:
    """The whole pattern of the page, with the report and the decisions of the section."""
    whole = next(text for text in blocks(PAGE) if "title: Pebble" in text)
    report, decisions = blocks(SECTION)
    (tmp_path / "testers").mkdir()
    (tmp_path / "testers/7.yaml").write_text(report, "utf-8")
    (tmp_path / "testers/decisions.yaml").write_text(decisions, "utf-8")
    pattern, found = read_pattern(Source("pattern.yaml", whole), "pebble")
    assert pattern is not None
    return prove_pattern(pattern, found, tmp_path)[0]


def test_the_example_is_read_without_a_finding(tmp_path: Path) -> None:
    proof = example(tmp_path)
    assert proof.reports.findings == ()
    (report,) = proof.reports.reports
    assert report.standing.holds and len(report.notes) == 6
    assert proof.tested is not None and proof.tested.hours is not None
    assert proof.tested.hours.middle == 0.75
    decided = [each.place.words for each in corrections(proof.reports) if each.decision]
    assert decided == ["upper R3", "whole"]


def test_the_example_has_every_key_there_is(tmp_path: Path) -> None:
    report, _ = blocks(SECTION)
    assert {key.name for key in REPORT.keys} == set(re.findall(r"^(\w+):", report, re.M))


def keys(part: Any) -> Iterator[str]:
    if isinstance(part, dict):
        yield from part.get("properties", {})
        for inner in part.values():
            yield from keys(inner)
    elif isinstance(part, list):
        for inner in part:
            yield from keys(inner)


def test_every_key_is_told_of_and_no_other() -> None:
    text = re.sub(r"```.*?```", "", SECTION, flags=re.S)
    told = set(re.findall(r"\w+", " ".join(re.findall(r"`([^`\n]+)`", text))))
    there = {*keys(REPORT.schema()), *keys(DECISION.schema())}
    from_balls = {"grams"}  # as in every pattern file
    assert there - told - from_balls == set()
    rows = re.findall(r"^\| ((?:`\w+`(?:, )?)+) \|", SECTION, re.M)
    assert set(re.findall(r"\w+", " ".join(rows))) == {key.name for key in REPORT.keys}
