"""`roundproof tidy`: what is written, what is only told, and files that had better stay."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from roundproof.cli.main import main

Said = pytest.CaptureFixture[str]

TYPED = "\ufeffterms: US\r\npieces:\r\n  body: |\r\n    Rnd 1: 6 sc in MR\r\n    R3: 6 blip  \r\n"
HOUSE = TYPED.replace("Rnd 1: 6 sc in MR", "R1: 6 sc in magic ring")


@pytest.fixture
def file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A pattern that is not in house style, in the folder where the test stands."""
    monkeypatch.chdir(tmp_path)
    path = Path("patterns/pebble/pattern.yaml")
    path.parent.mkdir(parents=True)
    path.write_bytes(TYPED.encode())
    return path


def test_rounds_are_rewritten_and_every_other_byte_stays(file: Path, capsys: Said) -> None:
    assert main(["tidy"]) == 0
    assert file.read_bytes() == HOUSE.encode()
    said = capsys.readouterr().out
    assert "patterns/pebble/pattern.yaml: 1 round rewritten." in said
    assert "body R3 (line 5) is left as it is: `blip`" in said


def test_a_second_time_there_is_nothing_to_do(file: Path, capsys: Said) -> None:
    main(["tidy"])
    stamp = file.stat().st_mtime_ns
    assert main(["tidy", "--check"]) == 0
    assert main(["tidy"]) == 0
    assert "nothing to do" in capsys.readouterr().out
    assert file.stat().st_mtime_ns == stamp


def test_a_look_writes_nothing(file: Path, capsys: Said) -> None:
    assert main(["tidy", "pebble", "--check"]) == 1
    assert "1 round would be rewritten" in capsys.readouterr().out
    assert file.read_bytes() == TYPED.encode()


def test_a_difference_is_shown_and_nothing_written(file: Path, capsys: Said) -> None:
    assert main(["tidy", "--diff"]) == 0
    said = capsys.readouterr()
    lines = said.out.splitlines()
    assert lines[:2] == ["--- patterns/pebble/pattern.yaml", "+++ patterns/pebble/pattern.yaml"]
    assert [line for line in lines[2:] if line[0] in "+-"] == [
        "-    Rnd 1: 6 sc in MR",
        "+    R1: 6 sc in magic ring",
    ]
    assert "is left as it is" in said.err
    assert file.read_bytes() == TYPED.encode()
    assert main(["tidy", "--diff", "--check"]) == 1


def test_a_file_without_a_last_line_end_keeps_none(file: Path, capsys: Said) -> None:
    file.write_bytes(b"terms: US\npieces:\n  body: |\n    Rnd 1: 6 sc in MR")
    assert main(["tidy", "--diff"]) == 0
    assert capsys.readouterr().out.endswith(
        "R1: 6 sc in magic ring\n\\ No newline at end of file\n"
    )
    assert main(["tidy"]) == 0
    assert file.read_bytes().endswith(b"\n    R1: 6 sc in magic ring")


def test_counts_and_numbers(file: Path, capsys: Said) -> None:
    file.write_text(
        "terms: US\npieces:\n  body: |\n    R1: 6 sc in MR\n    R3: inc around\n"
        "photos:\n  - {file: a.png, after: body R3}\n"
    )
    assert main(["tidy", "--counts", "--renumber"]) == 0
    text = file.read_text()
    assert "R1: 6 sc in magic ring (6)\n    R2: inc around (12)" in text
    assert "after: body R2" in text
    said = capsys.readouterr().out
    assert "body R3 is now R2 (line 5)." in said
    assert "Line 7: R3 is now R2." in said


def test_the_file_keeps_its_permissions_and_nothing_is_left_beside_it(file: Path) -> None:
    file.chmod(0o640)
    assert main(["tidy"]) == 0
    assert file.stat().st_mode & 0o777 == 0o640
    assert os.listdir(file.parent) == [file.name]


def test_a_link_is_left_and_named(file: Path, capsys: Said) -> None:
    real = file.rename(file.with_name("real.yaml"))
    file.symlink_to("real.yaml")
    assert main(["tidy"]) == 2
    said = capsys.readouterr().err
    assert "is a link" in said and "real.yaml" in said
    assert file.is_symlink() and real.read_bytes() == TYPED.encode()


def test_a_file_that_may_not_be_written_is_left_and_named(file: Path, capsys: Said) -> None:
    file.chmod(0o444)
    assert main(["tidy"]) == 2
    assert "permissions forbid it" in capsys.readouterr().err
    assert file.read_bytes() == TYPED.encode()


def test_a_swap_that_fails_leaves_the_file_as_it_was(
    file: Path, capsys: Said, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", refuse)
    assert main(["tidy"]) == 2
    assert "No space left" in capsys.readouterr().err
    assert file.read_bytes() == TYPED.encode()
    assert os.listdir(file.parent) == [file.name]


def test_files_that_cannot_be_used_win(file: Path, capsys: Said) -> None:
    broken = Path("patterns/broken/pattern.yaml")
    broken.parent.mkdir()
    broken.write_text("pieces: [")
    assert main(["tidy", "--check"]) == 2
    said = capsys.readouterr()
    assert "patterns/broken/pattern.yaml: " in said.err
    assert "pebble" in said.out
