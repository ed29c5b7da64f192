"""The glossary: every stitch and word of the tables, in US and UK terms side by side."""

from __future__ import annotations

from markupsafe import Markup

from roundproof.drawing.shapes import Box, Drawing, Rect
from roundproof.drawing.svg import write_svg
from roundproof.frozen import dataclass
from roundproof.reference import StitchKind, Term, stitches, terms
from roundproof.writing.slug import slug

_TALL, _WIDE = 22.0, 16.0
"""Pixels of a single crochet in the drawings of relative height."""
_SINGLE = "a single crochet (UK: double crochet)"


@dataclass(frozen=True, slots=True)
class StitchRow:
    """A stitch: its short words, its names and how it is worked as one text, how tall it is and a
    bar of that height."""

    id: str
    us: str
    uk: str
    says: str
    height: str
    drawing: Markup


@dataclass(frozen=True, slots=True)
class WordRow:
    """A word of the trade; `uk` is empty where both terms have the same."""

    id: str
    us: str
    uk: str
    says: str


@dataclass(frozen=True, slots=True)
class Glossary:
    stitches: tuple[StitchRow, ...]
    words: tuple[WordRow, ...]
    sources: tuple[str, ...]


def glossary() -> Glossary:
    """All stitches by height and all words that need saying, by the alphabet."""
    words = sorted((t for t in terms().values() if t.means), key=lambda t: t.us_short.lower())
    sources = [kind.source for kind in stitches().values()] + [word.source for word in words]
    return Glossary(
        tuple(_stitch_row(kind) for kind in stitches().values()),
        tuple(_word_row(word) for word in words),
        tuple(dict.fromkeys(sources)),
    )


def _stitch_row(kind: StitchKind) -> StitchRow:
    names = _with_uk(kind.us_name, kind.uk_name)
    return StitchRow(
        f"stitch-{slug(kind.id)}",
        kind.short(uk=False),
        kind.short(uk=True),
        f"{_capital(names)}. {kind.steps}",
        _height(kind),
        Markup(write_svg(_bar(kind.height))),
    )


def _height(kind: StitchKind) -> str:
    if kind.height == 0:
        return "Adds no height to a round."
    if kind.height == 1:
        return "The height of the others is told by this one."
    times = f"{kind.height:.2f}".rstrip("0").rstrip(".")
    return f"{times} times as tall as {_SINGLE}."


def _bar(height: float) -> Drawing:
    """A stitch as wide as one and as tall as it is; a chain, which has no height, as a line."""
    tall = max(height * _TALL, 2.0)
    bar = Rect(0, 0, _WIDE, tall, "yarn y0")
    return Drawing((bar,), "tall", Box(0, 0, _WIDE, tall), width=_WIDE, height=tall)


def _word_row(term: Term) -> WordRow:
    means = _with_uk(*(_in_terms(term.means, uk=side) for side in (False, True)))
    name = "" if term.name in ("", term.us_short) else f"{term.name}: "
    return WordRow(
        f"word-{slug(term.id)}",
        term.us_short,
        "" if term.uk_short == term.us_short else term.uk_short,
        f"{_capital(name + means)}.",
    )


def _in_terms(text: str, *, uk: bool) -> str:
    """The text with `{sc}` and its like as the reader's terms call them."""
    for kind in stitches().values():
        text = text.replace("{" + kind.id + "}", kind.short(uk))
    return text


def _with_uk(us: str, uk: str) -> str:
    return us if us == uk else f"{us} (UK: {uk})"


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
