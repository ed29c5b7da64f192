"""How firmly what is told to be stuffed, and which rounds a line about stuffing is for."""

from __future__ import annotations

import re
from collections.abc import Sequence
from enum import StrEnum

from roundproof.expressions import expression
from roundproof.fabric.model import WorkedPiece, WorkedRound
from roundproof.measure.meridian import frustum
from roundproof.measure.model import PieceSize
from roundproof.notation.tree import Act, Action


class Firmness(StrEnum):
    SOFT = "soft"
    MEDIUM = "medium"
    FIRM = "firm"


Part = tuple[int | None, Firmness | None]
"""Up to which round (None: to the end), how firmly (None: not at all)."""
Parts = tuple[Part, ...]
"""The parts of a piece from the start up; the last goes to the end."""

_NONE = (
    "not stuff",
    "n't stuff",
    "n’t stuff",
    "without stuffing",
    "no stuffing",
    "unstuffed",
    "empty",
    "not at all",
)
_WORDS = ((("firm",), Firmness.FIRM), (("light", "soft", "loose"), Firmness.SOFT))
_ONWARD = expression(r"\bfrom (?:here|now|this (?:round|row|point)) (?:on|up)", re.IGNORECASE)


def firmness_of(words: str) -> Firmness | None:
    """How firmly some words say to stuff; None where they say not to."""
    low = words.lower().strip()
    for parts, firmness in _WORDS:
        if any(part in low for part in parts):
            return firmness
    unstuffed = low == "no" or any(part in low for part in _NONE)
    return None if unstuffed and not low.startswith("stuff") else Firmness.MEDIUM


def whole(firmness: Firmness | None) -> Parts:
    return ((None, firmness),)


def parts_of(worked: WorkedPiece) -> Parts:
    """What the lines between the rounds say: each holds for the rounds up to it, or from it on if
    it says so; the last goes on to the end, and one alone is for the whole piece. Empty without
    any."""
    said: list[tuple[int, str]] = []
    number = 0
    for entry in worked.entries:
        if isinstance(entry, WorkedRound):
            number = entry.round.label.last
        elif isinstance(entry, Action) and entry.act is Act.STUFF:
            said.append((number, entry.text))
    if len(said) == 1:
        return whole(firmness_of(said[0][1]))
    return _in_order(said)


def _in_order(said: Sequence[tuple[int, str]]) -> Parts:
    parts: list[Part] = []
    last: Firmness | None = None
    for i, (number, words) in enumerate(said):
        how = firmness_of(words)
        onward = _ONWARD.search(words) is not None
        parts.append((number, last if onward and i else how))
        last = how
    return (*parts, (None, last)) if parts else ()


def is_filled(parts: Parts) -> bool:
    return any(how is not None for _, how in parts)


def shares(parts: Parts, size: PieceSize) -> dict[Firmness, float]:
    """What share of the inside of a piece is filled how firmly. Nothing known of its outline, the
    last that is filled holds for all."""
    filled: dict[Firmness, float] = {}
    slices = _slices(size)
    total = sum(volume for _, volume in slices)
    if len(parts) == 1 or total <= 0:
        how = next((how for _, how in reversed(parts) if how is not None), None)
        return {how: 1.0} if how else {}
    for number, volume in slices:
        how = next((h for upto, h in parts if upto is None or number <= upto), None)
        if how is not None:
            filled[how] = filled.get(how, 0.0) + volume / total
    return filled


def _slices(size: PieceSize) -> list[tuple[int, float]]:
    """Round by round, the space between it and the one before."""
    found: list[tuple[int, float]] = []
    radius = height = 0.0
    for each in size.outline:
        rise = max(each.height_mm - height, 0.0)
        found.append((each.number, frustum(radius, each.radius_mm, rise)))
        radius, height = each.radius_mm, max(height, each.height_mm)
    return found
