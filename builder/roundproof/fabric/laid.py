"""How a round was worked, stitch by stitch: what each stitch is, its yarn, and what it went into.

Stitches come one at a time, so that a round of ten million can be looked into without being kept.
The counts are those of `once`, which reckons without unrolling; tests hold the two together.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from enum import StrEnum
from itertools import groupby, islice

from roundproof.fabric.lifting import skips_a_stitch
from roundproof.fabric.model import Base, WorkedRound
from roundproof.frozen import dataclass, replace
from roundproof.notation.tree import (
    UNCOUNTED,
    Chain,
    Colour,
    FarSide,
    Fill,
    Item,
    JoinRound,
    Leave,
    Loop,
    Onto,
    Repeat,
    Spot,
    Stitches,
    Turn,
    Where,
)
from roundproof.reference import stitches as kinds
from roundproof.source import Span

_SLIP = (("sl st", 1),)
_MOST = 20_000
"""Stitches of the round below that are looked at."""


class Into(StrEnum):
    """What a hook goes into."""

    STITCH = "st"
    CHAIN = "ch"
    """A chain of the foundation, of this round, or of the one below, counted from its start."""
    SPACE = "ch sp"
    """The space under a run of chains of the round below."""
    FAR_SIDE = "far side of ch"
    RING = "ring"
    POST = "post of st"
    PLACE = "place"
    """A stitch of a place of its own: see `Foot.onto`."""


@dataclass(frozen=True, slots=True)
class Foot:
    """One thing a stitch goes into: its number there from 1 (0 for a ring), by which loop."""

    into: Into
    number: int
    loop: Loop = Loop.BOTH
    onto: Onto | None = None


@dataclass(frozen=True, slots=True)
class Laid:
    """One stitch as it lies in its round. `number` counts the round's stitches from 1 and is 0 for
    what counts for nothing. `kind` is a stitch id, "ch", or "sk" for stitches passed over."""

    number: int
    kind: str
    yarn: str | None
    feet: tuple[Foot, ...]
    span: Span


def laid(worked: WorkedRound, below: WorkedRound | None = None) -> Iterator[Laid]:
    """The stitches of one round in working order; none where it could not be read. With the round
    `below`, chains of it and the spaces under them are told from its stitches."""
    if worked.instruction is None:
        return
    under = _places(below, worked.available) if below is not None else {}
    for stitch in _Layer(worked).whole():
        feet = tuple(_under(foot, under) for foot in stitch.feet) if under else stitch.feet
        yield stitch if feet == stitch.feet else replace(stitch, feet=feet)


def _under(foot: Foot, under: Mapping[int, Into]) -> Foot:
    into = under.get(foot.number) if foot.into is Into.STITCH else None
    return replace(foot, into=into) if into else foot


def _places(below: WorkedRound, available: int | None) -> Mapping[int, Into]:
    """Which of the places that a round left are chains, or the spaces under runs of them. There is
    a place for each stitch and each chain, or one for each run of chains, or none."""
    row = [s for s in islice(laid(below), _MOST) if s.number]
    if not any(s.kind == "ch" for s in row) or available is None:
        return {}
    if len(row) == available:
        return {i: Into.CHAIN for i, s in enumerate(row, 1) if s.kind == "ch"}
    runs: list[str] = []
    for kind, same in groupby(row, key=lambda s: s.kind):
        runs += ["ch"] if kind == "ch" else [kind] * len(list(same))
    if len(runs) == available:
        return {i: Into.SPACE for i, kind in enumerate(runs, 1) if kind == "ch"}
    return {}


class _Layer:
    def __init__(self, worked: WorkedRound) -> None:
        assert worked.instruction is not None
        self.worked = worked
        self.work = worked.instruction
        self.there = worked.available
        for onto, count, room in worked.onto:
            if self.there is not None and not onto.both and onto.spot is not Spot.CHAIN:
                self.there -= count if room is None else min(count, room)
        self.at = 0
        """Stitches of the round below worked into so far."""
        self.start = 0
        """The same where the group in hand began."""
        self.far: int | None = None
        self.left = 0
        self.made = 0
        self.yarn = worked.yarn
        self.taken: Counter[Onto] = Counter()
        self.room = {onto: room for onto, _, room in worked.onto}
        self.last: tuple[Foot, ...] = ()
        self.chained = 0
        """Chains made within the round."""
        self.spur = 0
        self.down = 0
        self.founded = False
        self.pairs = 0
        """Stitches of two layers worked as one so far."""

    def whole(self) -> Iterator[Laid]:
        items = list(self.work.items)
        while items and isinstance(items[0], Colour):
            self.yarn = items.pop(0).yarn  # type: ignore[union-attr]
        if self.worked.chains and items and isinstance(items[0], Chain):
            chain = items.pop(0)
            alone = not items or (len(items) == 1 and isinstance(items[0], JoinRound))
            self.founded = not alone
            for number in range(self.worked.chains):
                yield self.one("ch", (), chain.span, counts=alone or self.stands(number))
        yield from self.items(items, top=True)

    def stands(self, number: int) -> bool:
        """Whether a chain of the foundation is the one that stands for those skipped."""
        first = next((i for i in self.work.items if isinstance(i, Stitches)), None)
        last = number == self.worked.chains - 1
        return last and self.worked.lifted and first is not None and skips_a_stitch(first)

    def items(self, items: Sequence[Item], top: bool) -> Iterator[Laid]:
        for index, item in enumerate(items):
            after = items[index + 1 :]
            if isinstance(item, Stitches):
                yield from self.stitches(item, after, top)
            elif isinstance(item, Repeat):
                yield from self.repeat(item, after)
            elif isinstance(item, Colour):
                self.yarn = item.yarn
            elif isinstance(item, Leave):
                self.left += item.count
                self.at += item.count
            elif isinstance(item, FarSide):
                self.far = 0
            elif isinstance(item, Chain):
                first = top and all(isinstance(i, Colour) for i in items[:index])
                yield from self.chain(item, after, first, top)

    def one(self, kind: str, feet: tuple[Foot, ...], span: Span, counts: bool = True) -> Laid:
        self.made += counts
        return Laid(self.made if counts else 0, kind, self.yarn, feet, span)

    def chain(self, item: Chain, after: Sequence[Item], first: bool, top: bool) -> Iterator[Laid]:
        lifts = top and (first or all(isinstance(i, Turn | JoinRound) for i in after))
        back = after[0] if after else None
        lifts = lifts and not (isinstance(back, Stitches) and back.where is Where.HOOK)
        counts = lifts and first and (self.worked.lifted if item.counts is None else item.counts)
        if counts:
            into_ring = any(isinstance(i, Stitches) and i.where is Where.RING for i in after[:1])
            self.at += 0 if into_ring else 1
            self.last = () if into_ring else (Foot(Into.STITCH, self.at),)
        for number in range(item.count):
            yield self.one("ch", (), item.span, counts=(not lifts) or (counts and not number))
        if not lifts:
            self.spur = item.count
            self.chained += item.count

    def stitches(self, item: Stitches, after: Sequence[Item], top: bool) -> Iterator[Laid]:
        if top and self.closes(item, after):
            yield self.one("sl st", (Foot(Into.STITCH, 1),), item.span, counts=False)
            return
        uses = self.uses(item)
        for _ in range(self.times(item.times, uses, item.onto, after)):
            yield from self.unit(item)

    def unit(self, item: Stitches) -> Iterator[Laid]:
        feet = self.last = self.feet(item)
        if item.unit.skips:
            yield self.one("sk", feet, item.span, counts=False)
        for kind, count in item.unit.makes:
            row = kinds().get(kind)
            mine = feet
            if row is not None and row.into.endswith("post"):
                mine = tuple(Foot(Into.POST, f.number, f.loop, f.onto) for f in feet)
            for _ in range(count):
                yield self.one(kind, mine, item.span, counts=kind not in UNCOUNTED)

    def uses(self, item: Stitches) -> int:
        if item.where is Where.RING or (item.where is Where.SAME and self.at):
            return 0
        if item.where is Where.FIRST and self.at > self.start:
            return 0
        return item.unit.uses * item.layers

    def feet(self, item: Stitches) -> tuple[Foot, ...]:
        """What the next of these stitches goes into."""
        loop = item.loop or self.work.loop or Loop.BOTH
        if item.where is Where.RING:
            return (Foot(Into.RING, 0),)
        if item.where is Where.SAME and self.last:
            return self.last
        if item.where is Where.FIRST and self.at > self.start:
            return (Foot(Into.STITCH, self.start + 1, loop),)
        if item.onto is not None:
            return self.on_place(item, item.onto, loop)
        if item.where is Where.HOOK and not self.founded:
            self.down = max(0, self.spur - item.nth)
            return (Foot(Into.CHAIN, self.chained - item.nth + 1, loop),)
        if self.down:
            down = min(self.down, item.unit.uses)
            self.down -= down
            first = self.chained - self.spur + self.down + 1  # chains of spurs before are passed by
            return tuple(Foot(Into.CHAIN, first + i, loop) for i in reversed(range(down)))
        self.spur = 0
        if item.layers == 2 and item.unit.uses == 1 and self.at == 2 * self.pairs and self.there:
            return self.pair(loop)
        return tuple(self.below(loop) for _ in range(item.unit.uses * item.layers))

    def below(self, loop: Loop) -> Foot:
        """The next stitch of the round below, or the next chain of the foundation."""
        if self.far is not None:
            self.far += 1
            return Foot(Into.FAR_SIDE, self.far, loop)
        self.at += 1
        chain = self.worked.base is Base.CHAIN and self.founded
        return Foot(Into.CHAIN if chain else Into.STITCH, self.at, loop)

    def pair(self, loop: Loop) -> tuple[Foot, ...]:
        """Both layers of a piece folded flat: the first stitch lies on the last."""
        self.pairs += 1
        self.at += 2
        there = self.there or 0
        return (
            Foot(Into.STITCH, self.pairs, loop),
            Foot(Into.STITCH, there + 1 - self.pairs, loop),
        )

    def on_place(self, item: Stitches, onto: Onto, loop: Loop) -> tuple[Foot, ...]:
        found: list[Foot] = []
        for _ in range(item.unit.uses):
            self.taken[onto] += 1
            if onto.spot is Spot.CHAIN:
                found.append(Foot(Into.FAR_SIDE, self.taken[onto], loop))
                continue
            found.append(Foot(Into.PLACE, self.taken[onto], loop, onto))
            if onto.both:
                found.append(self.below(loop))
        return tuple(found)

    def closes(self, item: Stitches, after: Sequence[Item]) -> bool:
        if item.unit.makes != _SLIP or item.times != 1 or self.there is None or item.onto:
            return False
        last = all(isinstance(i, JoinRound | Turn | Chain) for i in after)
        return last and self.at > 0 and self.at >= self.there

    # ---- repeats ----

    def repeat(self, item: Repeat, after: Sequence[Item]) -> Iterator[Laid]:
        times = item.times
        if isinstance(times, int):
            for _ in range(times):
                yield from self.once(item)
            return
        if not _uses(item.body):
            yield from self.once(item)
            return
        while True:
            before = self.at, self.far, self.left, sum(self.taken.values())
            room = self.space(after, times, item)
            if room <= 0:
                return
            yield from self.once(item)
            if before == (self.at, self.far, self.left, sum(self.taken.values())):
                return

    def once(self, item: Repeat) -> Iterator[Laid]:
        outside, self.start = self.start, self.at
        yield from self.items(item.body, top=False)
        self.start = outside

    def space(self, after: Sequence[Item], times: Fill, item: Repeat) -> int:
        """How often a group still goes into what there is."""
        each = _uses(item.body)
        place = next((i.onto for i in item.body if isinstance(i, Stitches)), None)
        return self.times(times, max(1, each), place if place and not place.both else None, after)

    def times(self, times: int | Fill, uses: int, onto: Onto | None, after: Sequence[Item]) -> int:
        if isinstance(times, int):
            return times
        if onto is not None and not onto.both:
            there = (
                self.chained if onto.spot is Spot.CHAIN and self.chained else self.room.get(onto)
            )
            return max(0, (there or 0) - self.taken[onto] - times.before) // max(1, uses)
        kept = times.before or sum(
            i.unit.uses for i in after if isinstance(i, Stitches) and i.where is Where.LAST
        )
        if self.far is not None:
            room = max(0, (self.there or 0) - 1) - self.far
        else:
            room = (self.there or 0) - self.at
        return max(0, room - kept) // uses if uses > 0 else 1


def _uses(body: Sequence[Item]) -> int:
    """Stitches that a group uses and leaves, once."""
    total = 0
    for item in body:
        if isinstance(item, Leave):
            total += item.count
        elif isinstance(item, Repeat) and isinstance(item.times, int):
            total += item.times * _uses(item.body)
        elif isinstance(item, Stitches) and item.where not in (Where.RING, Where.SAME):
            total += (
                item.unit.uses * item.layers * (item.times if isinstance(item.times, int) else 1)
            )
    return total
