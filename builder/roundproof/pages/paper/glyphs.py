"""Letters that no font of the booklets has: printed as their number, and named, never dropped."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from pathlib import Path

COVERAGE = "print/fonts/coverage.txt"
AS_IT_IS = frozenset({"svg", "code", "src", "href"})
"""Keys of what is no text."""
WHOLE = "document"
"""The key of the document's title, which is on no line."""
_INVISIBLE = frozenset("\n\t\u00ad\u200b\u200c\u200d\u200e\u200f\u2060\ufe0e\ufe0f")
"""What is not seen itself, and needs no glyph."""

BREAK, PART = "\u200b", 24
"""A word longer than a line may be parted after so many letters, or what does not fit is lost."""
_LONG = re.compile(r"\S{32,}")


class Glyphs:
    """Makes every text printable, and remembers what it could not print."""

    def __init__(self) -> None:
        self.missing: dict[str, None] = {}

    def printable(self, value: object) -> object:
        """A value of lists, mappings and texts, its texts printable. Keys stay."""
        if isinstance(value, str):
            return self.text(value)
        if isinstance(value, Mapping):
            return {key: self._under(key, v) for key, v in value.items()}
        if isinstance(value, list | tuple):
            return [self.printable(each) for each in value]
        return value

    def _under(self, key: str, value: object) -> object:
        if key in AS_IT_IS:
            return value
        if key == WHOLE and isinstance(value, str):
            return "".join(map(self._letter, value))
        return self.printable(value)

    def text(self, text: str) -> str:
        """The text with '[U+1F980]' for what no font has, and long words that may be parted."""
        text = _LONG.sub(lambda word: BREAK.join(_parts(word[0])), text)
        if text.isascii() and text.isprintable():
            return text
        return "".join(map(self._letter, text))

    def _letter(self, letter: str) -> str:
        if letter in _INVISIBLE:
            return letter if letter in "\n\t\u00ad\u200b\u200d" else ""
        if has(letter):
            return letter
        self.missing[letter] = None
        return f"[U+{ord(letter):04X}]"


def _parts(word: str) -> list[str]:
    return [word[at : at + PART] for at in range(0, len(word), PART)]


def has(letter: str) -> bool:
    """Whether one of the fonts has a glyph for it."""
    starts, ends = _ranges()
    place = bisect_right(starts, ord(letter)) - 1
    return place >= 0 and ord(letter) <= ends[place]


@cache
def _ranges() -> tuple[list[int], list[int]]:
    """The letters of all fonts together, as ranges: 'first-last' a line, in hexadecimal."""
    text = (Path(str(files("roundproof.theme"))) / COVERAGE).read_text("utf-8")
    pairs = [line.split("-") for line in text.split()]
    return [int(first, 16) for first, _ in pairs], [int(last, 16) for _, last in pairs]
