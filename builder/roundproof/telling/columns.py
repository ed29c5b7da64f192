"""Figures in columns, for a terminal."""

from __future__ import annotations

from collections.abc import Sequence

from roundproof.telling.cells import clean, width
from roundproof.telling.paint import Paint
from roundproof.words import say

Row = Sequence[str]
NONE = "-"
"""Stands where there is no figure."""


def table(rows: Sequence[Row], left: int = 1) -> list[str]:
    """Rows in columns: the first, or `left` of them, to the left, figures to the right."""
    shown = [[clean(cell) for cell in row] for row in rows]
    wide = [max(map(width, column)) for column in zip(*shown, strict=True)]
    return [
        "  "
        + "  ".join(
            cell + pad if i < left else pad + cell
            for i, cell in enumerate(row)
            for pad in [" " * (wide[i] - width(cell))]
        ).rstrip()
        for row in shown
    ]


def headed(
    heads: Sequence[str],
    rows: Sequence[Row],
    paint: Paint,
    keep: int = 1,
    words: str = "measure",
    left: int = 1,
) -> list[str]:
    """The same below the words of `heads`, by their keys among some `words`, without the columns
    that hold no figure; the first `keep` stay. Nothing without any rows."""
    used = [i for i in range(len(heads)) if i < keep or any(row[i] != NONE for row in rows)]
    named = [say(f"{words}.{heads[i]}") for i in used]
    head, *body = table([named, *([row[i] for i in used] for row in rows)], left)
    return [paint(head, "faint"), *body] if body else []


def cm(millimetres: float | None) -> str:
    return NONE if millimetres is None else f"{millimetres / 10:.1f} cm"


def hours_of(hours: tuple[float, float] | None) -> str:
    if hours is None:
        return NONE
    low, high = (f"{each:.1f}" for each in hours)
    return low if low == high else say("measure.range", low=low, high=high)
