"""The places that testers and decisions speak of, found in the worked pieces."""

from __future__ import annotations

import re

from roundproof.expressions import expression
from roundproof.fabric.edges import EdgeProblem, find_round, unknown_piece
from roundproof.fabric.model import Fabric, WorkedRound
from roundproof.notation.edges import read_range
from roundproof.testers.model import Place

WHOLE = "whole"
_ROUND = expression(
    r"(?P<piece>.*?)[\s,:]*\b(?P<round>(?:r|rnd|round|row)s?\s*\d+(?:\s*[-–]\s*(?:r|rnd|round|row)?"
    r"\s*\d+)?)",
    re.IGNORECASE,
)


def place_in(fabric: Fabric, piece: str, label: str) -> Place | EdgeProblem:
    """A round of a piece, each in its own words."""
    key = _piece(fabric, piece)
    if key is None:
        return unknown_piece(piece, fabric.pieces)
    ends = read_range(label)
    if ends is None:
        mend = "Write the round as the page has it: `R4`, or `R4-R6`."
        return EdgeProblem(f"`{label[:60]}` is no round.", mend)
    rounds = [find_round(fabric.pieces[key], number) for number in ends]
    for found in rounds:
        if isinstance(found, EdgeProblem):
            return found
    first = rounds[0]
    assert isinstance(first, WorkedRound)
    number = first.round.label.first
    return Place((_at(fabric, key), number, ""), f"{key} {first.label}", key, first.label)


def place_said(fabric: Fabric, words: str) -> Place | EdgeProblem:
    """The place that free words name: "claw R4", "Claw, round 4", a piece alone, `whole`. Words
    that name no round and no piece are a place of their own, just as they stand."""
    text = " ".join(words.split())
    found = _ROUND.fullmatch(text)
    if found:
        return place_in(fabric, found["piece"], found["round"])
    if (key := _piece(fabric, text)) is not None:
        return Place((_at(fabric, key), 0, ""), key, key)
    return whole() if text.lower() == WHOLE else elsewhere(text)


def whole() -> Place:
    return Place((-1, 0, ""), WHOLE)


def elsewhere(words: str) -> Place:
    """A place that the pattern does not have, by its own words."""
    text = " ".join(words.split())
    return Place((1_000_000, 0, text), text)


def _piece(fabric: Fabric, words: str) -> str | None:
    """The key of a piece by its key or its name, in whatever case."""
    low = " ".join(words.split()).lower()
    for key, worked in fabric.pieces.items():
        if low in (key.lower(), worked.piece.name.lower()):
            return key
    return None


def _at(fabric: Fabric, key: str) -> int:
    return list(fabric.pieces).index(key)
