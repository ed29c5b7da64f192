"""A line of a file with the words in question underlined."""

from __future__ import annotations

from roundproof.frozen import dataclass
from roundproof.source import Span
from roundproof.telling.cells import cells

_FAR = 500
"""No line is looked at further than this many characters to each side of the words."""


@dataclass(frozen=True, slots=True)
class Excerpt:
    """`number` is the line's number, `marks` stands under `line`, `more` counts further lines that
    the span covers."""

    number: int
    line: str
    marks: str
    more: int


def excerpt(span: Span, columns: int, ellipsis: str = "…") -> Excerpt | None:
    """The line where a span begins, cut to so many columns around the words; None where there is
    no such line to show."""
    number, column = span.begins
    last, end_column = span.ends
    line = span.source.line(number)
    if not line.strip():
        return None
    start = min(column - 1, len(line))
    end = len(line.rstrip()) if last > number else min(end_column - 1, len(line))
    more = last - number - (1 if end_column == 1 and last > number else 0)
    return Excerpt(number, *_cut(line, start, max(start, end), columns, ellipsis), more)


def _cut(line: str, start: int, end: int, columns: int, ellipsis: str) -> tuple[str, str]:
    """The line and its marks, fitted into the columns."""
    behind = max(0, start - _FAR)
    shown = list(cells(line[behind : end + _FAR]))
    first, last = start - behind, end - behind
    widths = [wide for _, wide in shown]
    fits = not behind and sum(widths) <= columns and end + _FAR >= len(line)
    room = columns - 2 * len(ellipsis)
    low, high = (0, len(shown)) if fits else _window(widths, first, last, room)
    head = ellipsis if behind or low else ""
    tail = ellipsis if high < len(shown) or end + _FAR < len(line) else ""
    text = "".join(char for char, _ in shown[low:high])
    before = sum(wide for _, wide in shown[low:first]) + len(head)
    marks = "^" * max(1, sum(wide for _, wide in shown[first : min(last, high)]))
    return (head + text + tail).rstrip(), " " * before + marks


def _window(widths: list[int], first: int, last: int, columns: int) -> tuple[int, int]:
    """Which cells to show: the words and as much on both sides as there is room for, from the
    start of the line if the words are not too far on."""
    low, high, room = first, first, columns
    while high < len(widths) and high < max(last, first + 1) and widths[high] <= room:
        room -= widths[high]
        high += 1
    before, after = sum(widths[:low]), sum(widths[high:])
    left = before if before <= room else max(room // 2, room - after)
    while low > 0 and widths[low - 1] <= left:
        low -= 1
        left -= widths[low]
        room -= widths[low]
    while high < len(widths) and widths[high] <= room:
        room -= widths[high]
        high += 1
    return low, high
