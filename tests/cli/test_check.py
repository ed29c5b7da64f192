"""`roundproof check`: what it looks at, what it prints, how it ends."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from roundproof.cli.main import main

Said = pytest.CaptureFixture[str]

FINE = """\
title: {title}
status: {status}
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc in each st around ({count})
"""


@pytest.fixture
def patterns(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder `patterns` with a draft that holds and one that does not; the test stands above."""
    monkeypatch.chdir(tmp_path)
    for slug, count in (("fine", 12), ("wrong", 13)):
        add(tmp_path / "patterns", slug, count=count)
    return tmp_path / "patterns"


def add(patterns: Path, slug: str, count: int = 12, status: str = "draft") -> None:
    folder = patterns / slug
    folder.mkdir(parents=True)
    text = FINE.format(title=slug.capitalize(), status=status, count=count)
    (folder / "pattern.yaml").write_text(text, encoding="utf-8")


def as_json(capsys: Said, *words: str) -> tuple[int, dict[str, Any]]:
    code = main(["check", "--format", "json", *words])
    return code, json.loads(capsys.readouterr().out)


def names(told: dict[str, Any]) -> list[str]:
    return [each["file"] for each in told["patterns"]]


@pytest.mark.parametrize(
    ("paths", "files"),
    [
        ([], ["patterns/fine/pattern.yaml", "patterns/wrong/pattern.yaml"]),
        (["patterns"], ["patterns/fine/pattern.yaml", "patterns/wrong/pattern.yaml"]),
        (["patterns/fine"], ["patterns/fine/pattern.yaml"]),
        (["patterns/fine/pattern.yaml"], ["patterns/fine/pattern.yaml"]),
        (["fine"], ["patterns/fine/pattern.yaml"]),
        (["fine", "patterns/fine"], ["patterns/fine/pattern.yaml"]),
    ],
)
@pytest.mark.usefixtures("patterns")
def test_what_a_path_may_be(paths: list[str], files: list[str], capsys: Said) -> None:
    assert names(as_json(capsys, *paths)[1]) == files


@pytest.mark.usefixtures("patterns")
def test_exit_codes(capsys: Said) -> None:
    assert as_json(capsys, "fine")[0] == 0
    assert as_json(capsys, "wrong")[0] == 1
    assert as_json(capsys, "wrong", "nowhere")[0] == 2


@pytest.mark.usefixtures("patterns")
def test_json_is_printed_whatever_cannot_be_used(capsys: Said) -> None:
    code, told = as_json(capsys, "nowhere", "fine")
    assert code == 2
    missing = told["patterns"][0]
    assert (missing["file"], missing["title"], missing["pieces"]) == ("nowhere", None, [])
    assert told["patterns"][1]["title"] == "Fine"


@pytest.mark.usefixtures("patterns")
def test_names_are_told_from_where_the_command_runs(
    capsys: Said, monkeypatch: pytest.MonkeyPatch, patterns: Path
) -> None:
    monkeypatch.chdir(patterns)
    assert names(as_json(capsys, "fine")[1]) == ["fine/pattern.yaml"]
    assert names(as_json(capsys, str(patterns / "fine"))[1]) == ["fine/pattern.yaml"]


def test_warnings_can_be_made_to_count(patterns: Path, capsys: Said) -> None:
    pattern = patterns / "fine" / "pattern.yaml"
    pattern.write_text(pattern.read_text("utf-8").replace("terms: US\n", ""), encoding="utf-8")
    assert main(["check", "fine"]) == 0
    assert main(["check", "fine", "--fail-on", "warning"]) == 1
    assert main(["check", "fine", "--fail-on", "note"]) == 1
    capsys.readouterr()


def test_notes_alone_do_not_count_unless_asked(patterns: Path, capsys: Said) -> None:
    assert main(["check", "fine", "--fail-on", "warning"]) == 0
    assert main(["check", "fine", "--fail-on", "note"]) == 1
    capsys.readouterr()


def test_only_patterns_of_a_status(patterns: Path, capsys: Said) -> None:
    add(patterns, "tested", status="testing")
    _, told = as_json(capsys, "--status", "testing")
    assert names(told) == ["patterns/tested/pattern.yaml"]
    assert as_json(capsys, "--status", "published") == (
        0,
        {"patterns": [], "summary": {"errors": 0, "warnings": 0, "notes": 0}},
    )


@pytest.mark.usefixtures("patterns")
def test_a_draft_judged_as_if_published(capsys: Said) -> None:
    assert as_json(capsys, "fine")[0] == 0
    code, told = as_json(capsys, "fine", "--as", "published")
    assert code == 1
    assert {f["severity"] for f in told["patterns"][0]["findings"]} == {"error"}


def test_defaults_are_read_once_and_their_faults_told_once(patterns: Path, capsys: Said) -> None:
    (patterns / "defaults.yaml").write_text("designer: Someone\ncolour: grey\n", encoding="utf-8")
    code, told = as_json(capsys)
    assert code == 1
    found = [
        f for each in told["patterns"] for f in each["findings"] if f["check"] == "key-unknown"
    ]
    assert [f["file"] for f in found] == ["patterns/defaults.yaml"]


def test_defaults_that_cannot_be_used_make_the_whole_unusable(patterns: Path, capsys: Said) -> None:
    (patterns / "defaults.yaml").write_text("designer: 'open", encoding="utf-8")
    assert as_json(capsys, "fine")[0] == 2


@pytest.mark.usefixtures("patterns")
@pytest.mark.parametrize("style", ["text", "sarif", "github"])
def test_other_formats(style: str, capsys: Said) -> None:
    assert main(["check", "wrong", "--format", style]) == 1
    assert "count-stated" in capsys.readouterr().out


def test_checking_again_sees_what_changed(patterns: Path, capsys: Said) -> None:
    assert main(["check"]) == 1
    wrong = patterns / "wrong" / "pattern.yaml"
    wrong.write_text(wrong.read_text("utf-8").replace("13", "12"), encoding="utf-8")
    assert main(["check"]) == 0
    capsys.readouterr()
