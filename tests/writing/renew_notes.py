"""Writes the drafts made of the notes in `notes/` anew, to be looked at and kept. Run this file."""

from __future__ import annotations

from pathlib import Path

from roundproof.writing.pasted import pasted

NOTES = Path(__file__).with_name("notes")


def files() -> list[Path]:
    return sorted(path for path in NOTES.iterdir() if path.suffix in (".txt", ".md"))


def draft(path: Path) -> str:
    return pasted(path.read_bytes(), path.name, "draft").text


if __name__ == "__main__":
    for each in files():
        each.with_suffix(".yaml").write_text(draft(each), "utf-8", newline="\n")
