"""Points on a piece in words: "R2 st 3", "between R2 and R3", "R4 between 9 and 10"."""

from __future__ import annotations

import re
from functools import cache

from roundproof.frozen import dataclass


@dataclass(frozen=True, slots=True)
class PointName:
    """A point as named. `first` and `last` are the rounds it lies on or between (alike for one on
    a round), 0 for one that goes by a name; `stitch` the highest stitch it names, 0 where that is
    left open; `place` the same in stitches from the start of the round (2.5 is the middle of
    stitch 3)."""

    first: int = 0
    last: int = 0
    stitch: int = 0
    place: float = 0.0
    name: str = ""


_ROUND = r"(?:rounds?|rnds?|rows?|r)\.?\s*(\d{1,6})"
_ST = r"(?:at\s+)?(?:sts?|stitch(?:es)?)\.?\s*(\d{1,6})"
_FORMS = (
    rf"{_ROUND},?\s+{_ST}",  # R2 st 3
    rf"{_ST}\s+of\s+{_ROUND}",  # st 3 of R2
    rf"{_ROUND},?\s+between\s+(?:sts?\s+)?(\d{{1,6}})\s+and\s+(\d{{1,6}})",  # R2 between 3 and 4
    rf"between\s+{_ROUND}\s+and\s+{_ROUND}(?:,?\s+{_ST})?",  # between R2 and R3, st 5
    _ROUND,
)
_NAME = r"(?:the\s+)?(?:(?:start|end|middle)\s+of\s+)?(?:the\s+)?(?P<name>.+)"


def read_point(words: str) -> PointName:
    """The point that some words name; words of no known form are the name of a mark or a line."""
    text = " ".join(words.split())
    for number, form in enumerate(_patterns()):
        if (found := form.fullmatch(text)) is not None:
            return _point(number, [int(part) for part in found.groups() if part])
    named = re.fullmatch(_NAME, text, re.IGNORECASE)
    return PointName(name=named["name"] if named else text)


def _point(form: int, numbers: list[int]) -> PointName:
    if form == 0:
        return _at(numbers[0], numbers[1])
    if form == 1:
        return _at(numbers[1], numbers[0])
    if form == 2:
        low, high = sorted(numbers[1:])
        return PointName(numbers[0], numbers[0], high, float(low))
    if form == 3:
        low, high = sorted(numbers[:2])
        stitch = numbers[2] if len(numbers) > 2 else 0
        return PointName(low, high, stitch, max(stitch - 0.5, 0.0))
    return PointName(numbers[0], numbers[0])


def _at(number: int, stitch: int) -> PointName:
    return PointName(number, number, stitch, max(stitch - 0.5, 0.0))


@cache
def _patterns() -> tuple[re.Pattern[str], ...]:
    return tuple(re.compile(form, re.IGNORECASE) for form in _FORMS)
