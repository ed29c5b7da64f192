"""Labels at the start of a line: 'R7', 'Rounds 8-17 (10 rounds):', '4.', '4th row'."""

from __future__ import annotations

import re

from roundproof.frozen import dataclass
from roundproof.notation.tokens import plain
from roundproof.notation.tree import Label
from roundproof.source import Line, Span

_WORD = r"(?:rounds?|rnds?|rows?|rds?|rw|r)"
_TO = r"(?:-|to|thru|through|/|&|and|\+|,)"
_NAMED = re.compile(
    rf"\s*(?:\d+\s*[.)]\s*)?(?P<word>{_WORD})\.?\s*(?P<first>\d+)"
    rf"(?:\s*{_TO}\s*(?:{_WORD})?\.?\s*(?P<last>\d+))?\b"
    rf"(?:\s*\(\s*(?P<rounds>\d+)\s*{_WORD}\s*\))?\s*(?:[:.)=-]+|(?=\s|$|[(*\[]))\s*"
)
_NUMBERED = re.compile(
    rf"\s*(?P<first>\d+)\.?(?:\s*{_TO}\s*(?P<last>\d+)\.?)?"
    rf"(?:(?:st|nd|rd|th)?\s*(?P<word>{_WORD})\b\s*[:.)-]*"
    rf"|\s*(?:\(\s*(?P<rounds>\d+)\s*{_WORD}\s*\)\s*)?[.):](?!\d))\s*"
)
_WITHIN = re.compile(rf"(?<=[.)\]}}>;])\s*(?={_WORD}\.?\s*\d+\s*(?:[-:.)]|to\b|and\b|&))")
_LISTED = re.compile(r"\s*\d+\s*[.)]\s*(?=\D)")
_ROUNDS = re.compile(rf"\(\s*(\d+)\s*{_WORD}\s*\)")
HIGHEST = 100_000
"""No label is taken for more than this; one that reaches it is not read."""


@dataclass(frozen=True, slots=True)
class Labelled:
    """A label and where the work begins in the line. `rounds` is the number of rounds that the
    text says a range has, with its place."""

    label: Label
    work: int
    rounds: tuple[int, Span] | None = None


def label(line: Line) -> Labelled | None:
    """The label a line starts with, or None."""
    text = plain(line.text)
    match = _NAMED.match(text) or _NUMBERED.match(text)
    if match is None:
        return None
    first = _number(match.group("first"))
    last = _number(match.group("last") or match.group("first"))
    word = match.group("word") or ""
    start = len(text) - len(text.lstrip())
    end = max(match.end("first"), match.end("last"))
    span = line.span.cut(start, end)
    found = Label(first, last, span, row=word.startswith(("row", "rw")))
    said = match.groupdict().get("rounds")
    rounds = (_number(said), line.span.cut(*match.span("rounds"))) if said else None
    return Labelled(found, match.end(), rounds)


def split(line: Line) -> list[Line]:
    """Several rounds on one line as lines of their own."""
    text = plain(line.text)
    listed = _LISTED.match(text)  # '6. Round 4:' is one round
    cuts = [m.end() for m in _WITHIN.finditer(text, listed.end() if listed else 0)]
    ends = [*cuts, len(text)]
    return [
        Line(line.text[a:b].rstrip() if b < len(text) else line.text[a:b], line.span.cut(a, b))
        for a, b in zip([0, *cuts], ends, strict=True)
    ]


def rounds_said(line: Line, start: int) -> tuple[int, Span, int, int] | None:
    """'(5 rounds)' after the work: the number, its span, and where the brackets stand."""
    match = _ROUNDS.search(plain(line.text), start)
    if match is None:
        return None
    return _number(match.group(1)), line.span.cut(*match.span(1)), match.start(), match.end()


def without_rounds_said(line: Line) -> Line:
    """The line with '(5 rounds)' behind the work blanked out, so that places stay."""
    said = rounds_said(line, 0)
    if said is None:
        return line
    _, _, start, end = said
    return Line(line.text[:start] + " " * (end - start) + line.text[end:], line.span)


def _number(digits: str) -> int:
    return min(int(digits[:9]), HIGHEST)
