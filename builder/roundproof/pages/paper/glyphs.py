"""Letters that no font of the booklets has: printed as their number, and named, never dropped."""

from __future__ import annotations

import re
from collections.abc import Mapping

from roundproof.letters import INVISIBLE, composed, has, number

AS_IT_IS = frozenset({"svg", "code", "src", "href", "document"})
"""Keys of what is no text, and of the document's title, which no font has to show."""
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
        return value if key in AS_IT_IS else self.printable(value)

    def text(self, text: str) -> str:
        """The text with '[U+1F980]' for what no font has, and long words that may be parted."""
        text = _LONG.sub(lambda word: BREAK.join(_parts(word[0])), text)
        if text.isascii() and text.isprintable():
            return text
        return "".join(map(self._letter, composed(text)))

    def _letter(self, letter: str) -> str:
        if letter in INVISIBLE:
            return letter if letter in "\n\t\u00ad\u200b\u200d" else ""
        if has(letter):
            return letter
        self.missing[letter] = None
        return f"[{number(letter)}]"


def _parts(word: str) -> list[str]:
    return [word[at : at + PART] for at in range(0, len(word), PART)]
