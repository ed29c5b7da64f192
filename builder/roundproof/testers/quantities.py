"""Amounts that only testers write: what a ball weighs when nothing is left of it, and hours."""

from __future__ import annotations

import re

from roundproof.expressions import expression
from roundproof.pattern.quantities import NUMBER, Fault, length, number, weight

MOST_HOURS = 1000
_BELOW = expression(r"[-−–]\s*(?P<rest>\d.*)")
_NOTHING = expression(r"0+(?:[.,]0+)?\s*(?P<unit>\S+)")
_HOUR, _MINUTE = r"(?:h|hrs?|hours?)", r"(?:m|mins?|minutes?)"
_HOURS = expression(
    rf"(?:(?P<hours>{NUMBER})\s*{_HOUR}\.?)?\s*(?:and\s+)?(?:(?P<minutes>{NUMBER})\s*{_MINUTE}\.?)?",
    re.IGNORECASE,
)
_CLOCK = expression(r"(?P<hours>\d{1,3}):(?P<minutes>[0-5]\d)\s*(?:h|hrs?|hours?)", re.IGNORECASE)


def weighed(text: str) -> float | Fault:
    """Grams on a scale: `31.4 g`, `1.1 oz`, and `0 g` where nothing is left."""
    if (below := _BELOW.fullmatch(text)) and not isinstance(weight(below["rest"]), Fault):
        return Fault("nothing weighs less than nothing")
    nothing = _NOTHING.fullmatch(text)
    if nothing and not isinstance(weight(f"1 {nothing['unit']}"), Fault):
        return 0.0
    return weight(text)


def measured(text: str) -> float | Fault:
    """Millimetres, above nothing: `9.5 cm`, `3.7 in`."""
    if (below := _BELOW.fullmatch(text)) and not isinstance(length(below["rest"]), Fault):
        return Fault("nothing measures less than nothing")
    return length(text)


def hours(text: str) -> float | Fault:
    """Hours: `5 h`, `90 min`, `1 h 30 min`, `1 1/2 hours`, `1:30 h`."""
    found = _CLOCK.fullmatch(text) or _HOURS.fullmatch(text)
    if found is None or not found[0].strip():
        if isinstance(number(text), float):
            return Fault("its unit is missing", "unit-missing")
        if (below := _BELOW.fullmatch(text)) and isinstance(hours(below["rest"]), float):
            return Fault("no time is less than none")
        return Fault()
    parts = [number(found[part] or "0") for part in ("hours", "minutes")]
    whole, minutes = (part if isinstance(part, float) else -1.0 for part in parts)
    value = whole + minutes / 60
    return value if whole >= 0 <= minutes and 0 < value <= MOST_HOURS else Fault("that cannot be")
