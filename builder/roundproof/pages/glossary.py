"""The glossary: every stitch and word of the tables, in US and UK terms side by side."""

from __future__ import annotations

from markupsafe import Markup

from roundproof.drawing.chart.signs import Sign, drawn, known, scaled, tall
from roundproof.drawing.shapes import Box, Drawing, Group, Rect
from roundproof.drawing.svg import write_svg
from roundproof.frozen import dataclass
from roundproof.reference import StitchKind, Technique, Term, stitches, techniques, terms
from roundproof.writing.slug import slug

_TALL, _WIDE = 26.0, 22.0
"""Pixels of a single crochet in the drawings of relative height."""
_SIGN = 17.0
"""Pixels of a stitch's width in its sign."""
_SINGLE = "a single crochet (UK: double crochet)"


@dataclass(frozen=True, slots=True)
class StitchRow:
    """A stitch: its short words, its names as one text, how it is worked step by step, how tall it
    is with a bar of that height, and every spelling that is read. `vague` names mean different
    things to different designers."""

    id: str
    us: str
    uk: str
    says: str
    steps: tuple[str, ...]
    height: str
    vague: bool
    drawing: Markup
    spellings: str


@dataclass(frozen=True, slots=True)
class WordRow:
    """A word of the trade; `uk` is empty where both terms have the same."""

    id: str
    us: str
    uk: str
    says: str
    steps: tuple[str, ...]
    spellings: str


@dataclass(frozen=True, slots=True)
class Glossary:
    stitches: tuple[StitchRow, ...]
    words: tuple[WordRow, ...]
    techniques: tuple[WordRow, ...]
    sources: tuple[str, ...]


def glossary() -> Glossary:
    """All stitches by height, all words that need saying by the alphabet, and the techniques."""
    words = sorted((t for t in terms().values() if t.means), key=lambda t: t.us_short.lower())
    return Glossary(
        tuple(_stitch_row(kind) for kind in stitches().values()),
        tuple(_word_row(word) for word in words),
        tuple(_technique_row(technique) for technique in techniques()),
        _sources(words),
    )


def _sources(words: list[Term]) -> tuple[str, ...]:
    said = [kind.source for kind in stitches().values()]
    said += [word.source for word in words] + [technique.source for technique in techniques()]
    return tuple(dict.fromkeys([*said, _SIGNS]))


_SIGNS = (
    "signs in charts: JIS L 0201:1995 and the Craft Yarn Council's crochet chart symbols (2018)"
)


def _stitch_row(kind: StitchKind) -> StitchRow:
    return StitchRow(
        f"stitch-{slug(kind.id)}",
        kind.short(uk=False),
        kind.short(uk=True),
        _capital(_with_uk(kind.us_name, kind.uk_name)),
        kind.steps,
        _height(kind),
        kind.vague,
        Markup(write_svg(_drawing(kind))),
        " ".join(dict.fromkeys((kind.us_name, kind.uk_name, *kind.us, *kind.uk))),
    )


def _height(kind: StitchKind) -> str:
    if kind.height == 0:
        return "Adds no height to a round."
    if kind.height == 1:
        return "The height of the others is told by this one."
    times = f"{kind.height:.2f}".rstrip("0").rstrip(".")
    return f"{times} times as tall as {_SINGLE}."


def _drawing(kind: StitchKind) -> Drawing:
    """A bar as wide as a stitch and as tall as this one, and on it the stitch's sign in charts; a
    chain, which has no height, as a line."""
    bar = max(kind.height * _TALL, 2.0)
    sign = Sign(kind.id)
    high = tall(kind.id) * _SIGN if known(kind.id) else 0.0
    whole = max(bar, high + 4)
    over = scaled(drawn(sign), _SIGN, _WIDE / 2, (whole - high) / 2) if high else ()
    shapes = (Rect(0, (whole - bar) / 2, _WIDE, bar), Group(over, "sign"))
    return Drawing(shapes, "tall", Box(0, 0, _WIDE, whole), width=_WIDE, height=whole)


def _word_row(term: Term) -> WordRow:
    means = _with_uk(*(_in_terms(term.means, uk=side) for side in (False, True)))
    name = "" if term.name in ("", term.us_short) else f"{term.name}: "
    return WordRow(
        f"word-{slug(term.id)}",
        term.us_short,
        "" if term.uk_short == term.us_short else term.uk_short,
        f"{_capital(name + means)}.",
        tuple(_in_both(step) for step in term.steps),
        " ".join(dict.fromkeys((term.name, *term.words))),
    )


def _technique_row(technique: Technique) -> WordRow:
    return WordRow(
        f"how-{slug(technique.id)}",
        technique.us,
        "" if technique.uk == technique.us else technique.uk,
        f"{_capital(technique.means)}.",
        technique.steps,
        technique.id,
    )


def _in_terms(text: str, *, uk: bool) -> str:
    """The text with `{sc}` and its like as the reader's terms call them."""
    for kind in stitches().values():
        text = text.replace("{" + kind.id + "}", kind.short(uk))
    return text


def _in_both(text: str) -> str:
    """The text with `{sc}` as "sc (UK: dc)"."""
    for kind in stitches().values():
        text = text.replace("{" + kind.id + "}", _with_uk(kind.short(False), kind.short(True)))
    return text


def _with_uk(us: str, uk: str) -> str:
    return us if us == uk else f"{us} (UK: {uk})"


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
