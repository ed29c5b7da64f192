"""Words that were only to hold a place."""

from __future__ import annotations

import re
from functools import cache

from roundproof.checks._prose import everywhere
from roundproof.checks.base import Check, Found, light, quoted
from roundproof.findings import Severity
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    for said in everywhere(proof):
        if _is_hinted(said.text) and (found := _placeholder().search(said.text)):
            yield CHECK.finding(
                said.place(*found.span()),
                f"{quoted(found[0])} only holds a place: the words are still to come.",
                "Write what belongs there. What is still to be settled can stand under `open:`.",
                severity=light(proof.pattern.status),
                piece=said.piece,
                round=said.round,
            )


_SIGNS = ("TODO", "FIXME", "TBC", "TBD", "TBA", "XX", "NN", "??", "___", "[", "<")
_WORDS = ("lorem ipsum", " here", "change me", "to be ")
_ASKED = ("insert", "add", "your", "put", "fill in")
"""What an opening bracket asks for."""


def _is_hinted(text: str) -> bool:
    """Whether the expression below could find something."""
    low = text.lower()
    hinted = any(sign in text for sign in _SIGNS) or any(words in low for words in _WORDS)
    return hinted or ("(" in text and any(words in low for words in _ASKED))


@cache
def _placeholder() -> re.Pattern[str]:
    """Signs in capitals as they are typed; words in any case. A question mark alone asks."""
    return re.compile(
        r"\b(?:TODO|FIXME|TBC|TBD|TBA|XX+)\b|\?{2,}|_{3,}|\[\s*(?:\.{3}|…)?\s*\]"
        r"|(?i:\blorem ipsum\b|[\[<(]\s*(?:insert|add|your|put|fill in)\b[^\])>]*[\])>]"
        r"|\b(?:your (?:text|name|title) here|change me|to be (?:done|written|added|confirmed))\b)"
    )


_PATTERN = """\
title: Pebble
terms: US
summary: {}
pieces:
  body: |
    R1: 6 sc in magic ring (6)
"""

CHECK = Check(
    id="placeholder-left",
    title="Placeholder left in",
    why=(
        "What stands in for words that were to follow is easily overlooked by the one who wrote it,"
        " and is the first thing that anyone else sees. Left in a template it also means that the"
        " words round it may belong to another pattern."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format("A small stone for TODO."),
    good=_PATTERN.format("A small stone for the window sill."),
    source="common practice, no source: no leftovers of a template",
    run=_run,
)
