"""Numbers as they are printed: lengths, weights, dates, counts in words."""

from __future__ import annotations

from datetime import date

from roundproof.drawing.lengths import INCH as INCH
from roundproof.drawing.lengths import NBSP as NBSP
from roundproof.drawing.lengths import inches as inches
from roundproof.drawing.lengths import length as length
from roundproof.drawing.lengths import trimmed as trimmed

_WORDS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


def millimetres(value: float) -> str:
    """Hooks and eyes go by millimetres."""
    return f"{trimmed(value, 2)}{NBSP}mm"


def metres(value: float) -> str:
    return f"{trimmed(value, 0 if value >= 10 else 1)}{NBSP}m"


def grams(value: float) -> str:
    return f"{trimmed(value, 0 if value >= 10 else 1)}{NBSP}g"


def counted(number: int, one: str, several: str = "") -> str:
    """ "1 round", "18 rounds"."""
    return f"{number:,}{NBSP}{one if number == 1 else several or one + 's'}"


def in_words(number: int) -> str:
    """Small numbers as words, larger ones as figures."""
    return _WORDS[number] if 0 <= number < len(_WORDS) else f"{number:,}"


def day(value: date) -> str:
    """ "2 June 2026"."""
    return f"{value.day} {value:%B %Y}"


def listed(items: list[str]) -> str:
    """ "a", "a and b", "a, b and c"."""
    return items[0] if len(items) == 1 else ", ".join(items[:-1]) + " and " + items[-1]


def sentence(text: str) -> str:
    """With a capital letter and a full stop."""
    text = text.strip()
    if not text:
        return ""
    return text[0].upper() + text[1:] + ("" if text[-1] in ".!?:" else ".")
