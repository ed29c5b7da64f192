"""Text files and places in them: the only code that counts characters.

A place is kept as an offset in code points from the start of the file; lines and columns are
worked out when somebody asks. Lines and columns are 1-based and count code points.
"""

from __future__ import annotations

from bisect import bisect_right
from functools import cached_property
from typing import Generic, TypeVar

from roundproof.frozen import dataclass, field

T = TypeVar("T")


@dataclass(frozen=True)
class Source:
    """A file's text and the name it is reported under (relative to where the command runs)."""

    name: str
    text: str = field(repr=False)

    @cached_property
    def _starts(self) -> tuple[int, ...]:
        starts = [0]
        find, at = self.text.find, 0
        while (at := find("\n", at) + 1) > 0:
            starts.append(at)
        return tuple(starts)

    def place(self, offset: int) -> tuple[int, int]:
        """Line and column of an offset, both 1-based."""
        line = bisect_right(self._starts, offset)
        return line, offset - self._starts[line - 1] + 1

    def line(self, number: int) -> str:
        """The text of a 1-based line, without its line end; empty past the end of the file."""
        if not 1 <= number <= len(self._starts):
            return ""
        start = self._starts[number - 1]
        end = self._starts[number] if number < len(self._starts) else len(self.text)
        return self.text[start:end].rstrip("\r\n")

    def span(self, start: int, end: int) -> Span:
        """The span from one offset up to, not including, another."""
        return Span(self, start, max(start, end))


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of a source: offsets in code points, the end not included."""

    source: Source = field(repr=False)
    start: int
    end: int

    @property
    def text(self) -> str:
        return self.source.text[self.start : self.end]

    @property
    def begins(self) -> tuple[int, int]:
        """Line and column of the first character."""
        return self.source.place(self.start)

    @property
    def ends(self) -> tuple[int, int]:
        """Line and column just after the last character."""
        return self.source.place(self.end)

    def to(self, other: Span) -> Span:
        """The span from the start of this one to the end of the other."""
        return Span(self.source, self.start, max(self.end, other.end))

    def cut(self, start: int, end: int) -> Span:
        """A part of this span, by offsets counted from its start."""
        return Span(self.source, self.start + start, self.start + end)


@dataclass(frozen=True, slots=True)
class Located(Generic[T]):
    """A value and the place where it was written."""

    value: T
    span: Span


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a text with the span of exactly its characters in the file."""

    text: str
    span: Span


@dataclass(frozen=True, slots=True)
class Text:
    """A text of one or more lines.

    `value` is what the designer meant (folding and escapes resolved). `lines` holds the lines with
    their exact places; it is None where places inside the text cannot be told (folded and quoted
    scalars), and then only `span`, the whole scalar, is known.
    """

    value: str
    span: Span
    lines: tuple[Line, ...] | None = None
