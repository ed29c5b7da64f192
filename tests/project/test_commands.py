"""The commands everyone runs: make, the continuous integration, the workflow that publishes."""

import os
import re
import subprocess
from pathlib import Path

import pytest
from ruamel.yaml import YAML

ROOT = Path(__file__).parents[2]
START = ROOT / "builder/roundproof/writing/start"
WORKFLOWS = [ROOT / ".github/workflows/publish.yml", START / "publish.yml"]
OFFICIAL = {"checkout", "setup-python", "upload-pages-artifact", "deploy-pages"}


def make(*words: str, check: bool = True) -> "subprocess.CompletedProcess[str]":
    """Run make as from a shell: these tests may themselves run under make, which would pass its
    own flags down."""
    given = {k: v for k, v in os.environ.items() if k not in ("MAKEFLAGS", "MAKELEVEL", "MFLAGS")}
    return subprocess.run(
        ["make", *words], cwd=ROOT, env=given, capture_output=True, text=True, check=check
    )


def recipe(*target: str) -> str:
    """What make would run, without running it."""
    return make("--always-make", "--dry-run", *target).stdout


def test_make_test_runs_everything_and_pytest_last() -> None:
    lines = recipe("test").splitlines()
    wanted = ["ruff format --check", "ruff check", "mypy", "roundproof check", "roundproof build"]
    places = [next(i for i, line in enumerate(lines) if part in line) for part in wanted]
    assert places == sorted(places)
    assert "pytest" in lines[-1]


def test_the_first_target_builds_the_site() -> None:
    assert recipe("site") == recipe()
    assert recipe("site").splitlines()[-1].endswith("roundproof build")


def test_make_says_what_to_install_where_there_is_no_python() -> None:
    stopped = make("--always-make", "PYTHON=", ".venv/bin/python", check=False)
    assert stopped.returncode != 0
    assert "apt-get install python3" in stopped.stdout


def test_continuous_integration_calls_make_test_and_nothing_else() -> None:
    script = ROOT / ".ci/run"
    assert os.access(script, os.X_OK)
    lines = [line for line in script.read_text("utf-8").splitlines() if line and line[0] != "#"]
    assert lines == ["set -eu", 'cd "$(dirname "$0")/.."', "exec make test"]


@pytest.mark.parametrize("file", WORKFLOWS, ids=["ours", "of a new site"])
def test_the_workflow_checks_builds_and_deploys(file: Path) -> None:
    workflow = YAML(typ="safe", pure=True).load(file.read_text("utf-8"))
    build, deploy = workflow["jobs"]["build"], workflow["jobs"]["deploy"]
    runs = [step["run"] for step in build["steps"] if "run" in step]
    assert runs[1:] == ["roundproof check", "roundproof build"]
    assert workflow["permissions"] == {"contents": "read"}
    assert deploy["needs"] == "build"
    assert deploy["permissions"] == {"pages": "write", "id-token": "write"}
    uses = [step["uses"] for job in (build, deploy) for step in job["steps"] if "uses" in step]
    assert {re.fullmatch(r"actions/([a-z-]+)@v\d+", use)[1] for use in uses} == OFFICIAL  # type: ignore[index]


def test_both_workflows_differ_only_in_what_they_install() -> None:
    ours, theirs = (file.read_text("utf-8").splitlines() for file in WORKFLOWS)
    assert [b for a, b in zip(ours, theirs, strict=True) if a != b] == [
        "      - run: pip install -r requirements.txt"
    ]
