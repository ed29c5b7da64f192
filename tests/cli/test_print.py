"""`roundproof print`: files for makers, testers, editors and classes."""

from __future__ import annotations

from pathlib import Path

import pytest

from roundproof.cli.main import main

Said = pytest.CaptureFixture[str]

PATTERN = """\
title: Pebble
version: 1.0.0
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc around (12)
"""


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    folder = tmp_path / "patterns/pebble"
    folder.mkdir(parents=True)
    (folder / "pattern.yaml").write_text(PATTERN, "utf-8")
    return folder


@pytest.mark.parametrize(
    ("args", "name"),
    [
        ([], "pebble-1.0.0-maker.pdf"),
        (["--style", "large"], "pebble-1.0.0-maker-large.pdf"),
        (["--for", "tester"], "pebble-1.0.0-tester-an-unnamed-tester.pdf"),
        (["--for", "tester", "--tester", "7"], "pebble-1.0.0-tester-7.pdf"),
        (["--tester", "7"], "pebble-1.0.0-tester-7.pdf"),
        (["--for", "class", "--pupils", "3"], "pebble-1.0.0-class-large.pdf"),
        (["--pupils", "3", "--style", "standard"], "pebble-1.0.0-class.pdf"),
        (["--for", "editor"], "pebble-1.0.0-editor.pdf"),
        (["--for", "editor", "--format", "html"], "pebble-1.0.0-editor.html"),
    ],
)
def test_a_file_for_each_reader(args: list[str], name: str, capsys: Said) -> None:
    assert main(["print", "pebble", *args]) == 0
    assert capsys.readouterr().out == f"out/{name} is written.\n"
    begins = Path("out", name).read_bytes()[:9]
    assert begins == (b"%PDF-1.7\n" if name.endswith("pdf") else b"<!doctype")


def test_a_copy_for_each_tester_of_a_list(capsys: Said) -> None:
    Path("who.txt").write_text("# spring\nMara\n\n7\nmara\n", "utf-8")
    assert main(["print", "pebble", "--for", "tester", "--testers", "who.txt"]) == 0
    assert "3 files written into out." in capsys.readouterr().out
    names = sorted(path.name for path in Path("out").iterdir())
    assert names == [
        "pebble-1.0.0-tester-7.pdf",
        "pebble-1.0.0-tester-mara-3.pdf",
        "pebble-1.0.0-tester-mara.pdf",
    ]


@pytest.mark.parametrize(
    ("args", "said"),
    [
        (["--format", "html"], "Only the review copy"),
        (["--for", "class"], "1 to 1000"),
        (["--for", "class", "--pupils", "1001"], "1 to 1000"),
        (["--for", "tester", "--testers", "gone.txt"], "gone.txt cannot be read"),
        (["--for", "tester", "--tester", "1", "--tester", "2", "--out", "x"], "one file"),
        (["--for", "maker", "--tester", "1"], "add `--for tester`"),
        (["--for", "editor", "--pupils", "3"], "add `--for class`"),
        (["--tester", "1", "--pupils", "3"], "add `--for class`"),
        (["--for", "editor", "--style", "large"], "leave `--style` away"),
        (["--for", "editor", "--no-photos"], "leave `--no-photos` away"),
        (["--out", "patterns/pebble"], "cannot be written"),
    ],
)
def test_what_cannot_be_done_is_said(args: list[str], said: str, capsys: Said) -> None:
    assert main(["print", "pebble", *args]) == 2
    assert said in capsys.readouterr().err


def test_letters_without_a_font_are_named(folder: Path, capsys: Said) -> None:
    (folder / "pattern.yaml").write_text(PATTERN.replace("Pebble", "Pebble 石"), "utf-8")
    assert main(["print", "pebble"]) == 0
    assert "U+77F3" in capsys.readouterr().err


def test_a_pattern_that_is_not_there(capsys: Said) -> None:
    assert main(["print", "gone"]) == 2
    assert capsys.readouterr().err
