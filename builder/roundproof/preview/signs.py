"""What stands for the files of a site besides its patterns, to tell whether any has changed."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from contextlib import suppress
from pathlib import Path

from roundproof.frozen import dataclass
from roundproof.store import key

PAGES = (".md", ".markdown", ".html", ".yml", ".py")
"""Endings of files from which pages are made; all others are shown as they are."""


@dataclass(frozen=True, slots=True)
class Signs:
    """`pages` stands for the files that pages are made from, `assets` for those beside them."""

    pages: str
    assets: str


def signs(settings: Path, folders: Iterable[Path]) -> Signs:
    """Of the settings and all files in some folders, each by size and time."""
    found = [_state(str(settings)), *(_state(f) for folder in folders for f in _files(folder))]
    pages = sorted(line for name, line in found if name.endswith(PAGES))
    assets = sorted(line for name, line in found if not name.endswith(PAGES))
    return Signs(key(*pages), key(*assets))


def _files(folder: Path) -> Iterator[str]:
    for at, inner, names in os.walk(folder):
        inner[:] = (name for name in inner if not name.startswith((".", "__")))
        yield from (os.path.join(at, name) for name in names if not name.startswith("."))


def _state(file: str) -> tuple[str, str]:
    with suppress(OSError):
        state = os.stat(file)
        return file, f"{file} {state.st_size} {state.st_mtime_ns} {state.st_ino}"
    return file, file
