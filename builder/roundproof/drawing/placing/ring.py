"""The round of a placement diagram, seen from the start with the front at the foot: a cell a
stitch, with what stands on it, its first and last stitches in figures, and the gaps between."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil, cos, pi, sin

from roundproof.drawing.labels import LINE, RISE, box_of, cut, placed, spread_out, width_of
from roundproof.drawing.places import some
from roundproof.drawing.placing.gaps import between, levels
from roundproof.drawing.placing.host import MOST_DRAWN, Host, Item
from roundproof.drawing.shapes import Box, Circle, Path, Shape, Text
from roundproof.fabric.stands import Stand
from roundproof.frozen import dataclass

OUTER, SMALLEST, THICK = 84.0, 56.0, 14.0
"""The radius of a ring, where its labels leave room, and how thick it is."""
ASIDE = 18.0
"""Units from a ring to its labels."""
AIR = 30.0
"""Units above and below the ring that its labels may take."""
ALL_CELLS = 120
"""Stitches up to which each has a cell of its own; above, only every so many-th is marked."""
MOST_BESIDE = int((2 * OUTER + 2 * AIR - LINE) / LINE) + 1
MOST_LABELS = 2 * MOST_BESIDE - 4


Steps = tuple[tuple[str | float, ...], ...]


@dataclass(frozen=True, slots=True)
class Ring:
    """The items that stand on rounds of `count` stitches with nothing on the same ones; `rounds`
    are those in which the stitches are counted."""

    count: int
    rounds: tuple[int, ...]
    items: tuple[Item, ...]
    exact: bool

    @property
    def words(self) -> str:
        """ "R9: 44 stitches"."""
        named = [f"R{number}" for number in self.rounds]
        joined = named[0] if len(named) == 1 else f"{', '.join(named[:-1])} and {named[-1]}"
        return f"{joined}: {self.count:,} stitches"


@dataclass(frozen=True, slots=True)
class _Label:
    """Words beside the ring that point to `place` on it; `fixed` if they are never left out."""

    place: float
    words: str
    fixed: bool = False


def rings(items: Sequence[Item]) -> tuple[Ring, ...]:
    """What stands round a piece, sorted by the counts of its rounds; things that would stand on the
    same cells, on other rounds, get a ring of their own."""
    found: list[Ring] = []
    for group in levels(items):
        ring = _ring(group)
        for at, other in enumerate(found):
            both = _ring((*other.items, *group))
            if other.count == ring.count and not _clash(other, ring) and _one_scale(both.items):
                found[at] = both
                break
        else:
            found.append(ring)
    return tuple(sorted(found, key=lambda ring: ring.rounds))


def _ring(items: tuple[Item, ...]) -> Ring:
    there = [stand for item in items for stand in item.stands]
    rounds = tuple(sorted({stand.site.first for stand in there}))
    return Ring(there[0].count, rounds, items, all(stand.exact for stand in there))


def _one_scale(items: Sequence[Item]) -> bool:
    """Whether no more than one of their heights has gaps to be told inside the ring."""
    return len({gap.level for gap in between(items)}) <= 1


def _clash(one: Ring, two: Ring) -> bool:
    here, there = ([s for item in ring.items for s in item.stands] for ring in (one, two))
    if len(here) + len(there) > MOST_LABELS // 2:
        return True
    return any(_meet(a, b) for a in here for b in there)


def _meet(one: Stand, two: Stand) -> bool:
    ahead = (two.start - one.start) % one.count
    back = (one.start - two.start) % one.count
    return ahead < max(one.wide, 0.5) or back < max(two.wide, 0.5)


def ring_height() -> float:
    return 2 * (OUTER + AIR)


def draw_ring(ring: Ring, host: Host, x: float, y: float, half: float, hand: int) -> list[Shape]:
    """The ring about (x, y), with words as far as `half` to either side."""
    labels = list(_labels(ring, host))
    widest = max(width_of(label.words) for label in labels)
    outer = max(SMALLEST, min(OUTER, half - widest - ASIDE))
    way = _Round(ring.count, host.front, x, y, hand, outer)
    there = [stand for item in ring.items for stand in some(item.stands, MOST_DRAWN)]
    cells = [shape for stand in there if stand.wide for shape in way.filled(stand)]
    dots = [shape for stand in there if not stand.wide for shape in way.filled(stand)]
    shapes: list[Shape] = [way.circle(way.inner), way.circle(way.outer), *cells, *way.ticks()]
    taken: list[Box] = [way.arrow]
    shapes += [*dots, *_start(way), *_pointed(way, labels, half)]
    shapes += _middle(ring, way, taken)
    shapes += _gap_figures(way, ring, taken)
    return shapes


@dataclass(frozen=True, slots=True)
class _Round:
    """A round as a circle: `front` is the share of it that is at the foot."""

    count: int
    front: float
    x: float
    y: float
    hand: int
    outer: float

    @property
    def inner(self) -> float:
        return self.outer - THICK

    def at(self, place: float, radius: float) -> tuple[float, float]:
        angle = 2 * pi * (place / self.count - self.front)
        return self.x + self.hand * radius * sin(angle), self.y + radius * cos(angle)

    def arc(self, start: float, end: float, radius: float, *, back: bool = False) -> Steps:
        """From where the pen is at `start` to `end`, less than a whole round; `back` the other
        way."""
        large = int(abs(end - start) > self.count / 2)
        sweep = int((self.hand > 0) == back)
        return (("A", radius, radius, 0, large, sweep, *self.at(end, radius)),)

    @property
    def arrow(self) -> Box:
        """What the arrow covers that shows the way of work."""
        (x, y), (end, low) = (self.at(n * self.count / 16, self.inner - 9) for n in (0, 1))
        left, top = min(x, end) - 5, min(y, low) - 5
        return Box(left, top, abs(x - end) + 10, abs(y - low) + 10)

    def circle(self, radius: float) -> Shape:
        return Circle(self.x, self.y, radius, "line")

    def filled(self, stand: Stand) -> list[Shape]:
        """The cells it covers; a thing between two stitches is a dot on the line between them."""
        if not stand.wide:
            return [Circle(*self.at(stand.start, (self.inner + self.outer) / 2), 4.5, "solid")]
        start, end = stand.start, stand.start + min(stand.wide, stand.count * 0.9999)
        rim = self.outer + 5
        way: Steps = (
            ("M", *self.at(start, rim)),
            *self.arc(start, end, rim),
            ("L", *self.at(end, self.inner)),
            *self.arc(end, start, self.inner, back=True),
            ("Z",),
        )
        return [Path(way, "set")]

    def ticks(self) -> Iterator[Shape]:
        """A line between any two stitches, heavier at every fifth or tenth."""
        step = 1 if self.count <= ALL_CELLS else _step(self.count)
        heavy = 1 if step > 1 else 5 if self.count <= 60 else 10
        for css, wanted in (("faint", False), ("line", True)):
            way: list[tuple[str | float, ...]] = []
            for n in range(0, self.count, step):
                if (n % heavy == 0) is wanted:
                    inner = self.inner - 4 if wanted else self.inner
                    way += [("M", *self.at(n, inner)), ("L", *self.at(n, self.outer))]
            if way:
                yield Path(tuple(way), css)


def _step(count: int) -> int:
    """Stitches from mark to mark where not every one has a cell."""
    step = 10
    while count / step > 48:
        step *= 5 if str(step)[0] == "1" else 2
    return step


def scale_words(count: int) -> str:
    """What a heavy line of the ring stands for."""
    if count <= ALL_CELLS:
        return f"a cell a stitch, longer lines at each {'5th' if count <= 60 else '10th'}"
    return f"a line every {_step(count):,} stitches"


# ---- words about it ----
def _labels(ring: Ring, host: Host) -> Iterator[_Label]:
    left = MOST_LABELS - 1 - min(len(host.marks), 4)
    for item in ring.items:
        for stand in some(item.stands, max(1, left // len(ring.items))):
            yield _Label(stand.middle, f"{item.letter} {figures(stand)}")
    yield _Label(0.0, "start", fixed=True)
    for mark in host.marks[:4]:
        yield _Label(mark.place * ring.count / mark.count, mark.name, fixed=True)


def figures(stand: Stand) -> str:
    """Its first and last stitch: "5–8"; "8|9" for what is between two; "~" where that is about."""
    about = "" if stand.exact else "~"
    if not stand.wide:
        place = stand.start % stand.count
        before, within = int(place), place % 1
        if within > 1e-9:
            return f"{about}{before + 1}"
        return f"{about}{before or stand.count}|{before % stand.count + 1}"
    first = int(stand.start) + 1
    last = ceil(stand.start + stand.wide - 1e-9)
    last = last - stand.count if last > stand.count else last
    return f"{about}{first}" if first == last else f"{about}{first}–{last}"


def _pointed(way: _Round, labels: Sequence[_Label], half: float) -> list[Shape]:
    """The labels in two columns beside the ring, each with a line to its place."""
    leads: list[tuple[str | float, ...]] = []
    texts: list[Shape] = []
    for side in (-1, 1):
        mine = [
            (way.at(one.place, way.outer + 6), one)
            for one in labels
            if (1 if way.at(one.place, 1)[0] >= way.x - 1e-9 else -1) == side
        ]
        mine = _fitting(mine)
        mine.sort(key=lambda pair: (pair[0][1], pair[1].words))
        reach = OUTER + AIR - LINE / 2
        spread = spread_out([y for (_, y), _ in mine], LINE, way.y - reach, way.y + reach)
        x, anchor = way.x + side * (way.outer + ASIDE), "start" if side > 0 else "end"
        for (point, one), y in zip(mine, spread, strict=True):
            words = cut(one.words, half - way.outer - ASIDE)
            bend = (x - 8 * side, y)
            leads += [("M", *point), ("L", *bend), ("L", x - 3 * side, y)]
            texts.append(Text(x, y + RISE, words, "words", anchor))
    return [Path(tuple(leads), "faint"), *texts]


_Pointed = tuple[tuple[float, float], _Label]


def _fitting(labels: list[_Pointed]) -> list[_Pointed]:
    """As many as have room in a column: the start and the marks, which come last, and of the rest
    some all along."""
    if len(labels) <= MOST_BESIDE:
        return labels
    last = [pair for pair in labels if pair[1].fixed]
    rest, room = [pair for pair in labels if not pair[1].fixed], MOST_BESIDE - len(last)
    return [*(rest[n * len(rest) // room] for n in range(room)), *last]


def _start(way: _Round) -> list[Shape]:
    """A long line where the round begins, and an arrow the way that it is worked."""
    share, radius = way.count / 16, way.inner - 9
    begin = (("M", *way.at(0, radius)), ("L", *way.at(0, way.outer + 6)))
    arrow = (
        ("M", *way.at(0, radius)),
        *way.arc(0, share, radius),
        ("M", *way.at(share * 0.72, radius - 4)),
        ("L", *way.at(share, radius)),
        ("L", *way.at(share * 0.72, radius + 4)),
    )
    return [Path(begin, "edge"), Path(arrow, "line")]


def _middle(ring: Ring, way: _Round, taken: list[Box]) -> list[Shape]:
    lines = [", ".join(f"R{number}" for number in ring.rounds[:2]), f"{ring.count:,}", "stitches"]
    if len(ring.rounds) > 2:
        lines[0] = f"R{ring.rounds[0]}–R{ring.rounds[-1]}"
    texts = [
        Text(way.x, way.y + (n - 1) * LINE + RISE, words, "words", "middle")
        for n, words in enumerate(lines)
    ]
    taken += [box_of(text) for text in texts]
    return list(texts)


def _gap_figures(way: _Round, ring: Ring, taken: list[Box]) -> list[Shape]:
    """The free stitches between neighbours, inside the ring."""
    shapes: list[Shape] = []
    radius = way.inner - 9
    for gap in between(ring.items):
        middle = gap.start + gap.wide / 2
        spots = [(*way.at(middle, radius - far), "middle") for far in (11.0, 19.0, 27.0)]
        text = placed(f"{gap.wide:,g}", spots, taken, "words")
        if text is not None:
            taken.append(box_of(text))
            air = min(0.25 * gap.wide, 0.006 * way.count)
            start, end = gap.start + air, gap.start + gap.wide - air
            arc = (("M", *way.at(start, radius)), *way.arc(start, end, radius))
            shapes += [Path(arc, "line"), text]
    return shapes
