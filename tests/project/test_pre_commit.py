"""The hooks for pre-commit: a manifest as published, and entries that work as it calls them."""

from __future__ import annotations

import os
import re
import shlex
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

from roundproof.cli.main import COMMANDS

ROOT = Path(__file__).parents[2]
HOOKS: list[dict[str, Any]] = YAML(typ="safe").load(ROOT / ".pre-commit-hooks.yaml")
BY_ID = {hook["id"]: hook for hook in HOOKS}

# pre-commit, "Creating new hooks": the fields of a manifest and what kind of value each has.
FIELDS = {
    "id": str, "name": str, "entry": str, "language": str, "description": str, "files": str,
    "exclude": str, "types": list, "types_or": list, "exclude_types": list, "always_run": bool,
    "fail_fast": bool, "verbose": bool, "pass_filenames": bool, "require_serial": bool,
    "language_version": str, "minimum_pre_commit_version": str, "args": list, "stages": list,
    "additional_dependencies": list, "log_file": str,
}  # fmt: skip
NEEDED = {"id", "name", "entry", "language"}

PEBBLE = """\
title: Pebble
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc around (12)
"""


@pytest.fixture
def repository(tmp_path: Path) -> Path:
    """Two patterns and what they share, beside files that are none of the hooks' business."""
    files = {
        "patterns/defaults.yaml": "terms: US\n",
        "patterns/pebble/pattern.yaml": PEBBLE,
        "patterns/shell/pattern.yaml": PEBBLE.replace("Pebble", "Shell"),
        "patterns/shell/notes.yaml": "- a\n",
        "patterns/shell/old/pattern.yaml": "- a\n",
        "mkdocs.yml": "site_name: A\n",
        "pattern.yaml": "- a\n",
    }
    for name, text in files.items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(text, encoding="utf-8")
    return tmp_path


def called(hook: dict[str, Any], folder: Path) -> tuple[int, str]:
    """One call with the names of all files that the hook asks for, from the repository's top."""
    names = sorted(p.relative_to(folder).as_posix() for p in folder.rglob("*") if p.is_file())
    chosen = [name for name in names if re.search(hook["files"], name)]
    assert chosen
    scripts = str(Path(sys.executable).parent)
    done = subprocess.run(
        [*shlex.split(hook["entry"]), *hook.get("args", ()), *chosen],
        cwd=folder,
        env={**os.environ, "PATH": os.pathsep.join([scripts, os.environ["PATH"]])},
        capture_output=True,
        encoding="utf-8",
    )
    assert done.stderr == ""
    return done.returncode, done.stdout


def test_the_manifest_has_the_published_fields_and_no_others() -> None:
    assert set(BY_ID) == {"roundproof-check", "roundproof-tidy"}
    for hook in HOOKS:
        assert set(hook) >= NEEDED
        for name, value in hook.items():
            assert isinstance(value, FIELDS[name]), name
        assert hook["language"] == "python"
        assert hook["require_serial"], "all files in one run: what they share is read once"
        program, command, *_ = shlex.split(hook["entry"])
        assert (program, command in COMMANDS) == ("roundproof", True)


@pytest.mark.parametrize("id", BY_ID)
def test_the_files_are_patterns_and_what_they_share(id: str) -> None:
    wanted = re.compile(BY_ID[id]["files"])
    for name in ("patterns/a/pattern.yaml", "patterns/defaults.yaml", "b/patterns/a/pattern.yaml"):
        assert wanted.search(name), name
    for name in (
        "pattern.yaml", "patterns/a/b/pattern.yaml", "patterns/a/pattern.yaml.orig",
        "patterns/a/notes.yaml", "my-patterns/a/pattern.yaml", "patterns/a/defaults.yaml",
    ):  # fmt: skip
        assert not wanted.search(name), name


def test_a_check_of_all_that_changed(repository: Path) -> None:
    assert called(BY_ID["roundproof-check"], repository)[0] == 0
    shell = repository / "patterns/shell/pattern.yaml"
    shell.write_text(shell.read_text("utf-8").replace("(12)", "(13)"), encoding="utf-8")
    code, said = called(BY_ID["roundproof-check"], repository)
    assert code == 1
    assert said.count("count-stated") == 1, "each pattern once, though its defaults are named too"
    assert said.endswith("1 error and 2 notes in 2 files.\n")


def test_defaults_alone_stand_for_the_patterns_that_share_them(repository: Path) -> None:
    (repository / "patterns/defaults.yaml").write_text("term: US\n", encoding="utf-8")
    hook = {**BY_ID["roundproof-check"], "files": r"defaults\.yaml$"}
    code, said = called(hook, repository)
    assert code == 1
    assert "key-unknown" in said and "patterns/defaults.yaml:1:1" in said
    assert "Pebble" in said and "Shell" in said


def test_a_look_for_rounds_out_of_house_style_changes_nothing(repository: Path) -> None:
    assert called(BY_ID["roundproof-tidy"], repository)[0] == 0
    shell = repository / "patterns/shell/pattern.yaml"
    typed = shell.read_text("utf-8").replace("R2: inc", "Rnd 2: inc")
    shell.write_text(typed, encoding="utf-8")
    code, said = called(BY_ID["roundproof-tidy"], repository)
    assert (code, shell.read_text("utf-8")) == (1, typed)
    assert "patterns/shell/pattern.yaml: 1 round" in said
