"""A bracket in running words without its partner."""

from __future__ import annotations

import re
from functools import cache

from roundproof.checks._prose import Said, sentences
from roundproof.checks.base import Check, Found
from roundproof.findings import Severity
from roundproof.proof import Proof

_PAIRS = {")": "(", "]": "[", "}": "{"}
_SIGNS = "()[]{}"


def _run(proof: Proof) -> Found:
    for said in sentences(proof):
        at = _alone(said)
        if at is None:
            continue
        sign = said.text[at]
        opens = sign in _PAIRS.values()
        partner = next(c if opens else o for c, o in _PAIRS.items() if sign in (c, o))
        yield CHECK.finding(
            said.place(at, at + 1) if said.exact else said.span,
            f"`{sign}` in running text has no `{partner}`.",
            f"{'Close' if opens else 'Open'} it with `{partner}`, or take it out.",
            piece=said.piece,
            round=said.round,
        )


def _alone(said: Said) -> int | None:
    """Where the first bracket stands that has no partner in its text."""
    if not any(sign in said.text for sign in _SIGNS):
        return None
    bare = _faces().sub(lambda m: " " * len(m[0]), said.text)
    open_: list[int] = []
    for at, sign in enumerate(bare):
        if sign in _PAIRS.values():
            open_.append(at)
        elif sign in _PAIRS and open_:
            if bare[open_.pop()] != _PAIRS[sign]:
                return at
        elif sign in _PAIRS and not _listed().search(bare[:at]):
            return at
    return open_[0] if open_ else None


@cache
def _faces() -> re.Pattern[str]:
    return re.compile(r"(?<!\S)[:;]-?[()](?!\S)")


@cache
def _listed() -> re.Pattern[str]:
    """The number or letter of a list before its bracket: `1)`, `a)`."""
    return re.compile(r"(?<!\S)(?:\d{1,2}|[a-z])$")


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    Note: Weave in the end (it is the long {}
"""

CHECK = Check(
    id="bracket-unpaired",
    title="Bracket without its partner",
    why=(
        "A bracket that is opened and never closed leaves the maker to guess where the aside ends,"
        " and often a few words went with it. In rounds the same is an error: there brackets group"
        " what is repeated."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format("one."),
    good=_PATTERN.format("one)."),
    source="common practice, no source: brackets pair up",
    run=_run,
)
