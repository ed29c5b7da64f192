"""Pieces so roughly that no round can be told from the drawing: for patterns whose rounds are sold
elsewhere.

The outline is taken at a few places that have nothing to do with rounds, each rounded to a grid as
coarse as a look at a photo would give, and drawn smoothly through them in one colour. Lines of
rounds are left away, and whatever sits on a piece is turned to the next of a few directions.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from math import cos, pi

from roundproof.drawing.places import Seat
from roundproof.drawing.profile import Profile, Ring
from roundproof.drawing.shapes import Group, Path, Shape
from roundproof.frozen import replace

PLACES = 7
"""Where the outline of a piece is taken, from its start to its end."""
BETWEEN = 6
"""Points drawn from one of them to the next."""
GRID = 24
"""Parts into which the largest measure of all pieces is divided."""
TURNS = 36
"""Directions round a piece."""


def coarse(profiles: Mapping[str, Profile]) -> dict[str, Profile]:
    """The same pieces without their rounds; those that are not measured are left out, as their
    drawing is made of the counts."""
    measured = {key: one for key, one in profiles.items() if one.measured}
    largest = max((max(one.width, one.height) for one in measured.values()), default=0.0)
    return {key: _coarse(one, largest / GRID) for key, one in measured.items()}


def _coarse(one: Profile, unit: float) -> Profile:
    rings = [replace(one.rings[0], radius=one.opening, height=0.0), *one.rings]
    high = max(unit, _rounded(one.height, unit))
    steps = [_share(place) for place in range(PLACES)]
    radii = [_rounded(_radius(rings, one.height * share), unit) for share in steps]
    middle = max(range(PLACES), key=radii.__getitem__)
    radii[middle] = max(unit / 2, _rounded(one.widest.radius, unit))
    mark = Counter(ring.mark for ring in one.rings).most_common(1)[0][0]
    smooth = tuple(
        Ring(
            _number(rings, one.height * _share(at)),
            _through(radii, at),
            high * _share(at),
            mark,
        )
        for at in (point / BETWEEN for point in range(1, (PLACES - 1) * BETWEEN + 1))
    )
    straight = _rounded(one.straight, unit)
    return replace(one, rings=smooth, straight=straight, opening=radii[0], every=1, whole=())


def _share(place: float) -> float:
    """How far up the piece a place is: closer together at the ends, where it rounds off."""
    return (1 - cos(pi * place / (PLACES - 1))) / 2


def _rounded(value: float, unit: float) -> float:
    return round(value / unit) * unit if unit else value


def _radius(rings: Sequence[Ring], height: float) -> float:
    """Half the width at a height; of rings at one height the widest."""
    after = bisect_left([ring.height for ring in rings], height - 1e-9)
    upper = rings[min(after, len(rings) - 1)]
    level = [ring.radius for ring in rings if abs(ring.height - height) < 1e-9]
    if level or after == 0:
        return max(level, default=upper.radius)
    lower = rings[after - 1]
    share = (height - lower.height) / max(upper.height - lower.height, 1e-9)
    return lower.radius + share * (upper.radius - lower.radius)


def _number(rings: Sequence[Ring], height: float) -> int:
    """Up to which round the piece has come there: for finding a place, never drawn."""
    return max((ring.number for ring in rings if ring.height <= height + 1e-9), default=0)


def _through(radii: Sequence[float], at: float) -> float:
    """A curve through the radii (Catmull and Rom), never below nothing."""
    place = min(int(at), len(radii) - 2)
    share = at - place
    a, b, c, d = (radii[max(0, min(len(radii) - 1, place + step))] for step in (-1, 0, 1, 2))
    bend = 2 * a - 5 * b + 4 * c - d
    curl = 3 * b - a - 3 * c + d
    value = b + 0.5 * share * (c - a + share * (bend + share * curl))
    return max(0.0, value)


def turned(seats: Iterable[Seat]) -> tuple[Seat, ...]:
    """What sits round a piece, to the next of a few directions."""
    return tuple(
        replace(seat, turns=tuple(round(turn * TURNS) / TURNS % 1 for turn in seat.turns))
        for seat in seats
    )


def without_rounds(shapes: Iterable[Shape]) -> list[Shape]:
    """The shapes but for the lines of rounds."""
    kept: list[Shape] = []
    for shape in shapes:
        if isinstance(shape, Group):
            kept.append(replace(shape, shapes=tuple(without_rounds(shape.shapes))))
        elif not (isinstance(shape, Path) and shape.css.startswith("seam")):
            kept.append(shape)
    return kept
