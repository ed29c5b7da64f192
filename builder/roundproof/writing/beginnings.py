"""The beginnings of a site and of a pattern, written to disk. Nothing is ever overwritten."""

from __future__ import annotations

import json
import re
from importlib.resources import files
from pathlib import Path

from roundproof import __version__
from roundproof.words import listing, say

SITE = {
    "mkdocs.yml": "mkdocs.yml",
    "README.md": "README.md",
    "requirements.txt": "requirements.txt",
    ".gitignore": "gitignore",
    ".github/workflows/publish.yml": "publish.yml",
    "patterns/defaults.yaml": "defaults.yaml",
    "patterns/net-float/pattern.yaml": "pattern.yaml",
    "site_src/index.md": "index.md",
}
"""Every file of a new site, and the file of `start/` that it is made from."""


class InTheWay(Exception):
    """Something stands where a file should go; the message names it."""


def write_site(folder: Path, title: str, designer: str = "", accent: str = "") -> list[Path]:
    """A site that builds, with one small pattern, in the designer's name and with a colour of
    theirs. Raises InTheWay before anything is written, OSError where the folder cannot be written
    to."""
    if folder.exists() and not folder.is_dir():
        raise InTheWay(say("new.is_file", folder=folder))
    there = [name for name in SITE if (folder / name).exists()]
    if there:
        raise InTheWay(say("new.in_the_way", folder=folder, names=listing(there)))
    words = {"designer": designer or "Your name", "accent": accent or EXAMPLE_ACCENT}
    texts = {name: _start(made_from, title, **words) for name, made_from in SITE.items()}
    if accent:
        told = texts["mkdocs.yml"]
        texts["mkdocs.yml"] = told.replace(f"  # {_ACCENT_KEY}", f"  {_ACCENT_KEY}")
    return [_write(folder / name, text) for name, text in texts.items()]


EXAMPLE_ACCENT = "#8a2f4e"
_ACCENT_KEY = "accent:"


def write_pattern(patterns: Path, folder: str, title: str, text: str = "") -> Path:
    """A draft in `patterns/<folder>/pattern.yaml`: the text, or one to write on if there is none.
    Raises InTheWay, OSError."""
    file = patterns / folder / "pattern.yaml"
    if file.exists() or file.parent.is_file():
        raise InTheWay(say("new.pattern_there", file=file))
    return _write(file, text or _start("draft.yaml", title))


def _start(name: str, title: str, **words: str) -> str:
    text = files(__package__).joinpath("start", name).read_text("utf-8")
    said = {"title": title, **words}
    if name.endswith((".yml", ".yaml")):
        said = {word: json.dumps(one, ensure_ascii=False) for word, one in said.items()}
    said["version"] = __version__
    return re.sub(r"\{(\w+)\}", lambda found: said.get(found[1], found[0]), text)


def _write(file: Path, text: str) -> Path:
    file.parent.mkdir(parents=True, exist_ok=True)
    with file.open("x", encoding="utf-8", newline="\n") as new:
        new.write(text)
    return file
