"""From a scalar of the file to a text whose lines know their places."""

from __future__ import annotations

from roundproof.expressions import expression
from roundproof.pattern.nodes import Scalar
from roundproof.source import Line, Span, Text

_BREAK = expression(r"\r\n|[\n\r\x85\u2028\u2029]")


def text_of(scalar: Scalar) -> Text:
    """The text, with exact lines where it is plain on one line or written after `|`."""
    value = _BREAK.sub("\n", scalar.text).rstrip("\n")
    if scalar.style == "|":
        return _block(value, scalar.span)
    if not scalar.style and scalar.span.text == value:
        return Text(value, scalar.span, (Line(value, scalar.span),) if value else ())
    return Text(value, _ink(scalar), None)


def _ink(scalar: Scalar) -> Span:
    """The words of a `>` text without its sign; other scalars as they stand."""
    if scalar.style != ">" or not (found := _BREAK.search(scalar.span.text)):
        return scalar.span
    body = scalar.span.text[found.end() :]
    return scalar.span.cut(len(scalar.span.text) - len(body.lstrip()), len(scalar.span.text))


def _block(value: str, whole: Span) -> Text:
    """The lines of a `|` text. Each line of the value is the end of a line of the file, whatever
    the indentation and the signs after `|` are; that is all that has to be known."""
    wanted = value.split("\n") if value else []
    written = _lines(whole, len(wanted) + 1)[1:]
    lines = []
    for text, (start, end) in zip(wanted, written, strict=False):
        span = whole.source.span(end - len(text), end)
        if end - len(text) < start or span.text != text:
            return Text(value, whole, None)
        lines.append(Line(text, span))
    if len(lines) < len(wanted):
        return Text(value, whole, None)
    inked = [line for line in lines if line.text.strip()]
    return Text(value, inked[0].span.to(inked[-1].span) if inked else whole, tuple(lines))


def _lines(whole: Span, count: int) -> list[tuple[int, int]]:
    """Where each of `count` lines starts and ends in the file, from the start of a span on; line
    ends are left out."""
    text, start = whole.source.text, whole.start
    found: list[tuple[int, int]] = []
    for mark in _BREAK.finditer(text, start):
        if len(found) == count:
            return found
        found.append((start, mark.start()))
        start = mark.end()
    return [*found, (start, len(text))]
