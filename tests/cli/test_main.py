"""The command line: what is asked for is found, and nothing ends in a traceback."""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
from importlib import import_module
from pathlib import Path
from types import SimpleNamespace

import pytest

from roundproof import __version__
from roundproof.cli import main as cli
from roundproof.cli.main import COMMANDS, main

Said = pytest.CaptureFixture[str]


def running(monkeypatch: pytest.MonkeyPatch, fault: BaseException) -> int:
    """The exit code of `roundproof check` where its work ends in a fault."""

    def run(_: argparse.Namespace) -> int:
        raise fault

    module = SimpleNamespace(configure=lambda parser: None, run=run)
    monkeypatch.setattr(cli, "import_module", lambda name: module)
    return main(["check"])


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_has_its_file_and_its_help(name: str, capsys: Said) -> None:
    assert main([name, "--help"]) == 0
    said = capsys.readouterr().out
    assert f"usage: roundproof {name}" in said
    module = import_module(f"roundproof.cli.{name}")
    assert module.configure and module.run


@pytest.mark.parametrize("width", [60, 120])
def test_help_is_as_wide_as_the_console(
    width: int, capsys: Said, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", str(width))
    assert main(["check", "--help"]) == 0
    widest = max(map(len, capsys.readouterr().out.splitlines()))
    assert width - 20 < widest <= width


def test_without_a_command_the_overview_is_shown(capsys: Said) -> None:
    assert main([]) == 0
    said = capsys.readouterr().out
    assert all(f"  {name} " in said for name in COMMANDS)


def test_the_version(capsys: Said) -> None:
    assert main(["--version"]) == 0
    assert capsys.readouterr().out == f"roundproof {__version__}\n"


def test_an_unknown_command_is_told_with_the_nearest(capsys: Said) -> None:
    assert main(["chek", "patterns"]) == 2
    assert "there is no command `chek`; did you mean `check`?" in capsys.readouterr().err


def test_an_unknown_option_is_told_in_one_line(capsys: Said) -> None:
    assert main(["check", "--colour"]) == 2
    said = capsys.readouterr().err
    assert "--colour" in said and len(said.splitlines()) == 1


def test_a_fault_of_our_own_is_one_line_that_asks_to_report_it(
    monkeypatch: pytest.MonkeyPatch, capsys: Said
) -> None:
    monkeypatch.delenv("ROUNDPROOF_DEBUG", raising=False)
    assert running(monkeypatch, KeyError("round")) == cli.OUR_FAULT
    said = capsys.readouterr().err
    assert "KeyError: 'round'" in said and "report" in said
    assert len(said.splitlines()) == 1


def test_a_fault_is_shown_whole_where_asked_for(
    monkeypatch: pytest.MonkeyPatch, capsys: Said
) -> None:
    monkeypatch.setenv("ROUNDPROOF_DEBUG", "1")
    assert running(monkeypatch, RecursionError("deep")) == cli.OUR_FAULT
    assert "Traceback" in capsys.readouterr().err


def test_an_interrupted_command_ends_without_a_word(
    monkeypatch: pytest.MonkeyPatch, capsys: Said
) -> None:
    assert running(monkeypatch, KeyboardInterrupt()) == cli.INTERRUPTED
    assert capsys.readouterr().err == ""


# ---- as a process ----
def process(*words: str, cwd: Path, **more: object) -> subprocess.CompletedProcess[bytes]:
    command = [sys.executable, "-m", "roundproof", *words]
    return subprocess.run(command, cwd=cwd, capture_output=True, **more)  # type: ignore[call-overload, no-any-return]


def test_it_runs_as_a_module_and_gives_its_exit_code(tmp_path: Path) -> None:
    done = process("check", "nowhere", cwd=tmp_path)
    assert done.returncode == 2
    assert b"no such file or folder" in done.stdout


def test_a_reader_that_goes_away_is_no_fault(tmp_path: Path) -> None:
    if os.name == "nt":
        pytest.skip("pipes close otherwise there")
    read, write = os.pipe()
    os.close(read)
    command = [sys.executable, "-m", "roundproof", "explain"]
    try:
        done = subprocess.run(command, cwd=tmp_path, stdout=write, stderr=subprocess.PIPE)
    finally:
        os.close(write)
    assert (done.returncode, done.stderr) == (cli.PIPE_CLOSED, b"")


def test_a_console_without_our_letters_shows_stand_ins(tmp_path: Path) -> None:
    folder = tmp_path / "pebble"
    folder.mkdir()
    text = "title: 糸 🧶\nterms: US\npieces:\n  b: |\n    R1: 6 sc in magic ring (7)\n"
    (folder / "pattern.yaml").write_text(text, encoding="utf-8")
    environment = {**os.environ, "PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0"}
    done = process("check", "pebble", cwd=tmp_path, env=environment)
    assert (done.returncode, done.stderr) == (1, b"")
    assert done.stdout.isascii() and b"7 are stated" in done.stdout
