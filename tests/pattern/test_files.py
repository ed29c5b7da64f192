"""Files are found and read within bounds; whatever is in the way is a finding."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from loading import BODY, COMPLETE
from roundproof.findings import Finding
from roundproof.pattern.files import MAX_BYTES, find_patterns, read_file
from roundproof.pattern.load import load_pattern
from roundproof.pattern.traps import FILE_UNUSABLE


def refused(path: Path) -> Finding:
    pattern, (finding,) = load_pattern(path, "p.yaml")
    assert pattern is None
    assert finding.check == FILE_UNUSABLE
    assert finding.span.source.name == "p.yaml"
    return finding


def test_a_file_is_read(tmp_path: Path) -> None:
    path = tmp_path / "pebble" / "pattern.yaml"
    path.parent.mkdir()
    path.write_bytes(b"\xef\xbb\xbf" + COMPLETE.replace("\n", "\r\n").encode())
    pattern, findings = load_pattern(path, "patterns/pebble/pattern.yaml")
    assert findings == ()
    assert pattern is not None and pattern.slug == "pebble"
    assert pattern.title is not None and pattern.title.span.begins == (2, 8)
    rounds = pattern.pieces[0].rounds
    assert rounds is not None and rounds.lines is not None
    assert rounds.lines[1].text == "R2: inc in each st around (12)"
    assert rounds.lines[1].span.begins == (27, 7)


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"title: a\0b\n", "not a text file"),
        (b"\x89PNG\r\n\x1a\n\0\0", "not a text file"),
        ("title: Muschel\n".encode("utf-16"), "not a text file"),
        (b"title: a\nsummary: \xff\n", "line 2"),
        (b"", "empty"),
    ],
)
def test_what_is_no_text_is_refused(tmp_path: Path, data: bytes, says: str) -> None:
    path = tmp_path / "p.yaml"
    path.write_bytes(data)
    assert says in refused(path).message


def test_a_file_that_is_too_long_is_refused_by_its_size_alone(tmp_path: Path) -> None:
    path = tmp_path / "p.yaml"
    with path.open("wb") as file:
        file.truncate(100_000_000)
    assert "100.0 MB" in refused(path).message


def test_a_file_that_is_just_short_enough_is_read(tmp_path: Path) -> None:
    path = tmp_path / "p.yaml"
    path.write_bytes(BODY.encode() + b"#" * (MAX_BYTES - len(BODY)))
    assert read_file(path, "p.yaml")[0] is not None
    path.write_bytes(b"#" * (MAX_BYTES + 1))
    assert read_file(path, "p.yaml")[0] is None


def test_a_missing_file_and_a_folder_are_refused(tmp_path: Path) -> None:
    assert "no such file" in refused(tmp_path / "gone.yaml").message
    assert "not a file" in refused(tmp_path).message


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no pipes with names")
def test_a_pipe_is_refused_and_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    assert "not a file" in refused(tmp_path / "pipe").message


# ---- finding ----
@pytest.fixture
def collection(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    for slug in ("urchin", "crab"):
        (tmp_path / "patterns" / slug).mkdir(parents=True)
        (tmp_path / "patterns" / slug / "pattern.yaml").write_text(BODY, encoding="utf-8")
    (tmp_path / "patterns" / "notes").mkdir()
    (tmp_path / "patterns" / "defaults.yaml").write_text("terms: US\n", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.mark.parametrize(
    ("path", "names"),
    [
        ("patterns", ["patterns/crab/pattern.yaml", "patterns/urchin/pattern.yaml"]),
        ("patterns/crab", ["patterns/crab/pattern.yaml"]),
        ("patterns/crab/pattern.yaml", ["patterns/crab/pattern.yaml"]),
    ],
)
def test_a_path_is_a_file_a_pattern_or_a_folder_of_them(
    collection: Path, path: str, names: list[str]
) -> None:
    for given in (Path(path), collection / path):
        files, findings = find_patterns(given)
        assert [file.name for file in files] == names
        assert {file.defaults_name for file in files} == {"patterns/defaults.yaml"}
        assert findings == ()


def test_a_pattern_goes_by_its_folder(collection: Path) -> None:
    assert [file.slug for file in find_patterns(Path("patterns"))[0]] == ["crab", "urchin"]


def test_a_pattern_is_found_from_within_its_folder(
    collection: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(collection / "patterns" / "crab")
    (file,), _ = find_patterns(Path("."))
    assert (file.slug, file.name) == ("crab", "pattern.yaml")
    assert file.defaults_name == "../defaults.yaml"
    assert file.defaults.exists()


def test_a_file_of_another_name_goes_by_it(collection: Path) -> None:
    (collection / "patterns" / "draft.yaml").write_text(BODY, encoding="utf-8")
    (file,), _ = find_patterns(Path("patterns/draft.yaml"))
    assert (file.slug, file.defaults_name) == ("draft", "patterns/defaults.yaml")


@pytest.mark.parametrize(
    ("path", "says", "mend"),
    [
        ("gone", "no such file or folder", "In patterns/ there"),
        ("carb", "no such file or folder", "Is `crab` meant?"),
        ("patterns/carb", "no such file or folder", "Is `crab` meant?"),
        ("notes/gone", "no such file or folder", ""),
        ("patterns/notes", "no pattern.yaml", "a folder of its own"),
        ("a\0b", "no such file", ""),
    ],
)
def test_a_path_without_patterns_is_a_finding(
    collection: Path, path: str, says: str, mend: str
) -> None:
    files, (finding,) = find_patterns(Path(path))
    assert files == ()
    assert finding.check == FILE_UNUSABLE
    assert finding.span.source.name == path
    assert says in finding.message
    assert mend in finding.mend


def test_a_near_miss_of_the_file_name_is_named(collection: Path) -> None:
    (collection / "patterns" / "notes" / "pattern.yml").write_text(BODY, encoding="utf-8")
    _, (finding,) = find_patterns(Path("patterns/notes"))
    assert "pattern.yml" in finding.mend
