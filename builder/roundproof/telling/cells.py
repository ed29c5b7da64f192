"""Text as a terminal shows it: how wide each character is, and what must not reach it."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator

TAB = 4
_TURNERS = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
"""Characters that turn the direction of what follows, and so could disguise a line."""


def cells(text: str) -> Iterator[tuple[str, int]]:
    """Each character as it is to be shown, and how many columns it takes. Tabs become spaces;
    control characters become a mark, so that no file can send commands to the terminal."""
    column = 0
    for char in text:
        if char == "\t":
            shown, wide = " " * (TAB - column % TAB), TAB - column % TAB
        elif " " <= char <= "~":
            shown, wide = char, 1
        else:
            shown, wide = _odd(char)
        column += wide
        yield shown, wide


def clean(text: str) -> str:
    """A text on one line, with nothing in it that a terminal would obey."""
    return "".join(shown for shown, _ in cells(" ".join(text.split())))


def width(text: str) -> int:
    """Columns that a text takes."""
    return len(text) if text.isascii() else sum(wide for _, wide in cells(text))


def wrapped(text: str, columns: int) -> list[str]:
    """A text in lines of at most so many columns; a longer word stands alone."""
    lines: list[str] = []
    for word in clean(text).split(" "):
        if lines and width(lines[-1]) + 1 + width(word) <= columns:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines


def _odd(char: str) -> tuple[str, int]:
    category = unicodedata.category(char)
    if category in ("Cc", "Cs", "Zl", "Zp") or char in _TURNERS:
        return "\N{REPLACEMENT CHARACTER}", 1
    if category in ("Mn", "Me", "Cf"):
        return char, 0
    return char, 2 if unicodedata.east_asian_width(char) in "WF" else 1
