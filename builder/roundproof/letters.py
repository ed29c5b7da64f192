"""Which letters can be printed: those that the fonts of the booklets have, by their list."""

from __future__ import annotations

from bisect import bisect_right
from functools import cache

COVERAGE = "print/fonts/coverage.txt"
INVISIBLE = frozenset("\n\t\u00ad\u200b\u200c\u200d\u200e\u200f\u2060\ufe0e\ufe0f")
"""What is not seen itself, and needs no glyph."""
_USUAL = frozenset("–—‘’“”…×−")
"""Had by every font for reading: for these alone the list is not looked up."""


def lacking(text: str) -> tuple[str, ...]:
    """The letters of a text that no font has, each once, in their order."""
    if text.isascii():
        return ()
    letters = dict.fromkeys(composed(text))
    return tuple(each for each in letters if not (each in INVISIBLE or has(each)))


def composed(text: str) -> str:
    """The text with a letter and its accents as one, where Unicode has it as one."""
    from unicodedata import is_normalized, normalize

    return text if is_normalized("NFC", text) else normalize("NFC", text)


def has(letter: str) -> bool:
    """Whether one of the fonts has a glyph for it."""
    if " " <= letter <= "~" or letter in _USUAL:
        return True
    starts, ends = _ranges()
    place = bisect_right(starts, ord(letter)) - 1
    return place >= 0 and ord(letter) <= ends[place]


def number(letter: str) -> str:
    """What is printed for a letter that no font has: 'U+1F980'."""
    return f"U+{ord(letter):04X}"


@cache
def _ranges() -> tuple[list[int], list[int]]:
    """The letters of all fonts together, as ranges: 'first-last' a line, in hexadecimal."""
    from importlib.resources import files  # most patterns have usual letters alone

    text = (files("roundproof.theme") / COVERAGE).read_text("utf-8")
    pairs = [line.split("-") for line in text.split()]
    return [int(first, 16) for first, _ in pairs], [int(last, 16) for _, last in pairs]
