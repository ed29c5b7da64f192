"""Each kind of bad report: named at its words, and what can be read of it is kept."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

from reporting import PLANTED, folder_of, proof, reports
from roundproof.cli.main import main
from roundproof.findings import Severity
from roundproof.testers.model import Report, Standing

EXPECTED: dict[str, dict[str, Any]] = YAML(typ="safe").load(PLANTED / "expected.yaml")


def planted(name: str) -> Report:
    found = {each.file.rpartition("/")[2]: each for each in proof().reports.reports}
    return found[f"{name}.yaml"]


def test_every_report_has_a_row() -> None:
    assert {path.stem for path in (PLANTED / "testers").iterdir()} == set(EXPECTED)


@pytest.mark.parametrize("name", EXPECTED)
def test_a_mistake_is_named_at_its_words(name: str) -> None:
    row = EXPECTED[name]
    (finding,) = planted(name).findings
    assert (finding.check, finding.severity) == (row["check"], Severity.ERROR)
    assert list(finding.span.begins) == row["at"]
    assert finding.span.source.name.endswith(f"testers/planted/testers/{name}.yaml")
    assert "words" not in row or finding.span.text == row["words"]
    assert row["says"] in finding.message
    assert row["mend"] in finding.mend
    assert finding.piece == row.get("piece")


def test_the_near_miss_can_be_put_in_its_place() -> None:
    for name, right in (("key-unknown", "stuffing"), ("yarn-unknown", "slate"),
                        ("piece-unknown", "upper")):  # fmt: skip
        (edit,) = planted(name).findings[0].edits
        assert edit.text == right


# ---- what is kept ----
def test_the_rest_of_a_report_with_a_mistake_is_kept() -> None:
    other = planted("unit-of-another-kind")
    assert other.stuffing is not None and other.stuffing.value == 1.2
    assert other.yarns["slate"].before is None and other.yarns["slate"].grams is None
    more = planted("more-left-than-there-was")
    assert (more.yarns["chalk"].grams, more.yarns["slate"].grams) == (None, 2.0)
    assert more.yarns["chalk"].metres is None
    kind = planted("kind-unknown")
    assert kind.notes[0].said.did is not None and kind.notes[0].place.words == "upper R3"
    assert planted("key-twice").stuffing is not None


@pytest.mark.parametrize(
    ("name", "place"),
    [
        ("piece-unknown", "uper R3"),
        ("round-unknown", "upper R9"),
        ("round-no-label", "upper third"),
        ("correction-nowhere", "claw R4"),
    ],
)
def test_what_is_said_of_a_place_that_is_not_there_stands_under_its_words(
    name: str, place: str
) -> None:
    (note,) = planted(name).notes
    assert (note.place.words, note.place.piece) == (place, "")
    assert note.said.read or note.said.did


def test_figures_of_another_pattern_or_version_are_not_counted() -> None:
    assert planted("another-pattern").standing is Standing.OTHER
    assert planted("version-never-was").standing is Standing.UNKNOWN
    assert planted("version-missing").standing is Standing.UNKNOWN
    counted = {report.file.rpartition("/")[2] for report in proof().reports.holding}
    assert counted.isdisjoint({"another-pattern.yaml", "version-never-was.yaml"})
    assert planted("another-pattern").yarns["bronze"].grams == pytest.approx(18.6)


def test_what_cannot_be_read_is_still_in_the_list() -> None:
    unread = {r.file.rpartition("/")[2] for r in proof().reports.reports if not r.readable}
    assert unread == {"bracket-open.yaml", "colon-within.yaml", "empty.yaml", "a-list.yaml"}


# ---- files that are no reports ----
def only(folder: Path) -> Report:
    (report,) = reports(folder).reports
    return report


def test_ten_megabytes_are_not_read(tmp_path: Path) -> None:
    text = "pattern: planted\nversion: 1.1.1\nguessed: " + "tide " * 2_000_000
    found = only(folder_of(tmp_path, long=text))
    (finding,) = found.findings
    assert not found.readable and finding.check == "file-unusable"
    assert "10.0 MB" in finding.message and "at most 2 MB" in finding.message


@pytest.mark.parametrize(
    ("data", "says"),
    [(b"pattern: \xff\xfe planted", "not text in UTF-8"), (b"\x00\x01\x02", "not a text file")],
)
def test_what_is_no_text_is_named(tmp_path: Path, data: bytes, says: str) -> None:
    folder = folder_of(tmp_path)
    (folder / "testers/odd.yaml").write_bytes(data)
    assert says in only(folder).findings[0].message


def test_deep_nesting_is_named(tmp_path: Path) -> None:
    found = only(folder_of(tmp_path, deep="pattern: " + "[" * 5000))
    assert "levels deep" in found.findings[0].message


def test_files_of_other_kinds_are_told_and_pictures_are_passed_over(tmp_path: Path) -> None:
    folder = folder_of(tmp_path, a="pattern: planted\nversion: 1.1.1\n")
    for name in ("front.jpg", "answers.docx", ".hidden"):
        (folder / "testers" / name).write_bytes(b"x")
    (folder / "testers" / "pictures").mkdir()
    found = reports(folder)
    assert len(found.reports) == 1
    (finding,) = found.others
    assert finding.span.source.name.endswith("testers/answers.docx")
    assert finding.severity is Severity.WARNING and ".yaml" in finding.mend


def test_without_a_folder_there_is_nothing(tmp_path: Path) -> None:
    found = reports(tmp_path)
    assert (found.reports, found.decisions, found.findings) == ((), (), ())


def test_json_is_read_as_well(tmp_path: Path) -> None:
    folder = folder_of(tmp_path)
    text = '{"pattern": "planted", "version": "1.1.1", "photos_enough": true, "stuffing": "1 oz"}'
    (folder / "testers/a.json").write_text(text, "utf-8")
    found = only(folder)
    assert found.findings == () and found.photos_enough is not None
    # 1 oz = 1/16 lb, 1 lb = 0.45359237 kg: international yard and pound agreement of 1959
    assert found.stuffing is not None
    assert found.stuffing.value == pytest.approx(453.59237 / 16)


def test_the_command_names_every_one_of_them(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["testers", str(PLANTED)]) == 1
    said = capsys.readouterr().out
    for name in EXPECTED:
        assert f"{name}.yaml" in said
