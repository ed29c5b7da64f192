"""A colour map in words: each round with its stitches in working order, "R7 (18): (3 A, 2 B) x 3,
3 A". Groups that come again are told once only where that is exact."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from roundproof.drawing.colours.rows import Row
from roundproof.drawing.runs import rounds

LONGEST = 24
"""Stretches that a group which comes again has at most."""

Told = Sequence[tuple[str, int]]
"""Letters with the stitches in a row."""


def map_words(name: str, rows: Sequence[Row], mirrored: bool) -> tuple[str, ...]:
    """What it is, how it is read, which letter is which yarn, then the rounds from the first on."""
    yarns = sorted({mark for row in rows for mark in row.cells}, key=lambda m: (m.letter, m.css))
    named = ", ".join(f"{mark.letter or '?'} {mark.name or 'yarn not told'}" for mark in yarns)
    whole = rounds(rows[0].first, rows[-1].last)
    return (
        f"{name}: colours of {whole}, a cell a stitch.",
        f"{_way(rows, mirrored)} Firm lines count 5 and 10 stitches from where a row begins.",
        f"{named}.",
        *map(round_words, rows),
    )


def _way(rows: Sequence[Row], mirrored: bool) -> str:
    begins = "left" if mirrored else "right"
    if any(row.back for row in rows):
        return (
            f"Read from the bottom up, R{rows[0].first} from the {begins}, each row from the end"
            " that its number stands at."
        )
    return f"Read from the bottom up, each round from the {begins}, as it is worked."


def round_words(row: Row) -> str:
    if not row.cells:
        return f"{row.label}: could not be read."
    told = [(mark.letter or "?", count) for mark, count in row.stretches]
    return f"{row.label} ({len(row.cells)}): {', '.join(_groups(told))}."


def _groups(told: Told) -> Iterator[str]:
    """Stretches, and groups of them that come again at once."""
    at = 0
    while at < len(told):
        size, times = _best(told, at)
        words = ", ".join(f"{count} {letter}" for letter, count in told[at : at + size])
        yield f"({words}) x {times}" if times > 1 else words
        at += size * times


def _best(told: Told, at: int) -> tuple[int, int]:
    """The group that saves most: how many stretches it has, how often it stands there."""
    best = (1, 1)
    for size in range(1, min(LONGEST, (len(told) - at) // 2) + 1):
        times = 1
        while told[at + times * size : at + (times + 1) * size] == told[at : at + size]:
            times += 1
        if size * (times - 1) > best[0] * (best[1] - 1):
            best = (size, times)
    return best
