"""How a booklet is printed."""

from __future__ import annotations

from roundproof.frozen import dataclass
from roundproof.pages.paper.nodes import Choice

PAPERS = ("a4", "letter", "both")
"""ISO 216, US Letter, and what is as wide as the one and as high as the other."""
MOST_PUPILS = 1000
STYLES = ("standard", "ink", "large", "aloud")
"""As usual; saving ink; 24 pt, black on white, in one column; sentences to be read aloud."""


@dataclass(frozen=True, slots=True)
class Copy:
    """A tester's own copy: whose it is, by when to report."""

    tester: str
    deadline: str = ""


@dataclass(frozen=True, slots=True)
class Print:
    """How a booklet is printed: the maker's choices, the paper and the style; with or without
    `photos`; for a tester, with their `copy`; for so many `pupils`, 0 for one maker; with `room` to
    write beside the work, as a tester's copy has in any case."""

    choice: Choice = Choice()
    paper: str = "a4"
    style: str = "standard"
    photos: bool = True
    copy: Copy | None = None
    pupils: int = 0
    room: bool = False
