"""From what the keys hold to the values of the model, where a dataclass alone does not do it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from roundproof.expressions import expression
from roundproof.frozen import dataclass
from roundproof.pattern import model
from roundproof.pattern.quantities import (
    NUMBER,
    BallText,
    Fault,
    GaugeText,
    is_unit,
    length,
    weight,
)
from roundproof.source import Located, Span


@dataclass(frozen=True, slots=True)
class Colour:
    """A colour of a yarn: the name on the label and a shade for the screen."""

    span: Span
    name: Located[str] | None = None
    shade: Located[str] | None = None


def fields(span: Span, **values: Any) -> dict[str, Any]:
    """A group whose values are put together later."""
    return values


def colour_named(name: Located[str], span: Span) -> Colour:
    return Colour(span, name=name)


def colour_shaded(shade: Located[str], span: Span) -> Colour:
    return Colour(span, shade=shade)


def gauge(
    span: Span, stitches: float, rounds: float, over: float, stitch: str = "sc"
) -> model.Gauge:
    return model.Gauge(stitches, rounds, over, span, stitch.lower())


def gauge_said(said: Located[GaugeText], span: Span) -> model.Gauge:
    text = said.value
    return model.Gauge(text.stitches, text.rounds, text.over, span, text.stitch or "sc")


def ball(span: Span, grams: float, length: float) -> model.Ball:
    return model.Ball(grams, length / 1000, span)


def ball_said(said: Located[BallText], span: Span) -> model.Ball:
    return model.Ball(said.value.grams, said.value.metres, span)


_COUNT = expression(r"(?:,\s*|\s+[x×]\s*)(?P<count>\d{1,6})$|^(?P<first>\d{1,6})\s+(?=[^\W\d_]{2})")
_END = expression(rf"[\s,(]+(?P<amount>(?:{NUMBER})\s*[^\W\d_]{{1,6}}\.?|(?:{NUMBER})[\"″])\)?$")


def notion_said(said: Located[str], span: Span) -> model.Notion:
    """A plain line: a count, a size and an amount are taken from it where they plainly stand at
    its end, "safety eyes 6 mm, 2", "fibrefill 1 g"; a count may also come first."""
    text, parts = said.value, {}
    exact = span.text == text
    for _ in range(3):
        for pattern in (_COUNT, _END):
            found = pattern.search(text)
            kind = _notion_part(found) if found else ""
            if found and kind and kind not in parts:
                group = found.lastgroup or ""
                place = span.cut(*found.span(group)) if exact else span
                parts[kind] = Located(found[group], place)
                first = group == "first"
                exact = exact and not first
                text = text[found.end() :] if first else text[: found.start()]
    start = span.text.find(text) if span.text.endswith(said.value) or exact else -1
    item = Located(text, span.cut(start, start + len(text)) if start >= 0 else span)
    return _notion(item, span, parts)


def _notion_part(found: re.Match[str]) -> str:
    """What the end of a line is: a count, a size or an amount."""
    if found.lastgroup == "first":
        word = found.string[found.end() :].split(" ", 1)[0]
        return "" if is_unit(word) else "count"
    if found.lastgroup == "count":
        return "count"
    for measure, kind in ((weight, "amount"), (length, "size")):
        if not isinstance(measure(found["amount"]), Fault):
            return kind
    return ""


def _notion(item: Located[str], span: Span, parts: Mapping[str, Located[str]]) -> model.Notion:
    size, count = parts.get("size"), parts.get("count")
    measured = length(size.value) if size else Fault()
    return model.Notion(
        item,
        span,
        size=Located(measured, size.span) if size and isinstance(measured, float) else None,
        count=Located(int(count.value), count.span) if count else None,
        amount=parts.get("amount"),
    )


def one_place(values: Mapping[str, Any]) -> str:
    """`at` says where by one way only."""
    ways = [way for way in ("footprint", "between", "up") if way in values]
    if len(ways) == 1:
        return ""
    found = " and ".join(f"`{way}`" for way in ways) if ways else "none of them"
    return f"`at` takes one of `footprint`, `between` and `up`, and this has {found}."


def some_place(values: Mapping[str, Any]) -> str:
    """`around` counts from something."""
    if values.keys() & {"mark", "free", "evenly", "st"}:
        return ""
    return "`around` needs a place to count from: `mark`, `st` or `evenly`."


def some_measure(values: Mapping[str, Any]) -> str:
    """`size` holds at least one measure."""
    return "" if values.keys() - {"with_", "without"} else "`size` names no measure: add a height."
