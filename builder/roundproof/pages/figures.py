"""Numbers as they are printed: lengths, weights, dates, counts in words."""

from __future__ import annotations

from datetime import date

NBSP = "\u00a0"
INCH = 25.4
_WORDS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


def trimmed(value: float, decimals: int = 1) -> str:
    """At most so many decimals, none that say nothing."""
    text = f"{value:,.{decimals}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def length(millimetres: float) -> str:
    """ "5 mm", "6.4 cm", "1.2 m"."""
    if millimetres < 10:
        return f"{trimmed(millimetres)}{NBSP}mm"
    if millimetres < 1000:
        return f"{trimmed(millimetres / 10)}{NBSP}cm"
    return f"{trimmed(millimetres / 1000)}{NBSP}m"


def inches(millimetres: float) -> str:
    """To a quarter inch from one inch on, to a tenth below: "3¾ in", "0.6 in"."""
    if millimetres < 0.95 * INCH:
        return f"{trimmed(max(millimetres / INCH, 0.1 if millimetres else 0.0))}{NBSP}in"
    whole, quarters = divmod(round(4 * millimetres / INCH), 4)
    return f"{whole:,}{('', '¼', '½', '¾')[quarters]}{NBSP}in"


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
