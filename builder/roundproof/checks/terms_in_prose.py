"""A stitch name in running text, where it cannot follow the reader's terms."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache

from roundproof.checks._prose import for_makers
from roundproof.checks.base import Check, Found
from roundproof.expressions import expression
from roundproof.findings import Edit, Severity
from roundproof.proof import Proof
from roundproof.reference import stitches

_WORD = expression(r"(?<![\w{])\w+")
_BRACED = expression(r"\{[^{}\n]*\}")


def _run(proof: Proof) -> Found:
    for said in for_makers(proof):
        bare = _BRACED.sub(lambda m: " " * len(m.group()), said.text)
        place = _first(bare)
        if place is None:
            continue
        span = said.place(*place)
        word = bare[slice(*place)]
        yield CHECK.finding(
            span,
            f"`{word}` in running text means another stitch to readers of the other terms.",
            f"Write `{{{word}}}`: what stands in braces follows the reader's terms.",
            edits=(Edit(span, f"{{{word}}}"),) if span.text == word else (),
        )


def _first(text: str) -> tuple[int, int] | None:
    """Where the first name stands, the longest of those that begin there."""
    for word in _WORD.finditer(text):
        start = word.start()
        for name in _names().get(word[0], ()):
            end = start + len(name)
            after = text[end : end + 1]
            if text.startswith(name, start) and not (after.isalnum() or after in ("_", "}")):
                return start, end
    return None


@cache
def _names() -> Mapping[str, list[str]]:
    """The names that stand for another stitch, or for none, in the other terms: by their first
    words, the longest first."""
    kinds = [k for k in stitches().values() if k.us_name != k.uk_name]
    found: dict[str, list[str]] = {}
    for name in {word for kind in kinds for word in (*kind.us, *kind.uk)}:
        found.setdefault(re.split(r"\W", name, maxsplit=1)[0], []).append(name)
    return {first: sorted(names, key=len, reverse=True) for first, names in found.items()}


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    Note: A {} that is too tight hides the next round.
"""

CHECK = Check(
    id="terms-in-prose",
    title="Stitch name in running text",
    why=(
        "Rounds are printed in the terms the reader chooses, US or UK. A stitch name in a note"
        " stays as it was typed, and then the round says `dc` and the note beside it says `sc`."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format("sc"),
    good=_PATTERN.format("{sc}"),
    source="US/UK term table: the same letters name different stitches",
    run=_run,
)
