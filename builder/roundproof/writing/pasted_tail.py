"""What stands after the last round of a piece: work of the piece, assembly, or neither."""

from __future__ import annotations

import re
from collections.abc import Sequence

from roundproof.writing.pasted_words import CRAFT, GREETS, PARTS_WITH, SEWN

_LONGEST = 45
"""No note of a piece has more words than this."""


def tail_of(
    texts: Sequence[str], last: int, names: Sequence[str]
) -> tuple[int, list[int], list[int]]:
    """How many lines from the start belong to the piece, and which of the others tell of assembly
    and which of neither. `last` is the last line that is worked, `names` are the pieces before."""
    keep, sewn, stray = last + 1, [], []
    apart = assembling = away = False
    for at in range(last + 1, len(texts)):
        text = texts[at]
        if not text:
            apart = True
            continue
        away = away or _parts(text)
        assembling = not away and (assembling or _sews(text, names, apart))
        if assembling:
            sewn.append(at)
        elif not away and (not apart or _of_work(text)):
            keep = at + 1
        else:
            away = True
            stray.append(at)
    return keep, sewn, stray


def _sews(text: str, names: Sequence[str], apart: bool) -> bool:
    """Whether a line tells how pieces come together."""
    lower = text.lower()
    named = any(re.search(rf"\b{re.escape(_one(name))}", lower) for name in names)
    return bool(SEWN.match(text)) and (named or (apart and len(names) > 0))


def _one(name: str) -> str:
    """The last word of a name without its plural."""
    word = name.lower().split()[-1]
    return word.removesuffix("s") if len(word) > 3 else word


def _of_work(text: str) -> bool:
    return bool(CRAFT.search(text)) and len(text.split()) <= _LONGEST


def _parts(text: str) -> bool:
    return bool(PARTS_WITH.match(text) or GREETS.match(text))
