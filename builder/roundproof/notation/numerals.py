"""Numbers in words: 'twenty-four', 'eleventh'."""

from __future__ import annotations

_UNITS = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine"]
_TEENS = [
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
]
_TENS = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]
_ORDINAL_UNITS = [
    "first",
    "second",
    "third",
    "fourth",
    "fifth",
    "sixth",
    "seventh",
    "eighth",
    "ninth",
]
_ORDINAL_TEENS = [
    "tenth",
    "eleventh",
    "twelfth",
    "thirteenth",
    "fourteenth",
    "fifteenth",
    "sixteenth",
    "seventeenth",
    "eighteenth",
    "nineteenth",
]

CARDINALS: dict[str, int] = {word: n for n, word in enumerate([*_UNITS, *_TEENS], 1)}
CARDINALS |= {word: 10 * n for n, word in enumerate(_TENS, 2)}
ORDINALS: dict[str, int] = {word: n for n, word in enumerate([*_ORDINAL_UNITS, *_ORDINAL_TEENS], 1)}
ORDINALS |= {f"{word[:-1]}ieth": 10 * n for n, word in enumerate(_TENS, 2)}
TENS = frozenset(_TENS)
"""Words that a unit may follow: 'twenty-four'."""


def value(words: str) -> int | None:
    """The number that one or two words say, cardinal or ordinal, or None."""
    parts = words.replace("-", " ").split()
    both = CARDINALS | ORDINALS
    if len(parts) == 1:
        return both.get(parts[0])
    if len(parts) == 2 and parts[0] in TENS and (unit := both.get(parts[1], 10)) < 10:
        return CARDINALS[parts[0]] + unit
    return None


def ordinal(number: int) -> str:
    """'2nd', '11th', '23rd'."""
    ending = {1: "st", 2: "nd", 3: "rd"}.get(number % 10 if number % 100 not in (11, 12, 13) else 0)
    return f"{number}{ending or 'th'}"
