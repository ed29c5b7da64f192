"""From where a piece is looked at, so that all that is set on it is seen."""

from __future__ import annotations

from collections.abc import Sequence

from roundproof.drawing.placing.frame import Frame
from roundproof.drawing.placing.host import Host, Item
from roundproof.drawing.profile import Profile
from roundproof.frozen import replace
from roundproof.measure.model import Form

WIDEST, TALLEST = 200.0, 300.0
"""Units that the piece itself may take."""
BESIDE = 104.0
"""Units that a tall piece may take of which two views stand side by side."""
WELL = 0.25
"""How far round from the middle of a view, in turns, something is still seen."""
FLAT = 0.6
"""Rounds that rise less than this share of how far they reach out are seen from above."""

View = tuple[Host, Frame]
"""The host with those of its items that a frame shows."""


def views(host: Host, shape: Profile, hand: int) -> tuple[View, ...]:
    """From the side that matters, and from behind or from a side for what that does not show; what
    lies on a flat part, from above or below. An oval whose front no mark tells has none: which of
    its sides is which cannot be known."""
    if shape.form is Form.OVAL and not host.facing:
        return ()
    scale = min(WIDEST / shape.width, TALLEST / max(shape.height, shape.depth))
    base = Frame(shape, scale, 0, 0, 0, hand)
    if shape.form is Form.ROWS:
        return ((host, base),)
    found: list[View] = []
    lying = [_lies(base, item) for item in host.items]
    for below in (False, True):
        there = [item for item, lies in zip(host.items, lying, strict=True) if lies is below]
        if there:
            frame = replace(base, above=True, below=below)
            found.append((replace(host, items=tuple(there)), frame))
    rest = tuple(item for item, lies in zip(host.items, lying, strict=True) if lies is None)
    if rest:
        standing = replace(host, items=rest)
        sides = _sides(standing)
        if len(sides) == 2 and shape.height > 0.95 * shape.width:
            base = replace(base, scale=min(BESIDE / shape.width, TALLEST / shape.height))
        found += [(standing, replace(base, view=view)) for view in sides]
    return tuple(found)


def _lies(frame: Frame, item: Item) -> bool | None:
    """False for what lies on a part that is seen from the start, True from the end, None for what
    stands on a side."""
    low, high = item.low, max(item.high, item.low + 1)
    if item.low == item.high:
        low -= 1
    first = float(frame.rings[0].number)
    if frame.profile.opening and low < first < high:
        low = first  # there is nothing below the edge that it starts with
    out = abs(frame.radius(high) - frame.radius(low))
    rise = abs(frame.height(high) - frame.height(low))
    if rise > FLAT * out:
        return None
    return (low + high) / 2 > frame.profile.widest.number


def _sides(host: Host) -> tuple[float, ...]:
    """The turns from which to look: the front, and another where that does not show all."""
    turns = host.turns
    hidden = [turn for turn in turns if not _near(turn, 0.0)]
    if not hidden:
        return (0.0,)
    best = max((0.5, 0.25, -0.25), key=lambda view: _shown(hidden, view))
    return (0.0, best) if len(hidden) < len(turns) else (best,)


def _shown(turns: Sequence[float], view: float) -> int:
    return sum(_near(turn, view) for turn in turns)


def _near(turn: float, view: float) -> bool:
    return abs((turn - view + 0.5) % 1 - 0.5) <= WELL - 0.02
