"""SARIF is valid by the published schema whatever is checked, and has what its readers look for."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

from proving import proved
from roundproof.checks.results import Result, Results
from roundproof.cli.main import main
from roundproof.findings import Finding, Severity
from roundproof.pipeline import prove
from roundproof.source import Source
from roundproof.telling import sarif
from roundproof.telling.site_address import site_address
from sarif_schema import SCHEMA, valid_log, validator

TESTS = Path(__file__).parents[1]
STEPS = YAML(typ="safe").load(TESTS / "planted_in_clean" / "steps.yaml")
NAME = "patterns/pebble/pattern.yaml"
PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc in each st around (13)
    R3: sc around (14)
  foot: |
    R1: 6 sc in magic ring (6)
    R2: inc in each st around (13)
accept:
  - {check: count-stated, at: foot, because: "It is printed so: in the book."}
"""
Said = pytest.CaptureFixture[str]


def run_of(text: str, name: str = NAME) -> dict[str, Any]:
    proof, findings = proved(text)
    results = Results((Result(name, Path(name), proof, findings, proof is not None),))
    run: dict[str, Any] = valid_log(sarif.told(results))["runs"][0]
    return run


def stated(run: dict[str, Any]) -> list[dict[str, Any]]:
    return [each for each in run["results"] if each["ruleId"] == "count-stated"]


# ---- the schema ----
def test_the_schema_is_the_published_one_and_refuses() -> None:
    assert json.loads(SCHEMA.read_text("utf-8"))["id"] == sarif.SCHEMA
    log = json.loads(sarif.told(prove(TESTS / "planted" / "left-over-unannounced")))
    for path, wrong in {
        ("version",): "2.0.0",
        ("runs", 0, "results", 0, "level"): "fatal",
        ("runs", 0, "results", 0, "locations", 0, "physicalLocation", "region"): {"startLine": 0},
        ("runs", 0, "results", 0, "locations", 0, "physicalLocation", "artifactLocation"): {
            "uri": "a pattern.yaml"
        },
        ("runs", 0, "invocations", 0): {"exitCode": 1},
    }.items():
        changed = json.loads(json.dumps(log))
        *way, last = path
        inner: Any = changed
        for step in way:
            inner = inner[step]
        inner[last] = wrong
        assert not validator().is_valid(changed), path
    assert validator().is_valid(log)


