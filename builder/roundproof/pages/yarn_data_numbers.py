"""How the data of a page write stitches, parts and lengths: as numbers in a table of stitches."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from itertools import groupby
from typing import Any

from roundproof.measure.shares import Share, Sum, Unit

_DIGITS = 12
"""Enough that a figure on the edge of a limit falls on the same side as in `measure`."""

Data = dict[str, Any]


class Numbers:
    """The stitches of a pattern, numbered as they come; the yarns by their lines."""

    def __init__(self, lines: Iterable[str]) -> None:
        self.lines = {key: place for place, key in enumerate(lines)}
        self._units: dict[Unit, int] = {}

    def units(self) -> list[list[float]]:
        """[line, width, height, guess]: times the stitch of a line, or mm for the line -1."""
        return [
            [self.lines.get(u.yarn, -1), short(u.width), short(u.height), int(u.guess)]
            for u in self._units
        ]

    def unit(self, unit: Unit) -> int:
        return self._units.setdefault(unit, len(self._units))

    def share(self, share: Share) -> int | list[float]:
        """The number of the one stitch there is, or [number, part, number, part, ...]."""
        if len(share) == 1:
            return self.unit(next(iter(share)))
        return [x for unit, part in share.items() for x in (self.unit(unit), short(part))]

    def sum(self, found: Sum | None) -> list[float] | None:
        """[number, widths, heights, ...]."""
        if found is None:
            return None
        return [
            x
            for unit, (across, up) in found.items()
            for x in (self.unit(unit), short(across), short(up))
        ]

    def amounts(self, found: Mapping[Unit, float]) -> list[float]:
        """[number, amount, ...]."""
        return [x for unit, amount in found.items() for x in (self.unit(unit), short(amount))]


def short(value: float) -> float:
    """Without digits that come of reckoning, and whole where it is whole."""
    value = round(value, _DIGITS)
    return int(value) if value == int(value) else value


def runs(counts: Iterable[int]) -> Iterator[int | list[int]]:
    """A count that stays as [count, rounds]."""
    for count, alike in groupby(counts):
        rounds = sum(1 for _ in alike)
        yield count if rounds == 1 else [count, rounds]
