"""The booklets that stand beside a pattern's page, to be printed."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache, partial
from importlib.resources import files
from pathlib import Path

from roundproof.frozen import dataclass, replace
from roundproof.pages.once import Once
from roundproof.pages.paper.how import Print
from roundproof.pages.paper.nodes import Choice
from roundproof.pages.paper.printing import Printer
from roundproof.pages.values import Booklet
from roundproof.store import stamp

EDITIONS = (
    ("booklet-a4.pdf", "A4", Print(paper="a4")),
    ("booklet-letter.pdf", "US Letter", Print(paper="letter")),
    ("booklet-large-print.pdf", "large print", Print(paper="both", style="large")),
)
"""Their files, what the page calls them, and how they are printed."""


@dataclass(frozen=True, slots=True)
class Beside:
    """A booklet as a file, and what its page says of it."""

    told: Booklet
    data: bytes


def booklets(printer: Printer, once: Once) -> Iterator[Beside]:
    """One of each edition, in the terms that the pattern is written in."""
    choice = Choice(printer.proof.pattern.written_in.value.lower())
    for file, label, edition in EDITIONS:
        how = replace(edition, choice=choice)
        ready = printer.ready(how)
        parts = (ready.text, *(part for pair in ready.files.items() for part in pair))
        day = str(printer.proof.pattern.date)
        data = once(partial(_printed, printer, how), "booklet", _looks(), how.paper, day, *parts)
        yield Beside(Booklet(file, label, f"{round(len(data) / 1000)}\u00a0kB"), data)


def _printed(printer: Printer, how: Print) -> bytes:
    return printer.booklet(how)[0]


@cache
def _looks() -> str:
    """Stands for the templates and the fonts of booklets."""
    return stamp([Path(str(files("roundproof.theme"))) / "print"], (".typ", ".ttf"))
