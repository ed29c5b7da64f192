"""The drawings of patterns as files in a folder, with a page of words for each pattern."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from roundproof.checks.results import Results
from roundproof.drawing.looks import looks
from roundproof.drawing.sheet import Sheet
from roundproof.drawing.sheets import Sheets
from roundproof.drawing.svg import write_file
from roundproof.drawing.yarns import shades_of
from roundproof.pages.drawn import named
from roundproof.proof import Proof
from roundproof.writing.slug import slug

WORDS = "drawings.txt"


def write_drawings(results: Results, folder: Path, *, mirrored: bool) -> Iterator[Path]:
    """Draws every pattern that could be read, each into a folder of its name; gives what is
    written. Raises OSError where it cannot be."""
    for result in results.files:
        if result.proof is None:
            continue
        proof = result.proof
        own = folder / (slug(proof.pattern.slug) or "pattern")
        own.mkdir(parents=True, exist_ok=True)
        style = looks(shades_of(proof.pattern))
        drawn = named(proof, Sheets(proof).of(mirrored))
        for name, sheet in drawn.items():
            (own / name).write_text(write_file(sheet.drawing, style), "utf-8")
            yield own / name
        told = "\n".join(line for name, sheet in drawn.items() for line in _told(name, sheet))
        (own / WORDS).write_text(_head(proof) + told, "utf-8")
        yield own / WORDS


def _head(proof: Proof) -> str:
    title = proof.pattern.title.value if proof.pattern.title else proof.pattern.slug
    return f"{title}: the drawings in words\n\n"


def _told(name: str, sheet: Sheet) -> Iterator[str]:
    yield name
    yield sheet.drawing.title
    yield sheet.caption
    yield from (f"  {line}" for line in sheet.words)
    yield ""
