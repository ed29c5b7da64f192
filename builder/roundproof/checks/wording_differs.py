"""The same thing called by a word here and by its short form there, in notes and steps."""

from __future__ import annotations

import re
from functools import cache

from roundproof.checks._prose import Said, for_makers
from roundproof.checks.base import Check, Found, quoted
from roundproof.findings import Severity
from roundproof.proof import Proof

_PAIRS = (
    (("st",), r"st|sts", r"stitch|stitches"),
    (("rnd",), r"rnd|rnds", r"round|rounds"),
    (("rep",), r"rep", r"repeat|repeats"),
    (("beg",), r"beg", r"beginning"),
    (("rem",), r"rem", r"remaining"),
    (("approx",), r"approx\.?", r"about|roughly|approximately"),
    (("color ", "colour "), r"colou?r [A-D]", r"yarn [A-D]"),
    (("color", "gray", "center"), r"colors?|gray|center", r"colours?|grey|centre"),
)
"""Two forms of one word, as they stand in running text, and what any text has in it that has the
first of them."""


def _run(proof: Proof) -> Found:
    texts = [said for said in for_makers(proof) if not said.action]
    for signs, one, other in _PAIRS:
        near = [said for said in texts if any(sign in said.text for sign in signs)]
        first = _first(near, one)
        second = _first(texts, other) if first else None
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


def _first(texts: list[Said], words: str) -> tuple[Said, re.Match[str]] | None:
    for said in texts:
        if found := _form(words).search(re.sub(r"\{[^}]*\}", lambda m: " " * len(m[0]), said.text)):
            return said, found
    return None


@cache
def _form(words: str) -> re.Pattern[str]:
    return re.compile(rf"(?<![\w-])(?:{words})(?![\w-])")


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
