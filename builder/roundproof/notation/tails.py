"""What follows a stitch: 'in each of next 3 sts', 'around', 'in BLO'."""

from __future__ import annotations

from roundproof.notation.cursor import LOOPS, Cursor
from roundproof.notation.tree import (
    Colour,
    Fill,
    Item,
    JoinRound,
    Repeat,
    Stitches,
    Times,
    Unit,
    Where,
)
from roundproof.notation.units import SINGLE, in_ring, joined, named
from roundproof.reference import stitches
from roundproof.source import Span

_TAILS = frozenset(
    {"around", "to", "together", "layers", "times", "in", "with", "join", "each", "next"}
    | {"remain", "first", "ring", "from", "twice", "hue", "colour", "round", "top", *LOOPS}
)
"""Parts that say more of the stitch before them; with any other its tail has ended."""
_SLIP = (("sl st", 1),)


class Tail:
    """What follows a stitch: where it goes, how far, through which loop, in which yarn."""

    def __init__(self, at: Cursor, unit: Unit, count: int | None) -> None:
        self.c = at
        self.unit = unit
        self.count = count
        self.times: Times | None = None
        self.where = Where.NEXT
        self.nth = 0
        self.layers = 1
        self.group = 0
        self.every = 0
        self.nth_st = 0
        self.joins = False
        self.spread = False
        """'20 sc from 2nd ch': the first goes there, the rest on."""
        self.loop = at.loop()
        self.yarn: Colour | None = None

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
            found += Tail(self.c, self.unit, self.count).items(self.c.at)
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
        loop = self.loop if unit.makes and self.where is not Where.RING else None
        return [Stitches(unit, times, span, loop, self.where, self.nth, self.layers)]

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
        c = self.c
        if c.seq[c.at] not in _TAILS:
            return False
        if c.part() == "around" and self._round_a_post():
            return True
        fill = c.reach()
        if fill is not None:
            self._reaches(fill)
            return True
        if c.match("ring"):
            self.where = Where.RING
            return True
        if c.match("top"):
            c.match("st")
            return True
        if c.looks("twice", "in"):  # 'sc twice in next st'
            c.take()
            self.count = 2 * (self.count or 1)
            return True
        if c.part() == "round" and c.part(1) not in ("num", "in"):
            c.take()
            self._reaches(Fill())
            return True
        if self.unit.makes and c.match("together"):
            uses = self.group or max(1, self.count or 2)
            self.unit, self.count = named(((self.unit.makes[0][0], 1),), uses), None
            return True
        if c.match("layers"):
            self.layers = 2
            return True
        again = c.number(("times", "num")) if self.times == 1 else None
        if again is not None:  # '2 sc in next st x 6'
            self.times = again
            return True
        if c.free_loops_follow():
            return False
        loop = c.loop()
        if loop:
            self.loop = loop
            return True
        yarn = c.yarn()
        if yarn is not None:
            self.yarn = yarn
            return True
        if c.part() == "join" and self.unit.makes == _SLIP:
            c.take()
            self.joins = True
            return True
        return self._place()

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
            return True
        if c.part() == "ord":
            self.nth_st = c.take().number
            c.place_word()
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
            if not each and self.count == self.times:
                self.count = None  # '3 sc in next 3 sts' is three, not nine
            return True
        named_place = self._grouped()
        named_place |= c.place_word()
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


def spread_from_hook(first: Stitches, nth: int, span: Span) -> list[Item]:
    """Stitches of which the first goes into the nth chain from the hook and the rest on."""
    assert isinstance(first.times, int)
    found: list[Item] = [Stitches(first.unit, 1, span, None, Where.HOOK, nth)]
    if first.times > 1:
        found.append(Stitches(first.unit, first.times - 1, span, first.loop))
    return found
