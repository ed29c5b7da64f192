"""A second opinion on whole pieces: each round worked by `Hand`, in the reading and with the way to
count chains with which nothing is left over and what is stated is made."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import product

from fabric.hand import Edge, Hand, Ran, Stitch, Worked, every
from roundproof.notation.tree import (
    Act,
    Action,
    Chain,
    Colour,
    Entry,
    Fill,
    Instruction,
    Loop,
    Onto,
    Repeat,
    Round,
    Script,
    Spot,
    Stitches,
    Where,
)


class ByHand:
    """A whole piece, round by round."""

    def __init__(
        self,
        script: Script,
        yarn: str | None = None,
        chain_counts: bool | None = None,
        start: int | None = None,
        edge: Edge = lambda onto: None,
    ) -> None:
        self.script = script
        self.yarn = yarn
        self.chain_counts = chain_counts
        self.below = None if start is None else [Stitch("edge", None) for _ in range(start)]
        self.edge = edge
        self.rounds: list[Worked] = []
        self.by_number: dict[int, list[Stitch]] = {}
        self.unworked: dict[int, list[Stitch]] = {}

    def whole(self) -> list[Worked | None]:
        """Each line of work in order; None from where one cannot be worked on."""
        found: list[Worked | None] = []
        ended = False
        for entry, first in self.entries():
            if isinstance(entry, Action):
                if entry.act in (Act.CHANGE_YARN, Act.JOIN_YARN):
                    self.yarn = entry.yarn or entry.name
                ended |= entry.act in (Act.FASTEN_OFF, Act.JOIN_YARN)
            elif isinstance(entry, Round):
                if found and (ended or entry.label.first == 1) and _anew(entry):
                    self.below = None
                ended = False
                worked = self.line(entry, first) if entry.readings else None
                found.append(worked)
                if worked is None or worked.faults:
                    return found
        return found

    def entries(self) -> Iterator[tuple[Entry, int]]:
        """The entries, rounds that are worked again written out, with the number of the first."""
        seen: list[Entry] = []
        for entry in self.script.entries:
            if not isinstance(entry, Round) or entry.repeats is None:
                seen.append(entry)
                yield entry, entry.label.first if isinstance(entry, Round) else 0
                continue
            again = entry.repeats
            inside = [
                i for i, e in enumerate(seen)
                if isinstance(e, Round) and again.first <= e.label.first <= again.last
            ]  # fmt: skip
            if not inside:
                yield entry, entry.label.first
                return
            first = inside[0]
            while first and isinstance(seen[first - 1], Action):
                first -= 1
            block, number = seen[first : inside[-1] + 1], entry.label.first
            while number <= entry.label.last:
                for each in block:
                    if isinstance(each, Round) and number > entry.label.last:
                        break
                    # the count is that of the rounds worked again, not of those written
                    told = entry.stated if len(block) == 1 else None
                    yield replace(each, stated=told) if isinstance(each, Round) else each, number
                    number += each.label.rounds if isinstance(each, Round) else 0

    def line(self, round_: Round, number: int) -> Worked | None:
        """One line; of a range every round, and the last one told."""
        worked: Worked | None = None
        first: Worked | None = None
        for each in range(number, number + round_.label.rounds):
            worked = self.round(round_, each)
            if worked is None:
                return None
            first = first or worked
        if worked is not None and first is not None:
            worked.available = first.available
        return worked

    def round(self, round_: Round, number: int) -> Worked | None:
        tried: list[tuple[int, int, Worked]] = []
        stated = round_.stated.count if round_.stated else None
        ways = [*round_.readings, *(_over_and_over(r) for r in round_.readings if stated)]
        for order, (reading, below) in enumerate(product(ways, self.belows(round_))):
            for counting in self.countings(reading):
                hand = Hand(reading, below, self.yarn, counting, self.edge_of)
                try:
                    worked = hand.whole(str(round_.label))
                except Ran:
                    continue
                plain = len([s for s in worked.made if s.kind != "ch"])
                wrong = stated is not None and stated not in (len(worked.made), plain)
                if stated == plain != len(worked.made):
                    worked.made = [s for s in worked.made if s.kind != "ch"]
                worked.faults += wrong
                tried.append((worked.faults, order, worked))
        if not tried:
            return None
        _, _, best = min(tried, key=lambda each: each[:2])
        self.commit(best, number, reading_into=round_)
        self.rounds.append(best)
        return best

    def countings(self, reading: Instruction) -> tuple[bool, ...]:
        """Whether the chain that lifts the round is a stitch, the likelier way first."""
        items = [i for i in reading.items if not isinstance(i, Colour)]
        chain = items[0] if items and isinstance(items[0], Chain) else None
        if chain is None:
            return (False,)
        if self.chain_counts is not None:
            return (True, False) if self.chain_counts and chain.count == 1 else (self.chain_counts,)
        return (
            (True, False) if chain.count >= 3 else (False, True) if chain.count == 2 else (False,)
        )

    def belows(self, round_: Round) -> list[list[Stitch] | None]:
        """What a round may go into: all stitches, those that are no chains, or runs of chains as
        one space each."""
        into = next((r.into for r in round_.readings if r.into), None)
        if into is not None:
            row = self.by_number.get(into.round, [])
            free = "front" if into.loop is Loop.FRONT else "back"
            kept = self.unworked.get(into.round, [])
            return [[s for s in row if getattr(s, free) and s not in kept]]
        if all(_elsewhere(r) for r in round_.readings):
            return [[]]
        if self.below is None:
            stated = round_.stated.count if round_.stated else 0
            guesses = [[Stitch("edge", None) for _ in range(n)] for n in range(1, stated + 1)]
            return [None, *guesses]
        plain = [s for s in self.below if s.kind != "ch"]
        spaces: list[Stitch] = []
        for stitch in self.below:
            if stitch.kind != "ch" or not spaces or spaces[-1].space != stitch.space:
                spaces.append(stitch)
        return [self.below, plain, spaces]

    def edge_of(self, onto: Onto) -> int | None:
        if onto.spot is Spot.UNWORKED and not onto.piece:
            if not self.unworked and not onto.round:
                return None  # they may have been passed over: 'miss 6'
            number = onto.round or max(self.unworked, default=0)
            return len(self.unworked.get(number, ()))
        if onto.spot is Spot.CHAIN:
            return sum(s.kind == "ch" for s in self.below or ())
        return self.edge(onto)

    def commit(self, worked: Worked, number: int, reading_into: Round) -> None:
        for stitch, loop in worked.taken:
            if loop in (Loop.FRONT, Loop.BOTH):
                stitch.front = False
            if loop in (Loop.BACK, Loop.BOTH):
                stitch.back = False
        for onto, count in worked.onto.items():
            if onto.spot is Spot.UNWORKED and not onto.piece:
                at = onto.round or max(self.unworked, default=0)
                self.unworked[at] = self.unworked.get(at, [])[count:]
        if worked.stayed:
            self.unworked[number] = worked.stayed
        self.yarn = worked.yarn
        self.below = worked.made
        self.by_number[number] = worked.made

    def free(self) -> dict[tuple[int, str], int]:
        """Loops that are free where the other of the stitch is taken, by round and loop."""
        found: dict[tuple[int, str], int] = {}
        for number, row in self.by_number.items():
            for loop, other in (("front", "back"), ("back", "front")):
                count = sum(getattr(s, loop) and not getattr(s, other) for s in row)
                if count:
                    found[number, loop] = count
        return found


def _anew(round_: Round) -> bool:
    """Whether a round begins a new start: a ring."""
    return any(s.where is Where.RING for r in round_.readings for s in every(r.items))


def _elsewhere(reading: Instruction) -> bool:
    """Whether nothing of a round goes into the round below."""
    places = [s.onto for s in every(reading.items) if s.unit.makes]
    away = [onto for onto in places if onto is None or onto.spot is not Spot.CHAIN]
    return bool(away) and all(onto is not None and not onto.both for onto in away)


def _over_and_over(work: Instruction) -> Instruction:
    """'2 sc, inc (24)' and '2 sc, inc around (24)', each said once for the whole round."""
    *before, last = work.items
    if isinstance(last, Stitches) and last.times == Fill() and last.unit.word and before:
        last = Stitches(last.unit, 1, last.span, last.loop, last.where)
    plain = (*before, last)
    once = all(
        isinstance(i, Stitches) and i.where is Where.NEXT and isinstance(i.times, int)
        for i in plain
    )
    again = Repeat(plain, Fill(), work.items[0].span)
    return Instruction((again,), work.loop, work.into) if once else work
