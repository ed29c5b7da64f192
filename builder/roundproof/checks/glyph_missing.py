"""Letters that no font of the booklets has."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from roundproof.checks.base import Check, Found, light
from roundproof.findings import Severity
from roundproof.letters import lacking, number
from roundproof.proof import Proof
from roundproof.source import Located, Span, Text

_NOT_PRINTED = frozenset({"accept", "file", "key", "letter", "open", "slug", "source", "words"})
"""What is in the file for its designer alone, names of files, and what goes by another name."""
_SHOWN = 5
"""A text in another script may lack all its letters: so many of them are named."""


def _run(proof: Proof) -> Found:
    for text, span in _texts(proof.pattern):
        if letters := lacking(text):
            numbers = ", ".join(f"[{number(each)}]" for each in letters[:_SHOWN])
            more = f" and {len(letters) - _SHOWN} more" if len(letters) > _SHOWN else ""
            yield CHECK.finding(
                _place(span, letters[0]),
                f"{_named(letters)} not in the fonts of the booklets: on paper {numbers}{more}"
                f" {'stand' if len(letters) > 1 else 'stands'} there instead.",
                "Say it in words, or in letters of the Latin, Greek, Cyrillic, Hebrew or Arabic"
                " script. Pages show it as far as the reader's device can.",
                severity=light(proof.pattern.status),
            )


def _named(letters: tuple[str, ...]) -> str:
    if len(letters) == 1:
        return f"`{letters[0]}` ({_words(letters[0])}) is"
    shown = ", ".join(f"`{each}`" for each in letters[:_SHOWN])
    more = f" and {len(letters) - _SHOWN} other letters" if len(letters) > _SHOWN else ""
    return f"{shown}{more} are"


def _words(letter: str) -> str:
    from unicodedata import name  # the names of all letters there are: for these alone

    return name(letter, "a letter without a name")


def _place(span: Span, letter: str) -> Span:
    """The letter in the file; the whole text where it is written there in another way."""
    at = span.text.find(letter)
    return span if at < 0 else span.cut(at, at + 1)


# ---- every text of a pattern ----
def _texts(value: object, span: Span | None = None) -> Iterator[tuple[str, Span]]:
    """The texts that a value is made of, each with its place or that of what it belongs to."""
    if isinstance(value, Located):
        yield from _texts(value.value, value.span)
    elif isinstance(value, Text):
        yield value.value, value.span
    elif isinstance(value, str):
        if span is not None:
            yield value, span
    elif isinstance(value, tuple):
        for each in value:
            yield from _texts(each, span)
    elif isinstance(value, Mapping):
        yield from _texts(tuple(value.values()), span)
    elif isinstance(place := getattr(value, "span", None), Span):
        for name in getattr(value, "__match_args__", ()):
            if name not in _NOT_PRINTED:
                yield from _texts(getattr(value, name), place)


_PATTERN = """\
title: {}
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
"""

CHECK = Check(
    id="glyph-missing",
    title="Letter that cannot be printed",
    why=(
        "Booklets are set in fonts of their own, so that they look alike on every machine. They"
        " have the letters of many tongues, fractions, arrows, signs and small pictures, but no"
        " script of thousands of letters. What they lack is printed as its number, never left"
        " out; a maker can do little with a number."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format("Pebble 石"),
    good=_PATTERN.format("Pebble ⅓ 🐚"),
    source="The Unicode Standard, for the numbers and names of letters; the fonts' own tables",
    run=_run,
)
