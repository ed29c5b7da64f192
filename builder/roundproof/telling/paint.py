"""Colours and signs, as far as the place they go to can show them."""

from __future__ import annotations

import os
from typing import TextIO

from roundproof.findings import Severity
from roundproof.frozen import dataclass

_CODES = {"bold": "1", "faint": "2", "red": "31", "green": "32", "yellow": "33", "cyan": "36"}
_SIGNS = "│…·→“”"
SEVERITY = {Severity.ERROR: "red", Severity.WARNING: "yellow", Severity.NOTE: "cyan"}


@dataclass(frozen=True, slots=True)
class Paint:
    """How to write: in colour or not, with our signs or with plain ones, how many columns wide."""

    colour: bool = False
    signs: bool = True
    columns: int = 80

    def __call__(self, text: str, *styles: str) -> str:
        """The text in some styles."""
        if not (self.colour and text and styles):
            return text
        return f"\x1b[{';'.join(_CODES[style] for style in styles)}m{text}\x1b[0m"

    @property
    def bar(self) -> str:
        return "│" if self.signs else "|"

    @property
    def dot(self) -> str:
        return " · " if self.signs else " - "

    @property
    def arrow(self) -> str:
        return " → " if self.signs else " -> "

    @property
    def ellipsis(self) -> str:
        return "…" if self.signs else "..."


def paint_for(stream: TextIO) -> Paint:
    """What a stream can show: colour only on a terminal, and not where `NO_COLOR` is set."""
    terminal = stream.isatty()
    return Paint(terminal and _wants_colour(), _has_signs(stream), _columns(terminal))


def _wants_colour() -> bool:
    if os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb":
        return False
    # Windows' old console prints the codes; its terminals of today say who they are.
    return os.name != "nt" or bool({"WT_SESSION", "TERM_PROGRAM", "TERM"} & set(os.environ))


def _has_signs(stream: TextIO) -> bool:
    try:
        _SIGNS.encode(stream.encoding or "ascii")
    except (UnicodeEncodeError, LookupError):
        return False
    return True


def _columns(terminal: bool) -> int:
    """80, or less on a narrower terminal: longer lines are tiring to read."""
    if not terminal:
        return 80
    try:
        return max(40, min(80, os.get_terminal_size().columns or 80))
    except OSError:
        return 80
