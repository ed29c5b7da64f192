"""A second opinion on what rounds use and make: every stitch an object, worked one by one, in the
dullest way there is. Shares nothing with the tool but the instruction tree.

A stitch knows what it went into and which of its own loops are taken; the round below is a list
that is worked along. `Hand` works one reading of one round; `oracle` chooses among readings.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

from roundproof.notation.tree import (
    UNCOUNTED,
    Chain,
    Colour,
    FarSide,
    Fill,
    Instruction,
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

MOST = 30_000
"""Stitches of a round worked at most: this is slow on purpose."""


class Ran(Exception):
    """The stitches ran out, or the round is too long to work by hand."""


@dataclass(eq=False)
class Stitch:
    kind: str
    yarn: str | None
    into: list[tuple[Stitch, Loop]] = field(default_factory=list)
    front: bool = True
    back: bool = True
    """Whether its front and its back loop are free."""
    space: int = 0
    """The run of chains that it is part of, from 1."""


@dataclass
class Worked:
    """What came of one round."""

    label: str
    available: int
    used: int
    left: int
    made: list[Stitch]
    below: list[Stitch]
    faults: int = 0
    taken: list[tuple[Stitch, Loop]] = field(default_factory=list)
    stayed: list[Stitch] = field(default_factory=list)
    onto: dict[Onto, int] = field(default_factory=dict)
    yarn: str | None = None

    @property
    def yarns(self) -> list[str | None]:
        return [stitch.yarn for stitch in self.made]


Edge = Callable[[Onto], "int | None"]


class Hand:
    """One reading of one round, worked into a list of stitches."""

    def __init__(
        self,
        work: Instruction,
        below: Sequence[Stitch] | None,
        yarn: str | None,
        counting: bool,
        edge: Edge,
    ) -> None:
        self.work = work
        self.founded = below is None
        self.below = list(below or [])
        self.yarn = yarn
        self.counting = counting
        self.edge = edge
        self.at = 0
        self.far: int | None = None
        self.made: list[Stitch] = []
        self.left: list[Stitch] = []
        self.taken: list[tuple[Stitch, Loop]] = []
        self.last: list[Stitch] = []
        self.onto: dict[Onto, int] = {}
        self.own: list[Stitch] = []
        """Chains made within the round."""
        self.spur: list[Stitch] = []
        self.down: list[Stitch] = []
        self.spaces = 0
        self.elsewhere = 0
        self.ring = False
        self.implied = 0
        self.group = 0
        self.lifted = False
        self.unknown = False
        """Nothing says what the round goes into."""
        self.steps = 0
        self.lost = 0
        """Stitches below that a new ring leaves behind."""

    def whole(self, label: str) -> Worked:
        items = list(self.work.items)
        while items and isinstance(items[0], Colour):
            self.yarn = items[0].yarn
            items = items[1:]
        if self.founded:
            items = self.foundation(items)
        elif not isinstance(items[0], Chain) and self.below and self.below[-1].kind == "ch":
            self.below = self.below[: len(self.below) - max(0, self.hook(items) - 1)]
        if not self.founded and any(s.where is Where.RING for s in every(items)):
            self.lost = len(self.below)
        self.sequence(items, top=True)
        return self.result(label)

    # ---- what it begins on ----

    def hook(self, items: Sequence[Item]) -> int:
        first = next((i for i in items if isinstance(i, Stitches)), None)
        return first.nth if first is not None and first.where is Where.HOOK else 0

    def foundation(self, items: list[Item]) -> list[Item]:
        """A ring takes any number; a chain is a list of chains, the one at the hook last."""
        first = next((i for i in items if isinstance(i, Stitches)), None)
        if not items or not isinstance(items[0], Chain) or self.lifts(items):
            self.unknown = not any(s.where is Where.RING for s in every(items))
            return items
        chain, rest = items[0], items[1:]
        chains = [Stitch("ch", self.yarn) for _ in range(chain.count)]
        ring = bool(rest) and isinstance(rest[0], JoinRound)
        rest = rest[1:] if ring else rest
        if not rest:
            self.made += chains
            self.ring = True
            return rest
        skipped = max(0, self.hook(rest) - 1)
        if first is not None and first.where is Where.FIRST:
            skipped = chain.count - 1
        self.below = chains if ring else chains[: max(0, chain.count - skipped)]
        turning = {"sc": 1, "hdc": 2, "dc": 3, "tr": 4}
        plain = first is not None and first.where is Where.NEXT and first.unit.makes
        if plain and not ring and first is not None:
            self.implied = turning.get(first.unit.makes[0][0], 0)
        kind = first.unit.makes[0][0] if first is not None and first.unit.makes else ""
        if self.counting and skipped >= 2 and skipped == turning.get(kind):
            self.lifted = True
            self.make("ch")
        return rest

    @staticmethod
    def lifts(items: Sequence[Item]) -> bool:
        chain, after = items[0], items[1] if len(items) > 1 else None
        if not isinstance(chain, Chain) or not isinstance(after, Stitches):
            return False
        return after.where is Where.RING or (chain.count == 1 and after.where is Where.NEXT)

    # ---- items ----

    def sequence(self, items: Sequence[Item], top: bool = False) -> None:
        for index, item in enumerate(items):
            after = items[index + 1 :]
            first = top and all(isinstance(i, Colour) for i in items[:index])
            match item:
                case Stitches():
                    self.stitches(item, after, top)
                case Repeat():
                    self.repeat(item, after)
                case Colour():
                    self.yarn = item.yarn
                case Leave():
                    self.leave(item)
                case FarSide():
                    self.far = 0
                case Chain():
                    self.chain(item, after, first, top)
                case JoinRound() | Turn():
                    pass

    def leave(self, item: Leave) -> None:
        for _ in range(item.count):
            self.left.append(self.next_below())

    def chain(self, item: Chain, after: Sequence[Item], first: bool, top: bool) -> None:
        lifting = top and (first or all(isinstance(i, Turn | JoinRound) for i in after))
        back = after[0] if after else None
        lifting = lifting and not (isinstance(back, Stitches) and back.where is Where.HOOK)
        if lifting:
            counts = self.counting if item.counts is None else item.counts
            if first and counts:
                self.lifted = True
                rung = any(isinstance(i, Stitches) and i.where is Where.RING for i in after[:1])
                if not rung:
                    self.last = [self.next_below()]
                self.make("ch")
            return
        self.spaces += 1
        self.spur = [self.make("ch", self.spaces) for _ in range(item.count)]
        self.own += self.spur

    def stitches(self, item: Stitches, after: Sequence[Item], top: bool) -> None:
        if top and self.closes(item, after):
            return
        if item.where is Where.RING:
            self.ring = True
        times = item.times
        if isinstance(times, int):
            for _ in range(times):
                self.one(item)
            return
        while self.room(item.onto, times, after) >= max(1, item.unit.uses * item.layers):
            self.one(item)

    def closes(self, item: Stitches, after: Sequence[Item]) -> bool:
        """A slip stitch at the end with nothing left for it joins the round."""
        slip = item.unit.makes == (("sl st", 1),) and item.times == 1 and item.onto is None
        last = all(isinstance(i, JoinRound | Turn | Chain) for i in after)
        done = self.far is None and self.at > 0 and self.at >= len(self.below)
        return slip and last and done and not self.ring

    def one(self, item: Stitches) -> None:
        """One unit: what it goes into, and the stitches it leaves."""
        self.step()
        self.last = self.feet(item)
        loop = item.loop or self.work.loop or Loop.BOTH
        feet = [(stitch, loop) for stitch in self.last]
        passed = not item.unit.makes and loop is Loop.BOTH
        if not passed and item.where is not Where.SAME:
            self.taken += feet
        for kind, count in item.unit.makes:
            if kind == "ch":
                self.spaces += 1
            for _ in range(count):
                if kind in UNCOUNTED:
                    continue
                self.make(kind, self.spaces if kind == "ch" else 0, feet)

    def feet(self, item: Stitches) -> list[Stitch]:
        if item.where is Where.RING:
            return []
        if item.where is Where.SAME and (self.last or self.lifted):
            return self.last
        if item.where is Where.FIRST and self.at > self.group:
            return [self.below[self.group]]
        if item.onto is not None:
            return self.placed(item, item.onto)
        if item.where is Where.HOOK and (not self.founded or self.at):
            self.down = self.spur[: max(0, len(self.spur) - item.nth)]
            return []
        self.spur = []
        feet: list[Stitch] = []
        for _ in range(item.unit.uses * item.layers):
            feet.append(self.down.pop() if self.down else self.next_below())
        return feet

    def placed(self, item: Stitches, onto: Onto) -> list[Stitch]:
        feet: list[Stitch] = []
        for _ in range(item.unit.uses):
            self.onto[onto] = self.onto.get(onto, 0) + 1
            if onto.both:
                feet.append(self.next_below())
            elif onto.spot is not Spot.CHAIN:
                self.elsewhere += 1
        return feet

    def next_below(self) -> Stitch:
        self.step()
        if self.far is not None:
            self.far += 1
            if self.far > len(self.below) - 1:
                raise Ran
            return self.below[len(self.below) - 1 - self.far]
        if self.unknown and self.at >= len(self.below):
            self.below.append(Stitch("unknown", None))
        if self.at >= len(self.below):
            raise Ran
        self.at += 1
        return self.below[self.at - 1]

    def make(self, kind: str, space: int = 0, into: Sequence[tuple[Stitch, Loop]] = ()) -> Stitch:
        self.step()
        stitch = Stitch(kind, self.yarn, list(into), space=space)
        self.made.append(stitch)
        return stitch

    def step(self) -> None:
        self.steps += 1
        if self.steps > MOST:
            raise Ran

    # ---- over and over ----

    def repeat(self, item: Repeat, after: Sequence[Item]) -> None:
        times = item.times
        if any(isinstance(i, FarSide) for i in item.body):
            self.sequence(item.body)
            return
        if isinstance(times, int):
            for _ in range(times):
                self.once(item)
            return
        place = next((i.onto for i in item.body if isinstance(i, Stitches)), None)
        while self.room(place, times, after) > 0:
            before = self.at, self.far, dict(self.onto)
            self.once(item)
            if before == (self.at, self.far, self.onto):
                return

    def once(self, item: Repeat) -> None:
        outside, self.group = self.group, self.at
        self.sequence(item.body)
        self.group = outside

    def room(self, onto: Onto | None, times: Fill, after: Sequence[Item]) -> int:
        """Stitches there still are for what fills them."""
        if onto is not None and not onto.both:
            there = len(self.own) if onto.spot is Spot.CHAIN and self.own else self.edge(onto)
            if there is None:
                raise Ran
            return there - self.onto.get(onto, 0) - times.before
        kept = times.before or sum(
            i.unit.uses for i in after if isinstance(i, Stitches) and i.where is Where.LAST
        )
        if self.far is not None:
            return len(self.below) - 1 - self.far - kept
        return len(self.below) - self.at - kept

    # ---- what came of it ----

    def result(self, label: str) -> Worked:
        left_open = not self.at and {o.spot for o in self.onto} == {Spot.UNWORKED}
        spare = 0 if self.ring or left_open else len(self.below) - self.at
        far = 0 if self.far is None else len(self.below) - 2 - self.far
        faults = int(0 < spare != self.implied) + int(far > 0) + int(self.lost > 0)
        available = 0 if self.ring else len(self.below)
        for onto, count in self.onto.items():
            there = len(self.own) if onto.spot is Spot.CHAIN and self.own else self.edge(onto)
            faults += int(there is not None and count > there)
        return Worked(
            label,
            available + self.elsewhere,
            self.at - len(self.left) + self.elsewhere,
            len(self.left),
            self.made,
            self.below,
            faults,
            self.taken,
            self.left,
            self.onto,
            self.yarn,
        )


def every(items: Sequence[Item]) -> Iterator[Stitches]:
    for item in items:
        if isinstance(item, Repeat):
            yield from every(item.body)
        elif isinstance(item, Stitches):
            yield item


def by_hand(items: Sequence[Item], available: int) -> tuple[int, int, int]:
    """(used, left, made) of a round worked into `available` stitches. Raises Ran."""
    below = [Stitch("sc", None) for _ in range(available)]
    hand = Hand(Instruction((*items,)), below, None, False, lambda onto: None)
    worked = hand.whole("R1")
    return worked.used, worked.left, len(worked.made)
