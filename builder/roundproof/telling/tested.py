"""What testers measured, in a few words beside what is estimated."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from roundproof.measure.figures import number
from roundproof.measure.model import Spread, Tested
from roundproof.pattern.model import Pattern
from roundproof.words import count, listing, say


def yarn_lines(tested: Tested | None, pattern: Pattern) -> Iterator[str]:
    """ "green, measured by 3 testers: 4.7 g (4.5 to 4.8) and 15.6 m (14.6 to 16.3)"."""
    found = tested.grams if tested else {}
    for key in (yarn.key for yarn in pattern.yarns if yarn.key in found):
        grams = found[key]
        parts = [_between(grams, "g")]
        if tested and (metres := tested.metres.get(key)):
            parts.append(_between(metres, "m"))
        yield say("tested.yarn", yarn=key, said=_by(grams, listing(parts)))


def time_line(tested: Tested | None) -> Iterator[str]:
    """ "time, measured by 3 testers: 1.5 hours (1.2 to 2)"."""
    if tested and tested.hours:
        said = _between(tested.hours, say("tested.hours"))
        yield say("tested.time", said=_by(tested.hours, said))


def spread_values(found: Spread | None, by: float = 1) -> dict[str, Any] | None:
    """A spread for programs, to two decimals."""
    if found is None:
        return None
    figures = {"low": found.low, "median": found.middle, "high": found.high}
    return {name: round(v / by, 2) for name, v in figures.items()} | {"testers": found.count}


def _by(found: Spread, said: str) -> str:
    return say("tested.by", testers=count("tester", found.count), figure=said)


def _between(found: Spread, unit: str) -> str:
    low, middle, high = (number(figure, 1) for figure in (found.low, found.middle, found.high))
    key = "tested.one" if low == high else "tested.between"
    return say(key, low=low, middle=middle, high=high, unit=unit)
