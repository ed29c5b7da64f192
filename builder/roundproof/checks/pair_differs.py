"""A measure in two units that do not agree."""

from __future__ import annotations

import re
from functools import cache

from roundproof.checks._prose import everywhere
from roundproof.checks.base import Check, Found, quoted
from roundproof.findings import Severity
from roundproof.frozen import dataclass
from roundproof.pattern.quantities import NUMBER, Unit, number, unit_of
from roundproof.proof import Proof

_METRIC = ("mm", "cm", "m", "g", "kg")
_OTHER = (
    "in", "inch", "inches", '"', "″", "ft", "foot", "feet", "yd", "yds", "yard", "yards",
    "oz", "ounce", "ounces", "lb", "lbs"
)  # fmt: skip


_HINTS = ("inch", " in)", " in ", " in.", '"', "″", "yd", "yard", "oz", "ounce", "ft", "foot", "lb")
"""Most texts have none of these and need no closer look."""


@dataclass(frozen=True, slots=True)
class _Measure:
    """`value` in mm or grams, exact to `within` as it is rounded."""

    value: float
    within: float
    unit: Unit


def _run(proof: Proof) -> Found:
    for said in everywhere(proof):
        if not any(word in said.text for word in _HINTS):
            continue
        for found in _pair().finditer(said.text):
            one, other = _measure(found[1], found[2]), _measure(found[3], found[4])
            if one is None or other is None or one.unit.measures != other.unit.measures:
                continue
            if (found[2] in _METRIC) == (found[4] in _METRIC):
                continue
            if abs(one.value - other.value) <= one.within + other.within:
                continue
            is_, metric = one.value / other.unit.factor, f"{found[1]} {found[2]}"
            yield CHECK.finding(
                said.place(*found.span()),
                f"{quoted(found[0])} says two things: {metric} {_are(found[1])} {is_:.1f}"
                f" {other.unit.words[0]}.",
                "Put right the one that is wrong.",
                piece=said.piece,
                round=said.round,
            )


def _are(count: str) -> str:
    return "is" if count == "1" else "are"


def _measure(count: str, word: str) -> _Measure | None:
    unit = unit_of(word)
    value = number(count)
    if unit is None or not isinstance(value, float):
        return None
    return _Measure(value * unit.factor, _step(count) / 2 * unit.factor * 1.001, unit)


def _step(count: str) -> float:
    """What a number is rounded to: 1, a tenth, a half, a quarter."""
    if part := re.search(r"[.,](\d+)$", count):
        return float(10.0 ** -len(part[1]))
    if part := re.search(r"/(\d+)$", count):
        return 1 / max(int(part[1]), 1)
    return {"½": 0.5, "¼": 0.25, "¾": 0.25}.get(count[-1:], 1.0)


@cache
def _pair() -> re.Pattern[str]:
    words = "|".join(sorted((re.escape(w) for w in (*_METRIC, *_OTHER)), key=len, reverse=True))
    measure = rf"({NUMBER})\s?({words})(?!\w)"
    return re.compile(
        rf"(?<![\d.,/-]){measure}\.?\s*(?:\(|/|=|or|,\s*or)\s*(?:about\s)?{measure}\)?"
    )


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    Fasten off, leaving a 30 cm ({} in) tail.
"""

CHECK = Check(
    id="pair-differs",
    title="Two units that do not agree",
    why=(
        "A length that is given in centimetres and in inches is right twice or wrong once. Each"
        " maker reads only their own unit and never sees that the other one says something else."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format(8),
    good=_PATTERN.format(12),
    source="international yard and pound agreement of 1959: 1 in = 25.4 mm, 1 lb = 0.45359237 kg",
    run=_run,
)
