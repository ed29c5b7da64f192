"""The same thing called by a word here and by its short form there, in notes and steps."""

from __future__ import annotations

import re

from roundproof.checks._prose import Said, for_makers
from roundproof.checks.base import Check, Found, quoted
from roundproof.findings import Severity
from roundproof.proof import Proof

_PAIRS = (
    (("st", "sts"), ("stitch", "stitches")),
    (("rnd", "rnds"), ("round", "rounds")),
    (("rep",), ("repeat", "repeats")),
    (("beg",), ("beginning",)),
    (("rem",), ("remaining",)),
    (("approx",), ("about", "roughly", "approximately")),
    (("color", "colors", "gray", "center"), ("colour", "colours", "grey", "centre")),
)
"""Forms of one word, as they stand in running text."""
_STOPS = str.maketrans(".,;:()", "      ")


def _run(proof: Proof) -> Found:
    texts = [said for said in for_makers(proof) if not said.action]
    words = [frozenset(said.text.lower().translate(_STOPS).split()) for said in texts]
    for forms, others in _PAIRS:
        first, second = _first(texts, words, forms), _first(texts, words, others)
        if first is None or second is None:
            continue
        (said, found), (_, usual) = first, second
        yield CHECK.finding(
            said.place(*found.span()),
            f"{quoted(found[0])} here is {quoted(usual[0])} elsewhere in the notes and steps.",
            "Word the same thing the same way throughout.",
            piece=said.piece,
            round=said.round,
        )


def _first(
    texts: list[Said], words: list[frozenset[str]], forms: tuple[str, ...]
) -> tuple[Said, re.Match[str]] | None:
    """The first place where one of the forms stands, outside braces."""
    for said, has in zip(texts, words, strict=True):
        if has.isdisjoint(forms):
            continue
        bare = re.sub(r"\{[^}]*\}", lambda m: " " * len(m[0]), said.text)
        if found := re.search(rf"(?<![\w-])(?:{'|'.join(forms)})(?![\w-])", bare, re.I):
            return said, found
    return None


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    Note: The first six stitches lie flat.
    R2: inc x 6 (12)
    Note: The next twelve {} stand up.
"""

CHECK = Check(
    id="wording-differs",
    title="Two words for one thing",
    why=(
        "A maker who reads `sts` in one note and 'stitches' in the next wonders for a moment"
        " whether something else is meant. In the rounds the words are made the same by the tool;"
        " in notes and steps they stay as they were typed."
    ),
    severity=Severity.NOTE,
    bad=_PATTERN.format("sts"),
    good=_PATTERN.format("stitches"),
    source="common practice, no source: the same thing is worded the same way",
    run=_run,
)
