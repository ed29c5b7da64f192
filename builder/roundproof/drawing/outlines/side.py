"""A piece seen from the side: between one ring and the next lies a round."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from roundproof.drawing.outlines.hatch import Area, hatch
from roundproof.drawing.profile import Profile, Ring
from roundproof.drawing.runs import LIKE_A_FRILL, Lie, lie, runs
from roundproof.drawing.shapes import Group, Path, Rect, Shape, Text, compact, polygon
from roundproof.drawing.yarns import BARE, YarnMark

NUMBERS = 118.0
"""Where the column of numbers stands."""
LETTERS = 112.0
"""Where that of letters ends, at the other side."""
APART = 13.5
"""From one number, or letter, to the next at least."""
ROOM = 15.0
"""A band with less height has its letter beside it."""

DROP = 4.3
"""From the middle of a letter down to the line it stands on."""
LEDGE = 5.0
STEPS = (5, 10, 20, 50, 100, 200, 500, 1000)

Point = tuple[float, float]


def from_side(profile: Profile, scale: float) -> list[Shape]:
    """The start at the top, at y = 0, in units."""
    right = [(x * scale, y * scale) for x, y in _right(profile, profile.rings)]
    tip = [(0.0, right[-1][1] + profile.tip * scale)] if profile.tip else []
    marked = [(x * scale, y * scale) for x, y in _right(profile, profile.whole)]
    return [
        *_bands(profile, right, tip),
        *_hatching(profile, right),
        _closed([*right, *tip], "edge"),
        _dots(right[1:]),
        *_letters(profile, right),
        *_numbers(profile.whole, marked[1:]),
    ]


def _right(profile: Profile, rings: Sequence[Ring]) -> list[Point]:
    """The right-hand side: the start, then every ring."""
    half = profile.straight / 2
    start = [(profile.opening + half, 0.0)]
    return start + [(ring.radius + half, ring.height) for ring in rings]


def _closed(right: Sequence[Point], css: str) -> Path:
    left = [(-x, y) for x, y in reversed(right) if x]
    return compact(polygon([*right, *left], css))


def _mark(ring: Ring) -> YarnMark:
    return ring.mark


def tone(mark: YarnMark) -> str:
    """The class of a band."""
    return "paper" if mark == BARE else f"band {mark.css}"


def _bands(profile: Profile, right: Sequence[Point], tip: Sequence[Point]) -> list[Shape]:
    """A band for each run of rounds in one yarn, parted by dashes."""
    shapes: list[Shape] = []
    found, dashes = runs(profile.rings, _mark), list[tuple[str | float, ...]]()
    for run in found:
        points = [*right[run.first : run.last + 2], *(tip if run is found[-1] else ())]
        shapes.append(_closed(points, tone(run.rings[0].mark)))
    for run in found[1:]:
        x, y = right[run.first]
        dashes += [("M", -x, y), ("H", x)]
    return [*shapes, compact(Path(tuple(dashes), "dashed"))] if dashes else shapes


def _hatching(profile: Profile, right: Sequence[Point]) -> list[Shape]:
    areas: dict[Lie | None, list[Area]] = {}
    for place, ring in enumerate(profile.rings):
        (x, y), (to_x, to_y) = right[place], right[place + 1]
        # What ruffles stands straight out: seen from the side it would have no height.
        to_y = max(to_y, y + LEDGE) if ring.lies in LIKE_A_FRILL else to_y
        areas.setdefault(lie(ring), []).append(Area([(-x, y), (x, y), (to_x, to_y), (-to_x, to_y)]))
    strokes = (hatch(where, lies.lines) for lies, where in areas.items() if lies)
    return [each for each in strokes if each]


def _dots(rings: Sequence[Point]) -> Path:
    """A dot at either end of each round; strokes without length, with round ends."""
    steps: list[tuple[str | float, ...]] = []
    for x, y in [*rings, *((-x, y) for x, y in reversed(rings) if x)]:
        steps += [("M", x, y), ("h", 0)]
    return compact(Path(tuple(steps), "dots"))


def _letters(profile: Profile, right: Sequence[Point]) -> list[Shape]:
    """The letter of its yarn in each band; where there is too little room, in a column at the left,
    led to its band by a faint line."""
    grounds: list[Shape] = []
    letters: list[Shape] = []
    beside: list[tuple[float, float, str]] = []
    for run in runs(profile.rings, _mark):
        mark, points = run.rings[0].mark, right[run.first : run.last + 2]
        top, low = points[0][1], points[-1][1]
        middle = (top + low) / 2
        if low - top >= ROOM and _across(points, middle) >= 12:
            grounds.append(Rect(-8, middle - 7, 16, 14, tone(mark)))
            letters.append(Text(0, middle + DROP, mark.letter, "", "middle"))
        else:
            beside.append((middle, max(_across(points, middle), points[-1][0]), mark.letter))
    ends = (min(0.0, right[0][1]) - APART / 2, max(y for _, y in right) + APART)
    most = int((ends[1] - ends[0]) / APART)
    steps: list[tuple[str | float, ...]] = []
    for y, (middle, edge, letter) in zip(
        spread([middle for middle, _, _ in beside[:most]], APART, *ends), beside, strict=False
    ):
        letters.append(Text(-LETTERS, y + DROP, letter, "", "end"))
        steps += [("M", 3 - LETTERS, y), ("L", -edge, middle)]
    leads = [compact(Path(tuple(steps), "faint"))] if steps else []
    return [*leads, *grounds, Group(tuple(letters), "strong")]


def spread(wanted: Sequence[float], apart: float, top: float, low: float) -> list[float]:
    """Places as near to those wanted as can be (least squares: isotonic regression by pooling
    neighbours, Ayer et al. 1955), in the same order, so far apart, from `top` to `low`."""
    pools: list[list[float]] = []
    for nth, place in enumerate(wanted):
        pools.append([place - nth * apart])
        while len(pools) > 1 and _mean(pools[-2]) > _mean(pools[-1]):
            pools[-2:] = [pools[-2] + pools[-1]]
    means = [_mean(pool) for pool in pools for _ in pool]
    last = len(means) - 1
    return [
        min(max(place, top), low - last * apart) + nth * apart for nth, place in enumerate(means)
    ]


def _mean(pool: Sequence[float]) -> float:
    return sum(pool) / len(pool)


def _across(points: Sequence[Point], y: float) -> float:
    """Half the width at a height, where it is least."""
    met = [
        x + (to_x - x) * (y - here) / (there - here)
        for (x, here), (to_x, there) in pairwise(points)
        if here != there and min(here, there) <= y <= max(here, there)
    ]
    return min(met, default=0.0)


def _numbers(rings: Sequence[Ring], at: Sequence[Point]) -> list[Shape]:
    """Numbers in a column at the right, each joined to its round by a faint line."""
    steps: list[tuple[str | float, ...]] = []
    words: list[Shape] = []
    for place in chosen(rings, [y for _, y in at], APART):
        x, y = at[place]
        steps += [("M", x + 4, y), ("H", NUMBERS - 4)]
        words.append(Text(NUMBERS, y + DROP, f"R{rings[place].number}"))
    return [compact(Path(tuple(steps), "faint")), Group(tuple(words), "words")]


def chosen(rings: Sequence[Ring], at: Sequence[float], apart: float) -> list[int]:
    """Which rings get a number: the last, the first, and of the others every fifth, or tenth, …,
    those that have room. `at` is where each would stand."""
    last = rings[-1].number
    step = next((step for step in STEPS if last <= 8 * step), STEPS[-1])
    nth = [place for place, ring in enumerate(rings) if ring.number % step == 0]
    kept: list[int] = []
    for place in (len(rings) - 1, 0, *nth):
        if all(abs(at[place] - at[other]) >= apart for other in kept):
            kept.append(place)
    return sorted(kept)
