"""What follows a stitch: 'in each of next 3 sts', 'around', 'in BLO'."""

from __future__ import annotations

from collections.abc import Callable

from roundproof.notation.cursor import LOOPS, Cursor
from roundproof.notation.tree import (
    Colour,
    Fill,
    Item,
    JoinRound,
    Onto,
    Repeat,
    Spot,
    Stitches,
    Times,
    Unit,
    Where,
)
from roundproof.notation.units import SINGLE, in_ring, joined, named, spread_from_hook
from roundproof.reference import stitches
from roundproof.source import Span

_SLIP = (("sl st", 1),)
_OWN_CHAIN = Onto(Spot.CHAIN)


class Tail:
    """What follows a stitch: where it goes, how far, through which loop, in which yarn."""

    times: Times | None = None
    where = Where.NEXT
    nth = 0
    layers = 1
    onto: Onto | None = None
    group = 0
    every = 0
    nth_st = 0
    joins = False
    goes_on = False
    """'3 sc in 2nd ch from hook and in next 3 chs': three in each."""
    spread = False
    """'20 sc from 2nd ch': the first goes there, the rest on."""
    yarn: Colour | None = None

    def __init__(self, at: Cursor, unit: Unit, count: int | None) -> None:
        self.c = at
        self.unit = unit
        self.count = count
        self.loop = at.loop() if at.seq[at.at] in _STEPS else None

    def read(self) -> None:
        """Take all of it."""
        while self._more():
            pass
        if self.group and self.unit.uses != self.group:
            raise self.c.fail("`together` behind the stitches that are closed as one")

    def items(self, start: int) -> list[Item]:
        self.read()
        if self.unit.makes == _SLIP and (self.joins or self.where is Where.FIRST):
            return [JoinRound(self.c.span(start))]
        found: list[Item] = [self.yarn] if self.yarn else []
        found += self._items(start)
        goes_on = self.c.part(self.c.part() == "and")
        if self.where is not Where.NEXT and goes_on in ("in", "each", "next", "around"):
            # 'sc in 2nd ch from hook and in each ch across': the same stitch goes on
            self.c.match("and")
            further = Tail(self.c, self.unit, self.count)
            further.goes_on = True
            found += further.items(self.c.at)
        return found

    def _items(self, start: int) -> list[Item]:
        span = self.c.span(start)
        if self.every > 1:
            return [self._every(span)]
        if self.nth_st > 1 and self.nth_st - 1 == self.c.used:  # 'sc in first st, inc in 2nd'
            return [Stitches(self._several(), 1, span, self.loop)]
        if self.nth_st > 1:
            return [*self._up_to(self.nth_st, span), Stitches(self._several(), 1, span, self.loop)]
        if self.layers > 1 and self.times is None and self.count is None:
            self.times = Fill()
        return self._item(span)

    def _item(self, span: Span) -> list[Item]:
        unit, times = self.unit, self.times
        if self.onto and self.count is None and times is None:
            times = Fill()  # 'sc around first leg'
        if times is None and (self.where in (Where.NEXT, Where.RING) or unit.uses != 1):
            times = 1 if self.count is None else self.count
        elif times is None:  # several in one place: the last stitch, the nth chain
            unit, times = self._several(), 1
        elif self.count is not None and self.count > 1 and unit.uses == 1:
            unit = self._several()
        if self.where is Where.RING:
            unit, times = in_ring(unit, times)
        if self.spread and isinstance(times, int):
            return spread_from_hook(Stitches(self.unit, self.count or 1, span), self.nth, span)
        if unit.skips and self.where is Where.FIRST:
            self.where = Where.NEXT  # 'skip first st'
        loop = self.loop if unit.makes and self.where is not Where.RING else None
        return [Stitches(unit, times, span, loop, self.where, self.nth, self.layers, self.onto)]

    def _every(self, span: Span) -> Item:
        """'2 sc in every 3rd st': plain stitches up to it, then the unit, all around."""
        last = Stitches(self._several(), 1, span, self.loop)
        body = tuple(joined([*self._up_to(self.every, span), last]))
        return Repeat(body, self.times or Fill(), span)

    def _up_to(self, nth: int, span: Span) -> list[Item]:
        """Plain stitches before the one that goes into the nth."""
        kind = self.unit.makes[0][0] if self.unit.makes else SINGLE
        plain = nth - self.unit.uses
        return [Stitches(Unit(((kind, 1),)), plain, span, self.loop)] if plain > 0 else []

    def _several(self) -> Unit:
        """`count` of the stitch in one place: '2 sc' in a stitch is an increase."""
        if self.count in (None, 1):
            return self.unit
        return named([(kind, n * (self.count or 1)) for kind, n in self.unit.makes], self.unit.uses)

    def _more(self) -> bool:
        """Take one more part of the tail, if there is one."""
        step = _STEPS.get(self.c.seq[self.c.at])
        return step is not None and step(self)

    def _reach(self) -> bool:
        if self.c.part() == "around" and self._round_a_post():
            return True
        fill = self.c.reach()
        if fill is None:
            return self._place()
        self._reaches(fill)
        return True

    def _ring(self) -> bool:
        self.c.at += 1
        self.where, self.nth = Where.RING, 0
        return True

    def _top(self) -> bool:
        self.c.at += 1
        self.c.match("st")
        return True

    def _twice(self) -> bool:
        """'sc twice in next st'."""
        if self.c.part(1) != "in":
            return False
        self.c.at += 1
        self.count = 2 * (self.count or 1)
        return True

    def _round(self) -> bool:
        """'sc round': all around."""
        if self.c.part(1) in ("num", "in"):
            return False
        self.c.at += 1
        self._reaches(Fill())
        return True

    def _together(self) -> bool:
        if not self.unit.makes:
            return False
        self.c.at += 1
        uses = self.group or max(1, self.count or 2)
        self.unit, self.count = named(((self.unit.makes[0][0], 1),), uses), None
        return True

    def _layers(self) -> bool:
        self.c.at += 1
        self.layers = 2
        return True

    def _again(self) -> bool:
        """'2 sc in next st x 6'."""
        again = self.c.number(("times", "num")) if self.times == 1 else None
        self.times = self.times if again is None else again
        return again is not None

    def _loop_or_yarn(self) -> bool:
        if self.c.free_loops_follow():
            return False
        loop = self.c.loop()
        if loop:
            self.loop = loop
            return True
        yarn = self.c.yarn()
        if yarn is not None:
            self.yarn = yarn
            return True
        return self._place()

    def _gloss(self) -> bool:
        """'crab stitch (reverse sc)': the same stitch by another name."""
        kinds = [token.value for token in self.c.tokens[self.c.at + 1 : self.c.at + 2]]
        if not self.c.looks("(", "stitch", ")") or kinds != [self.unit.makes[0][0]]:
            return False
        self.c.at += 3
        return True

    def _onto(self) -> bool:
        """'around first leg', 'in the 6 sts left unworked in R8'."""
        token = self.c.take()
        self.onto = token.onto
        if token.number and self.times is None:
            self.times = token.number
            if self.count == token.number:
                self.count = None  # '6 sc in the 6 unworked sts' is six
        return True

    def _on(self) -> bool:
        """'3 sc along ch': on the chains made in this round, or on those below."""
        if self.c.part(1) == "far side":
            return self._other_side()
        if self.c.value(1) != "ch" or self.c.part(2) == "hook":
            return False
        self.c.at += 1
        self.c.place_word()
        if self.count is None and self.times is None:
            self.times = Fill()
        self.onto = _OWN_CHAIN if self.c.on_own_chain else self.onto
        return True

    def _other_side(self) -> bool:
        """'3 sc in the other side of the ch', where the round did not begin on a chain."""
        c = self.c
        begun = c.tokens[0].value == "ch" or any(
            isinstance(i, Stitches) and i.where is Where.HOOK for i in c.before
        )
        there = c.part() in ("in", "on") and c.part(1) == "far side"
        there = there and ("ch" in c.tokens[c.at + 1].span.text.lower() or c.value(2) == "ch")
        if begun or not there:
            return False
        c.at += 2
        c.skip("each", "num") if c.value() != "ch" else None
        if self.count is None and self.times is None:
            self.times = Fill()
        while c.chain_word():
            pass
        self.onto = _OWN_CHAIN
        return True

    def _join(self) -> bool:
        if self.unit.makes != _SLIP:
            return False
        self.c.at += 1
        self.joins = True
        return True

    def _round_a_post(self) -> bool:
        """'FPdc around next st', 'spike sc into the round below'."""
        kind = stitches().get(self.unit.makes[0][0]) if self.unit.makes else None
        if kind is None or not kind.into.endswith("post"):
            return False
        if self.c.part(1) not in ("next", "each", "st", "first", "last", "num", "stitch", "same"):
            return False
        self.c.at += 1
        return self._into()

    def _reaches(self, fill: Fill) -> None:
        """'sc around'; but '18 sc around' is 18, and 'sc 2, inc 1 around' fills with both."""
        plainly = self.times is None and self.where is Where.NEXT and not self.every
        if self.count is not None and plainly:
            self.c.filled = fill
        else:
            self.times = fill

    def _place(self) -> bool:
        c = self.c
        if c.part() == "from" and (c.part(1) == "ord" or c.looks("from", "in", "ord")):
            c.skip("from", "in")
            self.spread = True
            return self._into()
        if c.looks("in", "free") or (self.where is not Where.NEXT and c.part() == "in"):
            return False
        if self.where is not Where.NEXT and c.part() == "each":
            return False
        if isinstance(self.times, int) and c.part() in ("in", "each"):
            return False  # it has its place
        if c.part() == "each":
            return self._into()
        if self._other_side():
            return True
        if c.looks("to", "first") or c.looks("to", "top"):
            c.skip("to", "top")
            return self._into()
        if c.part() in ("next", "remain", "first") and c.part(1) in ("num", "st"):
            return self._into()
        if not c.match("in"):
            return False
        if self._into():
            return True
        raise c.fail("where the stitch goes, like `in next st` or `in each st around`")

    def _into(self) -> bool:
        c = self.c
        if c.match("ring"):
            self.where = Where.RING
            return True
        if c.part() == "ord" and c.value(1) == "ch":
            nth, hook = c.take().number, c.part(1) == "hook"
            c.at += 1 + hook
            self.where, self.nth = (Where.HOOK, nth) if nth > 1 or hook else (Where.FIRST, 0)
            c.back_down = self.where is Where.HOOK
            return True
        if c.part() == "ord":
            self.nth_st = c.take().number
            c.place_word()
            return True
        if c.match("top"):  # 'sl st in top of ch 3'
            self.where = Where.FIRST
            c.skip("first", "stitch", "st", "num", "-")
            return True
        if c.part() in ("first", "last", "same") and c.part(1) != "num":
            self.where = Where(c.take().part)
            c.place_word()
            if c.match("as"):  # 'in the same st as the first dc'
                c.skip("first", "last", "stitch", "inc", "st", "ch", "join")
            return True
        return self._how_many()

    def _how_many(self) -> bool:
        """'in each st around', 'in every 3rd st', 'in next 3 sts', 'in next st'."""
        c = self.c
        each = c.match("each")
        if c.match("alternate"):
            self.every = 2
            c.place_word()
            return True
        if each and c.part() == "ord":
            self.every = c.take().number
            c.place_word()
            return True
        c.skip("first", "last")
        remaining = c.match("remain")
        following = c.match("next")
        if c.part() == "num":
            number = c.take().number
            self.times = number if self._grouped() else self._over(number)
            c.place_word()
            if c.on_own_chain:
                self.onto = _OWN_CHAIN
            if not each and self.count == self.times and not self.goes_on:
                self.count = None  # '3 sc in next 3 sts' is three, not nine
            return True
        named_place = self._grouped()
        if self.count and not each and not following and c.chain_word():
            self.times, self.count = self.count, None  # '6 sc in the chain'
            self.onto = _OWN_CHAIN if c.on_own_chain else None
            return True
        named_place |= c.place_word()
        if c.on_own_chain:
            self.onto = _OWN_CHAIN
        if each or remaining:
            while c.part() == "and" and c.part(1 + (c.part(1) == "in")) == "each":
                c.skip("and", "in", "each")  # 'in each st and in each ch around'
                c.place_word()
            self.times = c.reach() or Fill()
        elif following or named_place:
            self.times = 1
        return each or remaining or following or named_place

    def _grouped(self) -> bool:
        """'pairs of stitches', 'groups of 3 stitches': closed as one."""
        self.group = 2 if self.c.match("pair") else self.c.number(("group", "num")) or self.group
        return bool(self.group)

    def _over(self, stitches: int) -> int:
        """How often a unit is worked over so many stitches: 'dec in next 2 sts' is one."""
        uses = self.unit.uses
        return max(1, stitches // uses) if uses > 1 else stitches


_STEPS: dict[str, Callable[[Tail], bool]] = {
    **dict.fromkeys(("around", "to"), Tail._reach),
    "ring": Tail._ring,
    "top": Tail._top,
    "twice": Tail._twice,
    "round": Tail._round,
    "together": Tail._together,
    "layers": Tail._layers,
    "times": Tail._again,
    **dict.fromkeys((*LOOPS, "in", "with", "hue", "colour"), Tail._loop_or_yarn),
    "join": Tail._join,
    "onto": Tail._onto,
    "on": Tail._on,
    "(": Tail._gloss,
    **dict.fromkeys(("each", "next", "remain", "first", "from"), Tail._place),
}
"""What is done at each part that says more of the stitch before it; any other ends the tail."""
