"""`roundproof testers`: who wrote, what is to be corrected, what was measured, for people and for
programs."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from conftest import ROOT
from reporting import PLANTED
from roundproof.cli.main import main
from sites import pebble

Said = pytest.CaptureFixture[str]

ONE = """\
pattern: pebble
version: 1.0.0
tester: "1"
started: 2026-05-10
finished: 2026-05-12
yarns: {slate: {ball: 50 g / 125 m, before: 50 g, after: 47 g}}
time: {crochet: 40 min, assembly: 10 min}
rounds:
  body:
    R3: {kind: wrong count, read: "18", did: made 17, instead: "(1 sc, inc) x 6"}
    R5: A pleasure.
stitches: {body: 100}
"""
TWO = """\
pattern: pebble
version: 1.0.0
tester: "2"
yarns: {slate: {before: 40 g, after: 38 g}}
rounds: {body: {R3: {kind: unclear, read: "<b onclick='x()'>inc</b>"}}}
guessed: \u202eturned
"""
DECISIONS = "body R3: {decision: accepted, because: Two stumbled., in: 1.0.1}\n"


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    folder = tmp_path / "patterns" / "pebble"
    (folder / "testers").mkdir(parents=True)
    (folder / "pattern.yaml").write_text(pebble(), "utf-8")
    for name, text in (("one", ONE), ("two", TWO), ("decisions", DECISIONS)):
        (folder / "testers" / f"{name}.yaml").write_text(text, "utf-8")
    return folder


def test_people_read_it_in_eighty_columns(folder: Path, capsys: Said) -> None:
    assert main(["testers", "pebble"]) == 0
    said = capsys.readouterr().out
    assert all(len(line) <= 80 for line in said.splitlines())
    assert (
        "  body R3 · wrong count · 2 of 2 testers · rewrite\n"
        "    1 · wrong count\n"
        "      read: 18\n"
        "      did: made 17\n"
        "      instead: (1 sc, inc) x 6\n"
        "    2 · unclear · read: <b onclick='x()'>inc</b>\n"
        "    accepted in 1.0.1: Two stumbled.\n"
    ) in said
    assert "Corrections · 0 open, 1 accepted, 0 for later, 0 declined" in said
    assert "body R4-R6 · remark\n    1 · remark · A pleasure." in said
    assert "  slate        2  2 / 2.5 / 3" in said
    assert "1 counts 100 stitches in body, and its rounds make 108." in said


def test_nothing_in_a_report_commands_the_terminal(folder: Path, capsys: Said) -> None:
    main(["testers", "pebble"])
    said = capsys.readouterr().out
    assert "\u202e" not in said and "\N{REPLACEMENT CHARACTER}turned" in said


def test_programs_get_the_same(folder: Path, capsys: Said) -> None:
    assert main(["testers", "pebble", "--format", "json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert (told["title"], told["version"]) == ("Pebble", "1.0.0")
    assert [r["standing"] for r in told["reports"]] == ["current", "current"]
    first = told["corrections"][0]
    assert (first["place"], first["piece"], first["round"]) == ("body R3", "body", "R3")
    assert (first["kind"], first["stumbled"], first["advice"]) == ("wrong count", 2, "rewrite")
    assert first["decision"] == {"decision": "accepted", "because": "Two stumbled.", "in": "1.0.1"}
    assert first["written"][1]["read"] == "<b onclick='x()'>inc</b>"
    assert told["corrections"][1]["written"][0]["remark"] == "\u202eturned"
    slate = told["yarns"]["slate"]
    assert slate["grams"] == {"low": 2.0, "median": 2.5, "high": 3.0, "testers": 2}
    # 3 g x 125 m / 50 g; the second tester does not tell their ball
    assert slate["metres"] == {"low": 7.5, "median": 7.5, "high": 7.5, "testers": 1}
    assert told["hours"]["whole"]["median"] == 0.83 and len(told["hours"]["whole"]["ours"]) == 2
    assert told["totals"] == [{"tester": "1", "piece": "body", "said": 100, "made": 108}]
    assert told["summary"]["reports"] == 2 and told["summary"]["errors"] == 0


def test_an_error_in_a_report_is_one_in_the_exit_code(folder: Path, capsys: Said) -> None:
    (folder / "testers/three.yaml").write_text("pattern: pebble\nversion: 1.0.0\nhook: 3", "utf-8")
    assert main(["testers", "pebble"]) == 1
    said = " ".join(capsys.readouterr().out.split())
    assert "patterns/pebble/testers/three.yaml:3:7" in said and "its unit is missing" in said
    assert main(["testers", "pebble", "--format", "json"]) == 1
    (finding,) = json.loads(capsys.readouterr().out)["findings"]
    assert (finding["line"], finding["column"]) == (3, 7)


def test_a_warning_is_none(folder: Path, capsys: Said) -> None:
    decisions = folder / "testers/decisions.yaml"
    decisions.write_text(DECISIONS + "body R1: {decision: later}\n", "utf-8")
    assert main(["testers", "pebble"]) == 0
    assert "No tester wrote about `body R1`." in capsys.readouterr().out


@pytest.mark.parametrize("path", ["limpet", "patterns", "patterns/pebble/testers"])
def test_what_is_not_one_pattern_cannot_be_used(folder: Path, path: str, capsys: Said) -> None:
    (folder.parent / "other").mkdir()
    (folder.parent / "other/pattern.yaml").write_text(pebble("Other"), "utf-8")
    assert main(["testers", path]) == 2
    assert capsys.readouterr().err


def test_a_pattern_nobody_has_tested_says_where_reports_go(folder: Path, capsys: Said) -> None:
    for file in (folder / "testers").iterdir():
        file.unlink()
    assert main(["testers", "pebble"]) == 0
    assert "reports go into patterns/pebble/testers/" in capsys.readouterr().out


def test_stale_broken_and_foreign_reports_are_marked(capsys: Said) -> None:
    assert main(["testers", str(PLANTED)]) == 1
    rows = {line.split()[-1]: line for line in capsys.readouterr().out.splitlines() if line.strip()}
    assert "of another pattern: not counted" in rows["another-pattern.yaml"]
    assert "not known: not counted" in rows["version-never-was.yaml"]
    assert "cannot be read" in rows["bracket-open.yaml"]


def test_a_very_long_remark_is_cut_and_says_where_the_rest_is(folder: Path, capsys: Said) -> None:
    long = f"pattern: pebble\nversion: 1.0.0\nguessed: {'sand ' * 50_000}"
    (folder / "testers/one.yaml").write_text(long, "utf-8")
    assert main(["testers", "pebble"]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "and 249199 more characters in patterns/pebble/testers/one.yaml:3" in said
    assert main(["testers", "pebble", "--format", "json"]) == 0
    told = json.loads(capsys.readouterr().out)
    written = [one for each in told["corrections"] for one in each["written"]]
    assert max(len(one["remark"] or "") for one in written) == 249_999


def test_names_without_end_do_not_break_the_lines(folder: Path, capsys: Said) -> None:
    long = "sand" * 500
    (folder / "testers/one.yaml").write_text(
        f"pattern: pebble\nversion: 1.0.0\ntester: {long}\npictures: {{credit: {'a b ' * 500}}}\n"
        f"corrections: [{{where: {'c d ' * 500}, kind: unclear, read: x}}]\n",
        "utf-8",
    )
    assert main(["testers", "pebble"]) == 0
    said = capsys.readouterr().out
    assert max(len(line) for line in said.splitlines()) < 260 and len(said) < 4000


def test_measure_says_what_testers_measured(folder: Path, capsys: Said) -> None:
    assert main(["measure", "pebble"]) == 0
    said = capsys.readouterr().out
    assert "slate, measured by 2 testers: 2.5 g (2 to 3) and 7.5 m" in said
    assert "time, measured by 1 tester: 0.8 hours" in said
    assert main(["measure", "pebble", "--format", "json"]) == 0
    (told,) = json.loads(capsys.readouterr().out)["patterns"]
    assert told["yarns"]["slate"]["tested"]["grams"]["median"] == 2.5
    assert told["tested_hours"]["testers"] == 1
    # In a maker's own yarn it is not what testers used.
    assert main(["measure", "pebble", "--gauge", "18 sts x 20 rounds = 10 cm"]) == 0
    assert "measured by" not in capsys.readouterr().out


def test_the_demonstration_has_reports_without_a_finding(
    monkeypatch: pytest.MonkeyPatch, capsys: Said
) -> None:
    monkeypatch.chdir(ROOT)
    assert main(["testers", "sea-urchin", "--format", "json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["findings"] == [] and told["summary"]["reports"] == 3
    assert [report["tester"] for report in told["reports"]] == ["1", "2", "3"]
    assert {each["advice"] for each in told["corrections"]} >= {"rewrite", "judge"}
    assert told["summary"]["open"] > 0 and told["summary"]["accepted"] > 0
