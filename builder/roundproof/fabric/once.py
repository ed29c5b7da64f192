"""One round worked once: what its instruction uses and makes, given what there is to work into.

Repeats are counted, not unrolled: a round of ten million stitches costs no more than one of ten.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from roundproof.fabric.lifting import lifts, skips_a_stitch
from roundproof.fabric.model import Stretch, Uneven
from roundproof.fabric.outcome import MOST_STRETCHES, Outcome
from roundproof.notation.tree import (
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
    Times,
    Turn,
    Unit,
    Where,
)
from roundproof.reference import stitches
from roundproof.source import Span

_SLIP = (("sl st", 1),)


Places = Callable[[Onto], int | None]
"""How many stitches there are at a place of its own; None where that is not known."""


def nowhere(_: Onto) -> int | None:
    """No place is known."""
    return None


def worked(
    instruction: Instruction,
    available: int | None,
    yarn: str | None,
    chain_counts: bool,
    places: Places = nowhere,
) -> Outcome:
    """Work an instruction into `available` stitches (None: not known), starting in `yarn`."""
    return _Pass(instruction, Outcome(available, yarn=yarn), chain_counts, places).whole()


class _Pass:
    def __init__(
        self, instruction: Instruction, out: Outcome, chain_counts: bool, places: Places
    ) -> None:
        self.places = places
        self.items = instruction.items
        self.loop = instruction.loop
        self.out = out
        self.chain_counts = chain_counts
        self.spur = 0
        """Chains just made within the round, from which the work may go back."""
        self.down = 0
        """Of these, how many are still to be worked into."""
        self.lifted = False
        """The chain that lifts the round was a stitch."""
        self.within = False
        """Inside a repeat, where nothing is the end of the round."""
        self.known: dict[tuple[int, str | None], Outcome] = {}
        """What groups come to, by the group and the yarn they start in."""

    def whole(self) -> Outcome:
        items = self.foundation(self.items)
        for index, item in enumerate(items):
            self.item(item, items[index + 1 :], all(isinstance(i, Colour) for i in items[:index]))
            if self.out.over and self.out.over_at is None:
                self.out.over_at = item.span
        return self.out

    def foundation(self, items: Sequence[Item]) -> Sequence[Item]:
        """A chain to begin with, and how many of its chains can be worked into."""
        out = self.out
        first = next((i for i in items if isinstance(i, Stitches)), None)
        skipped = first.nth - 1 if first is not None and first.where is Where.HOOK else 0
        if out.available is not None:  # the chain was a round of its own
            out.available = max(0, out.available - skipped)
            return items
        while items and isinstance(items[0], Colour):
            out.yarn, items = items[0].yarn, items[1:]
        if not items or not isinstance(items[0], Chain):
            return items
        if lifts(items):
            return items
        chain, rest = items[0], items[1:]
        out.foundation = chain.count
        self.count("ch", chain.count)
        ring = bool(rest) and isinstance(rest[0], JoinRound)
        rest = rest[1:] if ring else rest
        if not rest:  # nothing is worked into it yet
            out.available = 0
            self.make(chain.count)
            return rest
        if first is not None and first.where is Where.FIRST:
            skipped = chain.count - 1
        out.available = chain.count if ring else max(0, chain.count - skipped)
        if self.chain_counts and first is not None and skips_a_stitch(first):
            self.lifted = True
            self.make(1)  # 'ch 26, dc in 4th ch from hook': the three that are skipped are one
        if first is not None and first.where is Where.NEXT and not ring and first.unit.makes:
            kind = stitches().get(first.unit.makes[0][0])
            out.implied = kind.turning if kind else 0
        return rest

    def item(self, item: Item, after: Sequence[Item], first: bool) -> None:
        if isinstance(item, Stitches):
            self.stitches(item, after)
        elif isinstance(item, Repeat):
            self.repeat(item, after)
        elif isinstance(item, Colour):
            self.out.yarn = item.yarn
        elif isinstance(item, Leave):
            self.out.left += item.count
        elif isinstance(item, FarSide):
            self.out.far_used = 0
        elif isinstance(item, Chain):
            self.chain(item, after, first)

    def chain(self, item: Chain, after: Sequence[Item], first: bool) -> None:
        """A chain that lifts the work to its next round makes no stitch unless the piece says so;
        a chain in the middle of a round makes stitches of its own."""
        self.count("ch", item.count)
        lifting = first or all(isinstance(i, Turn | JoinRound) for i in after)
        lifting = lifting and not self.within
        counts = self.chain_counts if item.counts is None else item.counts
        if lifting and not (first and counts):
            return
        if lifting:
            self.lifted = True
            after_ring = any(isinstance(i, Stitches) and i.where is Where.RING for i in after[:1])
            self.use(0 if after_ring else 1)
            self.make(1)
            return
        self.spur = item.count
        self.make(item.count)
        self.out.chains += item.count
        self.out.spaces += 1

    # ---- stitches ----

    def stitches(self, item: Stitches, after: Sequence[Item]) -> None:
        uses = self.uses(item)
        if item.where is Where.RING:
            self.out.ring = True
            self.out.available = 0
        if self.closes(item, after):
            self.count("sl st", 1)
            return
        if item.onto is not None:
            self.onto(item, item.onto)
            return
        times = self.times(item.times, uses, after, item.span)
        used = max(0, uses * times - self.on_spur(item, uses * times))
        self.use(used)
        if used:
            self.out.loops[item.loop or self.loop or Loop.BOTH] += used
        self.out.folded |= item.layers > 1
        self.unit(item.unit, times)

    def onto(self, item: Stitches, onto: Onto) -> None:
        """Stitches that go to a place of their own."""
        uses = item.unit.uses
        times = item.times
        if not isinstance(times, int):
            times = self.fill(onto, uses, times, item.span)
        self.take(onto, uses * times)
        if onto.both:
            self.use(uses * times)
        self.unit(item.unit, times)

    def fill(self, onto: Onto, uses: int, times: Fill, span: Span) -> int:
        """How often fills a place."""
        there = self.there(onto)
        if there is None:
            self.out.unknown = True
            return 1
        room = max(0, there - self.out.onto[onto] - times.before)
        if uses and room % uses and self.out.uneven is None:
            self.out.uneven = Uneven(uses, room, room % uses, span)
        return room // uses if uses else 1

    def there(self, onto: Onto) -> int | None:
        """How many stitches a place has; chains made in this round come before those below."""
        if onto.spot is Spot.CHAIN and self.out.chains:
            return self.out.chains
        return self.places(onto)

    def take(self, onto: Onto, count: int) -> None:
        """Use stitches of a place. Those of an edge are among what there is for the round."""
        out = self.out
        out.onto[onto] += count
        if self.within:
            return
        there = self.there(onto)
        taken = count if there is None else min(count, there - out.onto[onto] + count)
        out.short += count - max(0, taken)
        if onto.both or onto.spot is Spot.CHAIN:
            return
        if out.available is None and not out.used:
            out.available = 0
        if out.available is not None:
            out.available += max(0, taken)
            out.used += max(0, taken)

    def on_spur(self, item: Stitches, uses: int) -> int:
        """How many of some stitches go into a chain made within the round, back down it: 'ch 13,
        sl st in 2nd ch from hook, 11 sc'."""
        if item.where is Where.HOOK:
            self.down, self.spur = max(0, self.spur - item.nth), 0
            return uses if self.out.foundation == 0 or self.out.used else 0
        self.spur = 0
        on = min(self.down, uses)
        self.down -= on
        return on

    def uses(self, item: Stitches) -> int:
        if item.where is Where.RING:
            return 0
        if item.where is Where.SAME and (self.out.used or self.lifted):
            return 0  # 'ch 1, sc in same st' is the first stitch where the chain is none
        if item.where is Where.FIRST and self.out.used:
            return 0
        return item.unit.uses * item.layers

    def closes(self, item: Stitches, after: Sequence[Item]) -> bool:
        """A trailing slip stitch with nothing left for it closes the round."""
        out = self.out
        if item.unit.makes != _SLIP or item.times != 1 or out.available is None:
            return False
        last = all(isinstance(i, JoinRound | Turn | Chain) for i in after)
        return last and not self.within and out.used > 0 and out.used + out.left >= out.available

    def unit(self, unit: Unit, times: int) -> None:
        for kind, count in unit.makes:
            self.count(kind, count * times)
        self.make(unit.made * times)
        chains = [n for kind, n in unit.makes if kind == "ch"]
        self.out.chains += sum(chains) * times
        self.out.spaces += len(chains) * times

    def use(self, count: int) -> None:
        if self.out.far_used is None:
            self.out.used += count
        else:
            self.out.far_used += count

    def count(self, kind: str, count: int) -> None:
        if count:
            self.out.tally[kind, self.out.yarn] += count

    def make(self, count: int) -> None:
        out = self.out
        out.made += count
        if not count:
            return
        last = out.stretches[-1] if out.stretches else None
        if last and (last.yarn == out.yarn or len(out.stretches) >= MOST_STRETCHES):
            out.stretches[-1] = Stretch(last.yarn, last.made + count)
        else:
            out.stretches.append(Stretch(out.yarn, count))

    # ---- repeats ----

    def repeat(self, item: Repeat, after: Sequence[Item]) -> None:
        """Work the group once or twice and count the rest: from the second time on, every time is
        the same (the first may start in another yarn)."""
        if any(isinstance(i, FarSide) for i in item.body):
            for inner in item.body:
                self.item(inner, (), first=False)
            return
        each = self.one_time(item, self.out.yarn)
        uses = each.used + each.left
        if not isinstance(item.times, int) and not uses and len(each.onto) == 1:
            ((onto, uses),) = each.onto.items()
            times = self.fill(onto, uses, item.times, item.span)
        else:
            times = self.times(item.times, uses, after, item.span)
        if times > 0:
            self.add(each, 1)
            self.add(self.one_time(item, each.yarn), times - 1)

    def one_time(self, item: Repeat, yarn: str | None) -> Outcome:
        """What a group comes to, started in a yarn. Worked out once for each yarn: within groups
        within groups the work would double with every bracket."""
        key = id(item), yarn
        if key not in self.known:
            empty, out = Instruction(()), Outcome(None, yarn=yarn)
            inner = _Pass(empty, out, self.chain_counts, self.places)
            inner.loop, inner.known, inner.within = self.loop, self.known, True
            for index, part in enumerate(item.body):
                inner.item(part, item.body[index + 1 :], first=False)
            self.known[key] = inner.out
        return self.known[key]

    def add(self, out: Outcome, times: int) -> None:
        """Add what a group came to, so many times."""
        if times <= 0:
            return
        mine = self.out
        self.use(out.used * times)
        for onto, count in out.onto.items():
            self.take(onto, count * times)
        mine.left += out.left * times
        mine.chains += out.chains * times
        mine.spaces += out.spaces * times
        mine.folded |= out.folded
        if out.ring:
            mine.ring, mine.available = True, 0
        mine.unknown |= out.unknown
        for key, count in out.tally.items():
            mine.tally[key] += count * times
        for loop, count in out.loops.items():
            mine.loops[loop] += count * times
        shown = min(times, MOST_STRETCHES) if len(out.stretches) > 1 else 1
        made = mine.made
        for _ in range(shown):
            for stretch in out.stretches:
                mine.yarn = stretch.yarn
                self.make(stretch.made if len(out.stretches) > 1 else stretch.made * times)
        mine.yarn = out.yarn
        self.make(made + out.made * times - mine.made)

    def times(self, times: Times, uses: int, after: Sequence[Item], span: Span) -> int:
        """How often: as said, or as often as fills what there is but for what is kept back."""
        if isinstance(times, int):
            return times
        if self.out.available is None:
            self.out.unknown = True
            return 1
        far = self.out.far_used
        used = self.out.used + self.out.left if far is None else far
        there = self.out.available if far is None else self.out.far_available
        kept = times.before or sum(
            i.unit.uses for i in after if isinstance(i, Stitches) and i.where is Where.LAST
        )
        room = max(0, there - used - kept)
        if uses <= 0:
            return 1
        if room % uses and self.out.uneven is None:
            self.out.uneven = Uneven(uses, room, room % uses, span)
        return room // uses


def fills(items: Sequence[Item]) -> bool:
    """Whether anything in these items fills what there is."""
    return any(
        isinstance(getattr(i, "times", None), Fill) or (isinstance(i, Repeat) and fills(i.body))
        for i in items
    )
