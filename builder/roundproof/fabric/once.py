"""One round worked once: what its instruction uses and makes, given what there is to work into.

Repeats are counted, not unrolled: a round of ten million stitches costs no more than one of ten.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from roundproof.fabric.model import Stretch, Uneven
from roundproof.frozen import dataclass, field
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
    Repeat,
    Stitches,
    Times,
    Turn,
    Unit,
    Where,
)
from roundproof.reference import stitches
from roundproof.source import Span

MOST_STRETCHES = 300
"""Colour stretches kept of a round, for drawing; beyond that the last one takes the rest."""

_SLIP = (("sl st", 1),)


@dataclass()
class Outcome:
    """What came of working a round. `used` leaves out stitches announced as left; `filled` tells
    that some words filled what there was; `over_at` the words at which the stitches ran out."""

    available: int | None
    used: int = 0
    left: int = 0
    made: int = 0
    chains: int = 0
    """Chains among the stitches made, which count only if the next round works into them."""
    spaces: int = 0
    """Runs of chains among the stitches made, each a space that may be worked into as one."""
    foundation: int = 0
    implied: int = 0
    """Chains that a row from a foundation may skip without a word: those of the turn."""
    far_used: int | None = None
    yarn: str | None = None
    tally: Counter[tuple[str, str | None]] = field(default_factory=Counter)
    stretches: list[Stretch] = field(default_factory=list)
    loops: Counter[Loop] = field(default_factory=Counter)
    uneven: Uneven | None = None
    over_at: Span | None = None
    ring: bool = False
    folded: bool = False
    unknown: bool = False
    """Filled a round whose count is not known: what it makes cannot be told."""

    @property
    def far_available(self) -> int:
        """Chains left for the other side: all but the last one, which the end is turned in."""
        return max(0, (self.available or 0) - 1)

    @property
    def over(self) -> int:
        """Stitches needed beyond what there is."""
        if self.available is None:
            return 0
        far = (self.far_used or 0) - self.far_available
        return max(0, self.used + self.left - self.available, far)

    @property
    def spare(self) -> int:
        """Stitches not used, and not announced as left."""
        if self.available is None or self.ring:
            return 0
        near = self.available - self.used - self.left
        # the first chain may have been worked twice from above: then the far side ends before it
        far = 0 if self.far_used is None else self.far_available - 1 - self.far_used
        return 0 if 0 < near == self.implied else max(0, near, far)


def worked(
    instruction: Instruction, available: int | None, yarn: str | None, chain_counts: bool
) -> Outcome:
    """Work an instruction into `available` stitches (None: not known), starting in `yarn`."""
    return _Pass(instruction, Outcome(available, yarn=yarn), chain_counts).whole()


class _Pass:
    def __init__(self, instruction: Instruction, out: Outcome, chain_counts: bool) -> None:
        self.items = instruction.items
        self.loop = instruction.loop
        self.out = out
        self.chain_counts = chain_counts
        self.spur = 0
        """Chains just made within the round, from which the work may go back."""
        self.down = 0
        """Of these, how many are still to be worked into."""
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
        if _lifts(items):
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
        lifts = first or all(isinstance(i, Turn | JoinRound) for i in after)
        lifts = lifts and not self.within
        counts = self.chain_counts if item.counts is None else item.counts
        if lifts and not (first and counts):
            return
        if lifts:
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
        times = self.times(item.times, uses, after, item.span)
        used = max(0, uses * times - self.on_spur(item, uses * times))
        self.use(used)
        if used:
            self.out.loops[item.loop or self.loop or Loop.BOTH] += used
        self.out.folded |= item.layers > 1
        self.unit(item.unit, times)

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
        if item.where in (Where.RING, Where.SAME):
            return 0
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
        times = self.times(item.times, each.used + each.left, after, item.span)
        if times > 0:
            self.add(each, 1)
            self.add(self.one_time(item, each.yarn), times - 1)

    def one_time(self, item: Repeat, yarn: str | None) -> Outcome:
        """What a group comes to, started in a yarn. Worked out once for each yarn: within groups
        within groups the work would double with every bracket."""
        key = id(item), yarn
        if key not in self.known:
            inner = _Pass(Instruction(()), Outcome(None, yarn=yarn), self.chain_counts)
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


def _lifts(items: Sequence[Item]) -> bool:
    """Whether a chain to begin with only lifts the work: a single one, or one before a ring."""
    chain, after = items[0], items[1] if len(items) > 1 else None
    if not isinstance(after, Stitches) or not isinstance(chain, Chain):
        return False
    return after.where is Where.RING or (chain.count == 1 and after.where is Where.NEXT)


def chain_disputed(work: Instruction) -> Chain | None:
    """The chain at the start of a round that counts to some makers and not to others."""
    chain = work.items[0] if work.items else None
    disputed = isinstance(chain, Chain) and ways_to_count(work) == (False, True)
    return chain if disputed and isinstance(chain, Chain) else None


def ways_to_count(work: Instruction) -> tuple[bool, ...]:
    """Whether a chain that lifts the work counts as a stitch where nothing is said of it, the
    likelier way first: it does for double crochet and taller (three chains or more), it does not
    for single crochet, and makers differ for what lies between (standards of the trade)."""
    chain = work.items[0] if work.items else None
    if not isinstance(chain, Chain) or chain.counts is not None or chain.count < 2:
        return (False,)
    first = next((i for i in work.items[1:] if isinstance(i, Stitches | Repeat)), None)
    while isinstance(first, Repeat):
        first = first.body[0] if isinstance(first.body[0], Stitches | Repeat) else None
    kind = stitches().get(first.unit.makes[0][0]) if first and first.unit.makes else None
    if kind is None or first is None or first.where is Where.HOOK or kind.height <= 1:
        return (False,)
    return (True, False) if kind.height >= 2 and chain.count >= 3 else (False, True)


def fills(items: Sequence[Item]) -> bool:
    """Whether anything in these items fills what there is."""
    return any(
        isinstance(getattr(i, "times", None), Fill) or (isinstance(i, Repeat) and fills(i.body))
        for i in items
    )
