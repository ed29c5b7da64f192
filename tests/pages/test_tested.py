"""What testers measured, beside the estimate: on the page, and in the editor's copy."""

from __future__ import annotations

from pathlib import Path

import pytest

from reporting import folder_of, proof
from roundproof.frozen import replace
from roundproof.pages.front import facts
from roundproof.pages.materials import materials
from roundproof.pages.review_figures import figures
from roundproof.pages.tested import time_tested, yarn_tested
from roundproof.proof import Proof

REPORT = (
    "pattern: planted\nversion: 1.1.1\ntester: '{n}'\ntime: {{crochet: {n} h, assembly: 1 h}}\n"
    "yarns: {{slate: {{ball: 50 g / 125 m, before: 9{n} g, after: 60 g}}}}\n"
)


def with_reports(folder: Path, *testers: int) -> Proof:
    return replace(
        proof(), folder=folder_of(folder, **{f"r{n}": REPORT.format(n=n) for n in testers})
    )


def test_the_median_stands_first_then_the_range(tmp_path: Path) -> None:
    tested = with_reports(tmp_path, 1, 2, 6)
    # 31, 32 and 36 g; 2.5 m a gram: 77.5, 80 and 90 m
    assert yarn_tested(tested, "slate") == (
        "Measured by 3\u00a0testers: 80\u00a0m (78–90), 32\u00a0g (31–36)."
    )
    assert time_tested(tested) == "measured by 3\u00a0testers: 3\u00a0h (2–7)"
    assert yarn_tested(tested, "chalk") == ""


def test_one_tester_has_no_range(tmp_path: Path) -> None:
    tested = with_reports(tmp_path, 2)
    assert yarn_tested(tested, "slate") == "Measured by 1\u00a0tester: 80\u00a0m, 32\u00a0g."


@pytest.mark.parametrize("testers", [(), (1, 2)])
def test_it_stands_beside_the_estimate_and_only_there(
    tmp_path: Path, testers: tuple[int, ...]
) -> None:
    tested = with_reports(tmp_path, *testers)
    (slate,) = (thing for thing in materials(tested).things if "slate" in thing.name)
    more = [str(line) for line in slate.more]
    assert more[0].startswith("About ")
    assert any("Measured by" in line for line in more) is bool(testers)
    (time,) = (fact for fact in facts(tested) if fact.label == "Time")
    assert time.more.startswith("estimated") and ("measured by" in time.more) is bool(testers)
    said = {figure.of: figure.how for figure in figures(tested) if figure.name == "yarn"}
    assert ("measured by 2\u00a0testers" in said["slate"]) is bool(testers)
    assert "tails and seams" in said["slate"]
