"""A table that is kept parsed is never another one than its file holds."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest

from roundproof import tables


@pytest.fixture
def file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(sys, "dont_write_bytecode", False)
    monkeypatch.setattr(sys, "pycache_prefix", str(tmp_path / "kept"))
    (path := tmp_path / "hooks.toml").write_text("[[hook]]\nmm = 3.5\nnames = ['E']\n", "utf-8")
    return path


TABLE = {"hook": [{"mm": 3.5, "names": ["E"]}]}


def refuse(path: Path) -> dict[str, object]:
    raise AssertionError(f"{path} is parsed again")


def test_a_table_is_parsed_once(file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert tables.load(file) == TABLE
    monkeypatch.setattr(tables, "_parsed", refuse)
    assert tables.load(file) == TABLE
    assert [path.name for path in tables.place(file).parent.iterdir()] == [tables.place(file).name]


def test_a_changed_file_is_parsed_again(file: Path) -> None:
    tables.load(file)
    state = file.stat()
    file.write_text("[[hook]]\nmm = 4.5\nnames = ['G']\n", "utf-8")  # of the same size
    os.utime(file, ns=(state.st_atime_ns, state.st_mtime_ns + 1))
    assert tables.load(file) == {"hook": [{"mm": 4.5, "names": ["G"]}]}
    file.write_text("a = 1\n", "utf-8")
    os.utime(file, ns=(state.st_atime_ns, state.st_mtime_ns + 1))
    assert tables.load(file) == {"a": 1}


@pytest.mark.parametrize("change", ["", "cut", "no table at all", "i\1\0\0\0", "(\1\0\0\0N"])
def test_whatever_else_is_kept_does_not_count(file: Path, change: str) -> None:
    tables.load(file)
    kept = tables.place(file).read_bytes()
    tables.place(file).write_bytes(kept[:-5] if change == "cut" else change.encode())
    assert tables.load(file) == TABLE
    assert tables.place(file).read_bytes() == kept


def test_nothing_is_kept_where_python_keeps_nothing(
    file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    assert tables.load(file) == TABLE
    assert not tables.place(file).exists()
    monkeypatch.setattr(sys, "dont_write_bytecode", False)
    tables.place(file).parent.parent.mkdir(parents=True)
    tables.place(file).parent.write_text("a file where the folder would be", "utf-8")
    assert tables.load(file) == TABLE


def test_a_table_that_cannot_be_kept_is_parsed_each_time(file: Path) -> None:
    file.write_text("day = 2024-05-01\n", "utf-8")
    assert tables.load(file) == tables.load(file)
    assert not tables.place(file).exists()


def test_it_lies_beside_compiled_modules_under_a_name_of_its_own(
    file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "pycache_prefix", None)
    assert tables.place(file).parent == file.parent / "__pycache__"
    assert tables.place(file).name.startswith("hooks.toml.")
