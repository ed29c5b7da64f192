"""What the assembly sets on one piece, gathered for drawing: items with a letter each, landmarks,
and the side that matters."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import atan2, ceil, cos, pi, sin

from roundproof.fabric.model import Fabric, WorkedPiece
from roundproof.fabric.places import Site, counts_between, marks_of
from roundproof.fabric.points import Point, lines_of, path_point
from roundproof.fabric.stands import Setting, Stand, place_of, settings, stood
from roundproof.frozen import dataclass, replace
from roundproof.notation.edges import piece_of
from roundproof.pattern.model import Around, Embroider, Joint, Pattern
from roundproof.source import Span

MOST_ITEMS = 26
"""Steps shown on one piece: a letter each."""


MOST_DRAWN = 80
"""Copies of one step that are drawn."""


@dataclass(frozen=True, slots=True)
class Item:
    """Something set on the host by one step. `stands` are its copies, empty where the step does not
    say where round the host they go; `size` mm of a thing, 0 where not known. A line of
    embroidery, or the path of a joint, has `points` instead of a site."""

    letter: str
    name: str
    thing: bool
    site: Site | None
    low: float
    high: float
    around: Around | None
    stands: tuple[Stand, ...] = ()
    copies: int = 1
    size: float = 0.0
    points: tuple[Point, ...] = ()
    times: int = 1
    joint: bool = False


@dataclass(frozen=True, slots=True)
class Landmark:
    """A mark: in round `number`, at `place` of its `count` stitches."""

    name: str
    number: int
    place: float
    count: int


@dataclass(frozen=True, slots=True)
class Host:
    """`front` is the share of the round at which the view is taken that matters, `facing` the mark
    that says so; empty where none does."""

    worked: WorkedPiece
    items: tuple[Item, ...]
    marks: tuple[Landmark, ...]
    front: float
    facing: str

    @property
    def key(self) -> str:
        return self.worked.piece.key

    @property
    def name(self) -> str:
        return self.worked.piece.name

    def turn(self, place: float, count: int) -> float:
        """A place as a share of the round from the front on, between -0.5 and 0.5."""
        return (place / count - self.front + 0.5) % 1 - 0.5

    @property
    def turns(self) -> tuple[float, ...]:
        """Where the middles of all that is set there are."""
        return tuple(
            self.turn(place, count) for item in self.items for place, count in middles(item)
        )


def middles(item: Item) -> Iterator[tuple[float, int]]:
    for stand in item.stands if not item.points else ():
        yield stand.middle, stand.count
    for point in item.points:
        if point.place is not None and point.count:
            yield point.place, point.count


def hosts(pattern: Pattern, fabric: Fabric) -> tuple[Host, ...]:
    """Every piece on which a step says where something goes, in the order of the file."""
    found: dict[str, list[Item]] = {}
    sizes = {n.item.value.lower(): n.size.value for n in pattern.notions if n.size is not None}
    for setting in settings(pattern, fabric):
        if setting.placed or setting.around is not None:
            there = found.setdefault(setting.host, [])
            there.append(_item(fabric, setting, sizes))
    for step in pattern.assembly:
        drawn: tuple[tuple[str, Item], ...] = ()
        if isinstance(step.verb, Embroider):
            drawn = tuple(_threads(fabric, step.verb))
        elif isinstance(step.verb, Joint):
            drawn = tuple(_joint(fabric, step.verb))
        for key, item in drawn:
            found.setdefault(key, []).append(item)
    return tuple(
        _host(fabric.pieces[key], found[key][:MOST_ITEMS]) for key in fabric.pieces if key in found
    )


def _item(fabric: Fabric, setting: Setting, sizes: Mapping[str, float]) -> Item:
    there = stood(fabric, setting)
    known = setting.around is not None and not setting.guessed
    guest = fabric.pieces.get(setting.what)
    return Item(
        letter="",
        name=guest.piece.name if guest else setting.what,
        thing=setting.thing,
        site=setting.site,
        low=setting.low,
        high=setting.high,
        around=setting.around,
        stands=there if known else (),
        copies=len(there) if known else setting.copies,
        size=sizes.get(setting.what.lower(), 0.0) if setting.thing else 0.0,
    )


def _threads(fabric: Fabric, verb: Embroider) -> Iterator[tuple[str, Item]]:
    key = piece_of(verb.piece.value, fabric.pieces)
    for line, _ in lines_of(fabric, verb):
        ends = tuple(end for end in (line.start, line.end) if end is not None)
        thread = line.thread
        said = (thread.name, thread.stitch)
        name = ", ".join(words.value for words in said if words) or "line of thread"
        times = thread.times.value if thread.times else 1
        if key and ends:
            yield key, _drawn(key, name, ends, times, verb.span)


def _joint(fabric: Fabric, verb: Joint) -> Iterator[tuple[str, Item]]:
    """The points of its path that are on each piece."""
    found: dict[str, list[Point]] = {}
    for said in verb.path:
        key, point = piece_of(said.value, fabric.pieces), path_point(fabric, said.value)
        if key and isinstance(point, Point) and point.place is not None:
            found.setdefault(key, []).append(point)
    for key, points in found.items():
        named = f"joint, {verb.with_.value}"
        yield key, _drawn(key, named, tuple(dict.fromkeys(points)), 1, verb.span, joint=True)


def _drawn(
    key: str, name: str, points: tuple[Point, ...], times: int, span: Span, *, joint: bool = False
) -> Item:
    """Its points stand where they are, like things without width, if one round shows them all."""
    low, high = min(p.height for p in points), max(p.height for p in points)
    there = [(p.height, p.place, p.count) for p in points if p.place is not None and p.count]
    stands = tuple(
        Stand(
            name, key, height, height, place % count, 0.0, count, True, nth,
            Site(key, "between", ceil(height), ceil(height), 0), span,
        )
        for nth, (height, place, count) in enumerate(there, 1)
    )  # fmt: skip
    same = len({stand.count for stand in stands}) == 1
    return Item(
        "", name, True, None, low, high, None, stands if same else (), points=points, times=times,
        joint=joint,
    )  # fmt: skip


def _host(worked: WorkedPiece, items: list[Item]) -> Host:
    named = tuple(
        replace(item, letter=chr(ord("a") + n), name=_capital(" ".join(item.name.split())))
        for n, item in enumerate(items)
    )
    marks = tuple(_landmarks(worked))
    front = _front(worked, named)
    if front is not None:
        return Host(worked, named, marks, *front)
    return Host(worked, named, marks, _most(named), "")


def _capital(name: str) -> str:
    return name[:1].upper() + name[1:]


def _landmarks(worked: WorkedPiece) -> Iterator[Landmark]:
    for name, mark in marks_of(worked).items():
        counts = counts_between(worked, mark.round, mark.round)
        if len(counts) == 1 and 0 < mark.stitch <= counts[0]:
            yield Landmark(" ".join(name.split()), mark.round, mark.place, counts[0])


def _front(worked: WorkedPiece, items: tuple[Item, ...]) -> tuple[float, str] | None:
    """The mark `front`, or that which the first item goes by, and its share of the round."""
    named = [item.around.mark.value for item in items if item.around and item.around.mark]
    for name in ("front", *named):
        if (found := place_of(worked, name, 1)) is not None:
            return found[0], name
    return None


def _most(items: tuple[Item, ...]) -> float:
    """The middle of all that is set there; where it goes all round, that of the first."""
    shares = [2 * pi * place / count for item in items for place, count in middles(item)]
    across, along = sum(map(sin, shares)), sum(map(cos, shares))
    if not shares:
        return 0.0
    if across * across + along * along < 0.01:
        return shares[0] / (2 * pi)
    return atan2(across, along) / (2 * pi)
