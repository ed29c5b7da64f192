"""Where pieces and things sit round another piece, as `fabric/stands.py` reckons it: shares of the
round, counted from the front."""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.fabric.model import Fabric
from roundproof.fabric.stands import Setting, Stand, place_of, settings, stood
from roundproof.frozen import dataclass
from roundproof.pattern.model import Pattern

MOST_COPIES = 12
"""Copies of a piece that a drawing shows."""


@dataclass(frozen=True, slots=True)
class Seat:
    """What sits on `host` at `round`: one entry of `turns` for each copy, 0 the front, 0.25 a
    quarter round to the left of it seen from above."""

    guest: str
    host: str
    round: int
    turns: tuple[float, ...]


def seats(pattern: Pattern, fabric: Fabric) -> tuple[Seat, ...]:
    """The seats of all pieces that are joined to another one."""
    return tuple(_seats(pattern, fabric, thing=False))


def things(pattern: Pattern, fabric: Fabric) -> tuple[Seat, ...]:
    """The seats of eyes and other things that are placed; `guest` is the item's name."""
    return tuple(_seats(pattern, fabric, thing=True))


def _seats(pattern: Pattern, fabric: Fabric, *, thing: bool) -> Iterator[Seat]:
    for setting in settings(pattern, fabric):
        if setting.thing is not thing or setting.what == setting.host:
            continue
        if there := some(stood(fabric, setting)):
            front = place_of(fabric.pieces[setting.host], "front", there[0].count)
            from_ = front[0] if front else 0.0
            turns = tuple((one.middle - from_) / one.count % 1 for one in there)
            yield Seat(setting.what, setting.host, _round(setting), turns)


def some(there: tuple[Stand, ...], most: int = MOST_COPIES) -> tuple[Stand, ...]:
    """All of them, or so many, evenly chosen."""
    if len(there) <= most:
        return there
    return tuple(there[n * len(there) // most] for n in range(most))


def _round(setting: Setting) -> int:
    return (setting.site.first + setting.site.last) // 2
