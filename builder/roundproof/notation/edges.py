"""Edges and rounds in words: "upper", "upper R6 free front loops", "R8-R11"."""

from __future__ import annotations

import re
from collections.abc import Iterable
from enum import StrEnum

from roundproof.expressions import expression
from roundproof.frozen import dataclass


class EdgeKind(StrEnum):
    """What a piece can be worked on from or joined by."""

    ROUND = "round"
    FRONT_LOOPS = "front loops"
    BACK_LOOPS = "back loops"
    LOOPS = "free loops"
    """Free loops, whichever they are."""
    UNWORKED = "unworked"
    ROW_ENDS = "row ends"
    LEFT_ROW_ENDS = "left row ends"
    RIGHT_ROW_ENDS = "right row ends"
    FAR_SIDE = "far side"
    FOUNDATION = "foundation"


@dataclass(frozen=True, slots=True)
class EdgeName:
    """An edge as named: the key of a piece, what of it, and the round where one is given. An edge
    of the kind ROUND without a round is the last one."""

    piece: str
    kind: EdgeKind
    round: int | None = None


_NUMBER = r"(?:rounds?|rnds?|rows?|r)\.?\s*(\d{1,6})"
_LABEL = expression(_NUMBER, re.IGNORECASE)
_RANGE = expression(
    _NUMBER + r"(?:\s*(?:-|–|—|to)\s*(?:rounds?|rnds?|rows?|r)?\.?\s*(\d{1,6}))?", re.IGNORECASE
)

# What may follow the key of a piece and a round's label, and the edge it names.
_WORDS = {
    "": EdgeKind.ROUND,  # upper · upper R6
    "last round": EdgeKind.ROUND,
    "last row": EdgeKind.ROUND,
    "free front loops": EdgeKind.FRONT_LOOPS,  # upper R6 free front loops
    "front loops": EdgeKind.FRONT_LOOPS,
    "free back loops": EdgeKind.BACK_LOOPS,
    "back loops": EdgeKind.BACK_LOOPS,
    "free loops": EdgeKind.LOOPS,
    "unworked": EdgeKind.UNWORKED,
    "unworked sts": EdgeKind.UNWORKED,  # claw R12 unworked sts
    "unworked stitches": EdgeKind.UNWORKED,
    "row ends": EdgeKind.ROW_ENDS,  # band row ends
    "left row ends": EdgeKind.LEFT_ROW_ENDS,
    "right row ends": EdgeKind.RIGHT_ROW_ENDS,
    "far side": EdgeKind.FAR_SIDE,  # foot far side
    "foundation": EdgeKind.FOUNDATION,  # foot foundation
    "foundation chain": EdgeKind.FOUNDATION,
}
_OF_A_ROUND = {
    EdgeKind.ROUND,
    EdgeKind.FRONT_LOOPS,
    EdgeKind.BACK_LOOPS,
    EdgeKind.LOOPS,
    EdgeKind.UNWORKED,
}


def read_edge(words: str, pieces: Iterable[str]) -> EdgeName | None:
    """The edge that some words name, given the keys of the pieces there are; the longest key that
    the words start with wins. None where they start with no key, or go on with other words."""
    text = " ".join(words.split())
    piece = piece_of(text, pieces)
    if piece is None:
        return None
    rest = text[len(piece) :].strip().lower()
    label = _LABEL.match(rest)
    kind = _WORDS.get(rest[label.end() :].strip() if label else rest)
    if kind is None or (label and (kind not in _OF_A_ROUND or "last" in rest)):
        return None
    return EdgeName(piece, kind, int(label[1]) if label else None)


def piece_of(words: str, pieces: Iterable[str]) -> str | None:
    """The longest key of a piece that some words start with, or None."""
    low = " ".join(words.split()).lower() + " "
    fitting = (key for key in pieces if low.startswith(key.lower() + " "))
    return max(fitting, key=len, default=None)


def read_label(words: str) -> int | None:
    """The number of a round from "R4", "Rnd 4" or "row 4", or None."""
    found = _LABEL.fullmatch(words.strip())
    return int(found[1]) if found else None


def read_range(words: str) -> tuple[int, int] | None:
    """First and last round from "R8-R11", "R8–11" or a single label, or None. The first is never
    past the last."""
    found = _RANGE.fullmatch(words.strip())
    if not found:
        return None
    first, last = int(found[1]), int(found[2] or found[1])
    return (first, last) if first <= last else None