@pytest.mark.parametrize("folder", ["planted", "clean"])
def test_whole_folders(folder: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(TESTS.parent)
    results = prove(f"tests/{folder}")
    (run,) = valid_log(sarif.told(results, "https://example.org/"))["runs"]
    assert len(run["results"]) == len(results.findings)
    assert run["invocations"][0]["executionSuccessful"] == (not results.unusable)
    if folder == "planted":
        assert any("fixes" in each for each in run["results"])
        assert all(rule["helpUri"] for rule in run["tool"]["driver"]["rules"])


def test_every_mistake_in_the_steps(tmp_path: Path) -> None:
    folder = tmp_path / "patterns"
    clean = TESTS / "clean"
    for name, row in STEPS.items():
        shutil.copytree(clean / "oystercatcher", folder / name)
        text = (folder / name / "pattern.yaml").read_text("utf-8")
        for old, new in row["put"].items():
            text = text.replace(old, new)
        (folder / name / "pattern.yaml").write_text(text, encoding="utf-8")
    shutil.copy(clean / "defaults.yaml", folder)
    (run,) = valid_log(sarif.told(prove(folder)))["runs"]
    assert len(run["results"]) >= len(STEPS)


def test_no_patterns_at_all() -> None:
    (run,) = valid_log(sarif.told(Results(())))["runs"]
    assert (run["results"], run["tool"]["driver"]["rules"]) == ([], [])


# ---- files that cannot be used ----
def test_a_file_that_cannot_be_used_is_a_result_and_a_notification(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Said
) -> None:
    monkeypatch.chdir(tmp_path)
    broken = tmp_path / "patterns" / "broken"
    broken.mkdir(parents=True)
    (broken / "pattern.yaml").write_text("title: 'Pebble\n", encoding="utf-8")
    assert main(["check", "patterns", "nowhere", "--format", "sarif"]) == 2
    (run,) = valid_log(capsys.readouterr().out)["runs"]
    (invocation,) = run["invocations"]
    assert invocation["executionSuccessful"] is False
    told = invocation["toolExecutionNotifications"]
    assert [each["message"] for each in told] == [each["message"] for each in run["results"]]
    assert [each["associatedRule"] for each in told] == [{"id": "file-unusable", "index": 0}] * 2
    assert "quotation mark" in told[0]["message"]["text"]
    files = [each["locations"][0]["physicalLocation"]["artifactLocation"] for each in told]
    assert [file["uri"] for file in files] == ["patterns/broken/pattern.yaml", "nowhere"]


# ---- what readers look for ----
def test_what_is_set_aside_is_suppressed_with_the_designers_reason() -> None:
    first, second, aside = stated(run_of(PATTERN))
    assert "suppressions" not in first and "suppressions" not in second
    assert aside["suppressions"] == [
        {
            "kind": "inSource",
            "status": "accepted",
            "justification": "It is printed so: in the book.",
        }
    ]
    bare = PATTERN.replace(', because: "It is printed so: in the book."', "")
    assert stated(run_of(bare))[2]["suppressions"] == [{"kind": "inSource", "status": "accepted"}]


def test_a_result_names_the_piece_the_round_and_the_words() -> None:
    (location,) = stated(run_of(PATTERN))[0]["locations"]
    assert location["logicalLocations"] == [{"name": "R2", "fullyQualifiedName": "body R2"}]
    assert location["physicalLocation"]["region"]["snippet"] == {"text": "13"}


def test_prints_stay_when_lines_move_and_numbers_change() -> None:
    def prints(text: str) -> list[str]:
        return [
            each["partialFingerprints"]["checkPlaceWords/v1"]
            for each in run_of(text)["results"]
            if each["ruleId"] == "count-stated"
        ]

    now = prints(PATTERN)
    assert len(set(now)) == 3
    assert prints("# a line\n\n" + PATTERN.replace("inc in each", "2 sc in each")) == now
    assert prints(PATTERN.replace("sc around (14)", "sc around (15)"))[::2] == now[::2]
    assert prints(PATTERN.replace("sc around (14)", "sc around (15)"))[1] != now[1]


def test_the_same_words_twice_have_two_prints() -> None:
    source = Source(NAME, "R1: blip, blip")
    spans = (source.span(4, 8), source.span(10, 14))
    found = tuple(Finding("word-stray", Severity.ERROR, at, "?", "", "b", "R1") for at in spans)
    log = valid_log(sarif.told(Results((Result(NAME, Path(NAME), None, found),))))
    (first,), (second,) = (
        each["partialFingerprints"].values() for each in log["runs"][0]["results"]
    )
    assert (first.rpartition(":")[2], second.rpartition(":")[2]) == ("1", "2")
    assert first.rpartition(":")[0] == second.rpartition(":")[0]


def test_a_rule_tells_why_and_leads_to_its_page() -> None:
    proof, findings = proved(PATTERN)
    results = Results((Result(NAME, Path(NAME), proof, findings),))
    log = valid_log(sarif.told(results, "https://example.org/shore/"))
    rules = log["runs"][0]["tool"]["driver"]["rules"]
    (rule,) = [each for each in rules if each["id"] == "count-stated"]
    assert rule["helpUri"] == "https://example.org/shore/checks/count-stated.html"
    assert rule["help"]["text"].startswith(rule["fullDescription"]["text"])
    assert "roundproof explain count-stated" in rule["help"]["text"]
    assert all("helpUri" not in each for each in run_of(PATTERN)["tool"]["driver"]["rules"])


@pytest.mark.parametrize(
    ("name", "file"),
    [
        ("patterns/p/pattern.yaml", {"uri": "patterns/p/pattern.yaml", "uriBaseId": "SRCROOT"}),
        ("a b/50 %.yaml", {"uri": "a%20b/50%20%25.yaml", "uriBaseId": "SRCROOT"}),
        ("a:b/p.yaml", {"uri": "a%3Ab/p.yaml", "uriBaseId": "SRCROOT"}),
        ("ünïcode.yaml", {"uri": "%C3%BCn%C3%AFcode.yaml", "uriBaseId": "SRCROOT"}),
        ("odd\udcff.yaml", {"uri": "odd%FF.yaml", "uriBaseId": "SRCROOT"}),
        ("new\nline.yaml", {"uri": "new%0Aline.yaml", "uriBaseId": "SRCROOT"}),
        ("/shore/a b/pattern.yaml", {"uri": "file:///shore/a%20b/pattern.yaml"}),
        ("../b/pattern.yaml", {"uri": "file:///shore/b/pattern.yaml"}),
    ],
)
def test_addresses_of_files(
    name: str, file: dict[str, str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("os.getcwd", lambda: "/shore/a")
    finding = Finding("file-unusable", Severity.ERROR, Source(name, "x").span(0, 1), "No.")
    results = Results((Result(name, Path(name), None, (finding,), usable=False),))
    (run,) = valid_log(sarif.told(results))["runs"]
    assert run["results"][0]["locations"][0]["physicalLocation"]["artifactLocation"] == file


def test_words_are_not_taken_for_a_link() -> None:
    run = run_of('title: A\nterms: US\npieces:\n  b: |\n    R1: 6 sc\n"[a](b)": 1\n')
    texts = [each["message"]["text"] for each in run["results"]]
    assert any(r"\[a](b)" in text for text in texts)
    assert not any("](" in text.replace(r"\[a](b)", "") for text in texts)


# ---- where the site stands ----
@pytest.mark.parametrize(
    ("settings", "address"),
    [
        ("site_name: A\nsite_url: https://example.org/shore\n", "https://example.org/shore/"),
        ('site_url: "http://localhost:8000/"\n', "http://localhost:8000/"),
        ("# site_url: https://example.org/\nsite_name: A\n", ""),
        ("site_url: !ENV [SITE, 'https://example.org/']\n", ""),
        ("site_url: !ENV SITE\n", ""),
        ("site_url: javascript:alert(1)\n", ""),
        ("site_url: https://example.org/a b\n", ""),
        ("site_url: 'open\n", ""),
        ("", ""),
    ],
)
def test_the_address_of_the_site(settings: str, address: str, tmp_path: Path) -> None:
    file = tmp_path / "mkdocs.yml"
    file.write_text(settings, encoding="utf-8")
    assert site_address(file) == address


def test_without_settings_there_is_no_address(tmp_path: Path) -> None:
    assert site_address(tmp_path / "mkdocs.yml") == ""


def test_a_check_beside_the_settings_leads_to_the_pages(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Said
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "mkdocs.yml").write_text("site_url: https://example.org/\n", encoding="utf-8")
    (tmp_path / "p.yaml").write_text(PATTERN, encoding="utf-8")
    assert main(["check", "p.yaml", "--format", "sarif"]) == 1
    rules = valid_log(capsys.readouterr().out)["runs"][0]["tool"]["driver"]["rules"]
    assert all(r["helpUri"] == f"https://example.org/checks/{r['id']}.html" for r in rules)
