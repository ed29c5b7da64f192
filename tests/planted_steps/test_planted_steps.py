"""Every rule of the assembly: a mistake planted in a clean pattern is one finding, at its words."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

from roundproof.findings import Finding
from roundproof.pipeline import prove

HERE = Path(__file__).parent
CLEAN = HERE.parent / "clean"
MISTAKES: dict[str, dict[str, Any]] = YAML(typ="safe").load(HERE / "oystercatcher.yaml")


def planted(folder: Path, put: dict[str, str]) -> tuple[Finding, ...]:
    """What is found in the clean pattern once some words of it are exchanged."""
    shutil.copytree(CLEAN / "oystercatcher", folder / "oystercatcher")
    shutil.copy(CLEAN / "defaults.yaml", folder / "defaults.yaml")
    file = folder / "oystercatcher" / "pattern.yaml"
    text = file.read_text(encoding="utf-8")
    for old, new in put.items():
        assert text.count(old) == 1, (old, text.count(old))
        text = text.replace(old, new)
    file.write_text(text, encoding="utf-8")
    return tuple(prove(folder / "oystercatcher").findings)


@pytest.mark.parametrize("name", MISTAKES)
def test_a_mistake_in_a_step_is_one_finding_at_its_words(name: str, tmp_path: Path) -> None:
    row = MISTAKES[name]
    findings = planted(tmp_path, row["put"])
    assert [f.check for f in findings] == [row["check"]], [f.message for f in findings]
    (finding,) = findings
    assert finding.severity == row.get("severity", "error")
    assert finding.span.text == row["words"]
    assert row["says"] in finding.message
    assert row.get("mend", "") in finding.mend
    assert finding.mend


def test_every_kind_of_mistake_is_planted() -> None:
    assert {row["check"] for row in MISTAKES.values()} >= {
        "edge-open", "edge-unknown", "embroidery-line", "facing-unsaid", "insert-long",
        "join-count", "join-fit", "join-front", "joint-path", "left-right-unsaid", "order-closed",
        "order-early",
        "piece-unjoined", "place-count", "place-lopsided", "place-shared", "place-uneven",
        "step-differs", "tail-missing",
    }  # fmt: skip
