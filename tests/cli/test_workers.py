"""Many patterns checked by several processes: the same words as by one, and a clear end."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest

from roundproof import processes
from roundproof.cli import workers
from roundproof.cli.main import INTERRUPTED, OUR_FAULT, main
from roundproof.cli.workers import Job, checked
from roundproof.pattern.files import PatternFile
from roundproof.pattern.model import Status
from roundproof.pipeline import prove

ROOT = Path(__file__).parents[2]
PLANTED = "tests/planted"
Said = pytest.CaptureFixture[str]
forks = pytest.mark.skipif(processes.START != "fork", reason="processes are no copies there")


@pytest.fixture
def patterns(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Six patterns that share defaults with a fault; one cannot be used, one is in testing."""
    monkeypatch.chdir(tmp_path)
    folder = tmp_path / "patterns"
    for name in "abcdef":
        (folder / name).mkdir(parents=True)
        status = "status: testing\n" if name == "d" else ""
        text = f"title: {name}\n{status}pieces:\n  b: |\n    R1: 6 sc in magic ring (7)\n"
        file = folder / name / "pattern.yaml"
        file.write_text("title: 'open\n" if name == "c" else text, encoding="utf-8")
    (folder / "defaults.yaml").write_text("terms: US\ncolour: grey\n", encoding="utf-8")
    return folder


def said(capsys: Said, *words: str) -> tuple[int, str, str]:
    code = main(["check", *words])
    out, err = capsys.readouterr()
    return code, out, err


@pytest.fixture(autouse=True)
def nothing_printed(monkeypatch: pytest.MonkeyPatch) -> None:
    """Other tests of this process may have printed a booklet; no check does."""
    monkeypatch.setattr(processes, "NOT_TO_BE_COPIED", "")


# ---- as if by one ----
@pytest.mark.parametrize("style", ["text", "json", "sarif", "github"])
def test_the_same_bytes_whoever_checks(
    style: str, monkeypatch: pytest.MonkeyPatch, capsys: Said
) -> None:
    monkeypatch.chdir(ROOT)
    words = (PLANTED, "nowhere", "patterns", f"{PLANTED}/left-over-unannounced", "--format", style)
    alone = said(capsys, *words, "--jobs", "1")
    assert alone[0] == 2 and "left-over-unannounced" in alone[1]
    for jobs in ("2", "3"):
        assert said(capsys, *words, "--jobs", jobs) == alone


@pytest.mark.parametrize("words", [(), ("--status", "testing"), ("--as", "published")])
def test_the_same_of_shared_defaults_and_of_one_status(
    words: tuple[str, ...], patterns: Path, capsys: Said
) -> None:
    alone = said(capsys, *words, "--format", "json", "--jobs", "1")
    assert alone[1].count('"key-unknown"') == 1, "what is wrong with the defaults is told once"
    assert said(capsys, *words, "--format", "json", "--jobs", "4") == alone


def test_findings_are_those_of_the_proofs_which_are_let_go(patterns: Path) -> None:
    job = Job(judge_as=Status.PUBLISHED)
    whole = prove("patterns", judge_as=Status.PUBLISHED)
    for jobs in (1, 2):
        results = checked(["patterns"], job, jobs)
        assert [(r.name, r.title, r.usable, r.findings) for r in results.files] == [
            (r.name, r.title, r.usable, r.findings) for r in whole.files
        ]
        assert [r for r in results.files if r.proof] == []


def test_processes_that_start_anew_say_the_same(patterns: Path, capsys: Said) -> None:
    """As they do on Windows and macOS."""
    alone = said(capsys, "--jobs", "1")
    script = (
        "import sys; from roundproof import processes; processes.START = 'spawn'; "
        "from roundproof.cli import main; "
        "sys.exit(main.main(['check', '--jobs', '2']))"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, encoding="utf-8")
    assert (done.returncode, done.stdout, done.stderr) == alone


# ---- how many ----
def test_few_patterns_are_not_worth_another_process(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(processes, "_cores", lambda: 4)
    shared: list[int] = []

    def counted(files: dict[int, PatternFile], begin: Any, count: int) -> dict[int, Any]:
        shared.append(count)
        return dict.fromkeys(files)

    monkeypatch.setattr(workers, "shared_out", counted)
    monkeypatch.chdir(ROOT)
    checked(["patterns"], Job())
    assert shared == []
    checked([PLANTED], Job())
    assert shared == [4]
    checked(["patterns"], Job(), 8)
    assert shared == [4, 3], "no more processes than patterns"
    checked([PLANTED], Job(), 1)
    assert shared == [4, 3]
    checked([PLANTED], Job(), 1_000)
    assert shared[2] <= 60


@pytest.mark.parametrize("jobs", ["0", "-1", "two", "1.5", "", "²"])
def test_a_number_of_processes_that_is_none(jobs: str, capsys: Said) -> None:
    code, out, err = said(capsys, f"--jobs={jobs}")
    assert (code, out) == (2, "")
    assert "1 or more" in err and len(err.splitlines()) == 1


# ---- when it goes wrong ----
def at(name: str, does: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    """Has something happen to the process that is given the pattern of that name."""
    before = workers._checked

    def instead(file: PatternFile, *more: Any) -> Any:
        if file.slug == name:
            does()
        return before(file, *more)

    monkeypatch.setattr(workers, "_checked", instead)


@forks
@pytest.mark.parametrize(
    ("does", "how"),
    [(lambda: os.kill(os.getpid(), signal.SIGKILL), "signal 9"), (lambda: os._exit(3), "code 3")],
)
def test_a_process_that_dies_is_named_with_its_file(
    does: Any, how: str, patterns: Path, capsys: Said, monkeypatch: pytest.MonkeyPatch
) -> None:
    at("e", does, monkeypatch)
    code, out, err = said(capsys, "--jobs", "2")
    assert (code, out) == (OUR_FAULT, "")
    assert "patterns/e/pattern.yaml" in err and how in err and "--jobs 1" in err
    assert len(err.splitlines()) == 1


@forks
def test_a_fault_of_our_own_is_told_as_such(
    patterns: Path, capsys: Said, monkeypatch: pytest.MonkeyPatch
) -> None:
    at("b", lambda: {}["round"], monkeypatch)
    monkeypatch.delenv("ROUNDPROOF_DEBUG", raising=False)
    code, out, err = said(capsys, "--jobs", "2")
    assert (code, out) == (OUR_FAULT, "")
    assert "KeyError: 'round'" in err and len(err.splitlines()) == 1
    monkeypatch.setenv("ROUNDPROOF_DEBUG", "1")
    assert "in instead" in said(capsys, "--jobs", "2")[2], "where it happened"


SLOW = """\
import sys, time
from pathlib import Path
from roundproof.cli import main, workers

def slow(*_):
    Path("begun").touch()
    time.sleep(60)

workers._checked = slow
sys.exit(main.main(["check", "--jobs", "2"]))
"""


@forks
def test_ctrl_c_ends_all_processes_without_a_word(patterns: Path) -> None:
    process = subprocess.Popen(
        [sys.executable, "-c", SLOW],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        start_new_session=True,
    )
    while not Path("begun").exists():
        assert process.poll() is None
        time.sleep(0.02)
    os.killpg(process.pid, signal.SIGINT)  # to all of them, as a terminal does
    assert process.communicate(timeout=20) == (b"", b"")
    assert process.returncode == INTERRUPTED
    with pytest.raises(ProcessLookupError):
        os.killpg(process.pid, 0)
