"""One mistake planted in a clean pattern is one finding, at its words.

A row names the clean pattern (the oystercatcher where it names none), the words that are exchanged,
each of which stands there once, and the finding: its check, its words, a part of its message and of
its mend. An error unless it says otherwise."""

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
_READ = YAML(typ="safe")
MISTAKES: dict[str, dict[str, Any]] = {
    name: row for file in sorted(HERE.glob("*.yaml")) for name, row in _READ.load(file).items()
}


def planted(folder: Path, slug: str, put: dict[str, str]) -> tuple[Finding, ...]:
    """What is found in a clean pattern once some words of it are exchanged."""
    shutil.copytree(CLEAN / slug, folder / slug)
    shutil.copy(CLEAN / "defaults.yaml", folder / "defaults.yaml")
    file = folder / slug / "pattern.yaml"
    text = file.read_text(encoding="utf-8")
    for old, new in put.items():
        assert text.count(old) == 1, (old, text.count(old))
        text = text.replace(old, new)
    file.write_text(text, encoding="utf-8")
    return tuple(prove(folder / slug).findings)


@pytest.mark.parametrize("name", MISTAKES)
def test_a_mistake_is_one_finding_at_its_words(name: str, tmp_path: Path) -> None:
    row = MISTAKES[name]
    findings = planted(tmp_path, row.get("in", "oystercatcher"), row["put"])
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
