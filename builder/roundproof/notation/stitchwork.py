"""Reading one stitch with its number and its tail: '3 sc', 'inc x 6', 'sc in each st around'."""

from __future__ import annotations

from roundproof.notation.cursor import Cursor
from roundproof.notation.tokens import BIGGEST
from roundproof.notation.tree import (
    Chain,
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
from roundproof.source import Span

COUNTED = frozenset(
    {"st", "stitch", "foreign", "inc", "dec", "inv dec", "tog", "foreign tog", "total", "each"}
)
"""Parts that may stand behind a number in a stitch count: '(30 sts)', '(24 sc total)'."""

WORKED = frozenset({"stitch", "foreign", "inc", "dec", "inv dec", "tog", "foreign tog"})
"""Parts that are worked."""

_SLIP = (("sl st", 1),)
_CHAIN = (("ch", 1),)


def stitches(at: Cursor) -> list[Item]:
    """One stitch, with a colour before it where its tail names one. Raises Unread."""
    start = at.at
    count = at.take().number if at.part() == "num" else None
    if count is not None and at.part() == "times" and at.part(1) in COUNTED:
        at.take()
    unit = _unit(at, count)
    if unit is None and count is not None and _bare(at):
        unit = Unit(((SINGLE, 1),))  # '3, inc': a bare number among stitches
    if unit is None:
        if count is not None and at.part() not in ("word", "num", "ord"):
            at.at = start
        raise at.fail("a stitch, like `sc`, `inc` or `dec`")
    if unit.makes == _CHAIN:
        return [_chain(at, count, start)]
    again = at.number(("times", "num")) if count is not None else None
    if count is None:
        count = _trailing(at)
    elif again is not None:  # '2 sc x 6'
        count = min(count * again, BIGGEST)
    return Tail(at, unit, count).items(start)


def _unit(at: Cursor, count: int | None) -> Unit | None:
    part = at.part()
    if part == "around" and count is None:
        return Unit(((SINGLE, 1),))  # 'work even': the tail takes the word itself
    if part in ("stitch", "foreign"):
        return _stitch_unit(at)
    if part in ("tog", "foreign tog"):
        token = at.take()
        return named(((token.value, 1),), max(1, token.number))
    if part == "inc":
        at.take()
        glued = at.part() == "num" and at.tokens[at.at].glued
        return named(((SINGLE, at.take().number if glued else 2),), 1)
    if part == "dec":
        at.take()
        return named(((SINGLE, 1),), 2)
    if part == "inv dec":
        at.take()
        return Unit(((SINGLE, 1),), 2, "inv dec")
    if part == "skip":
        at.take()
        if at.match("next"):
            at.match("st")
        return Unit((), 1)
    return None


def _stitch_unit(at: Cursor) -> Unit:
    kind = at.take().value
    if kind == "ch":
        return Unit(((kind, 1),))
    if at.match("inc"):
        return named(((kind, 2),), 1)
    if at.match("dec"):
        return named(((kind, 1),), 2)
    if at.match("inv dec"):
        return Unit(((kind, 1),), 2, "inv dec")
    together = _together(at)
    return named(((kind, 1),), together) if together else Unit(((kind, 1),))


def _together(at: Cursor) -> int:
    """'next 2 sts together': how many, or 0."""
    for which in ("next", "first", "last"):
        for form in ((which, "num", "together"), (which, "num", "st", "together")):
            found = at.number(form)
            if found:
                return found
    return 0


def _bare(at: Cursor) -> bool:
    """Whether a number stands by itself among stitches that have names."""
    ends = (",", ";", "+", ")", "]", "}", "*", "end", "rep", "(")
    return at.part() in ends and not WORKED.isdisjoint(at.seq)


def _chain(at: Cursor, count: int | None, start: int) -> Item:
    if count is None and (at.part() == "num" or at.looks("times", "num")):
        at.match("times")
        count = at.take().number
    return Chain(1 if count is None else count, at.span(start))


def _trailing(at: Cursor) -> int | None:
    """The number after a stitch: 'sc 3', 'inc x 6', 'dec 6 times', 'sk 1 st'."""
    found = at.number(("times", "num"))
    if found is None:
        found = at.number((".", "times", "num"))  # 'inv. dec. x 6'
    if found is None and at.part() == "num" and not at.looks("num", "st", "free"):
        found = at.take().number
        at.match("times") or at.match("st")
    return found


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
        if self.where is not Where.NEXT and self.c.part() in ("in", "each"):
            # 'sc in 2nd ch from hook and in each ch across': the same stitch goes on
            found += Tail(self.c, self.unit, None).items(self.c.at)
        return found

    def _items(self, start: int) -> list[Item]:
        span = self.c.span(start)
        if self.every > 1:
            return [self._every(span)]
        if self.nth_st > 1:
            return [*self._up_to(self.nth_st, span), Stitches(self._several(), 1, span, self.loop)]
        if self.layers > 1 and self.times is None and self.count is None:
            self.times = Fill()
        return [self._item(span)]

    def _item(self, span: Span) -> Item:
        unit, times = self.unit, self.times
        if times is None and (self.where in (Where.NEXT, Where.RING) or unit.uses != 1):
            times = 1 if self.count is None else self.count
        elif times is None:  # several in one place: the last stitch, the nth chain
            unit, times = self._several(), 1
        elif self.count is not None and self.count > 1 and unit.uses == 1:
            unit = self._several()
        if self.where is Where.RING:
            unit, times = in_ring(unit, times)
        loop = self.loop if unit.makes and self.where is not Where.RING else None
        return Stitches(unit, times, span, loop, self.where, self.nth, self.layers)

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
        fill = c.reach()
        if fill is not None:
            self.times = fill
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
        loop = c.loop()
        if loop:
            self.loop = loop
            return True
        if c.looks("with", "colour") or c.looks("in", "colour"):
            c.at += 2
            self.yarn = Colour(c.tokens[c.at - 1].value, c.span(c.at - 2))
            return True
        if c.part() == "join" and self.unit.makes == _SLIP:
            c.take()
            self.joins = True
            return True
        return self._place()

    def _place(self) -> bool:
        c = self.c
        if c.looks("in", "free") or (self.where is not Where.NEXT and c.part() == "in"):
            return False
        if self.where is not Where.NEXT and c.part() == "each":
            return False
        if isinstance(self.times, int) and c.part() in ("in", "each"):
            return False  # it has its place
        if c.part() == "each":
            return self._into()
        if c.looks("to", "first"):
            c.take()
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
        if c.part() == "ord" and c.value(1) == "ch" and c.part(2) == "hook":
            self.where, self.nth = Where.HOOK, c.take().number
            c.at += 2
            return True
        if c.looks("ord") and c.value(1) == "ch":
            if c.take().number == 1:
                self.where = Where.FIRST
                c.place_word()
                return True
            raise c.fail("which chain, like `in 2nd ch from hook`")
        if c.part() == "ord":
            self.nth_st = c.take().number
            c.place_word()
            return True
        if c.part() in ("first", "last", "same") and c.part(1) != "num":
            self.where = Where(c.take().part)
            c.place_word()
            return True
        return self._how_many()

    def _how_many(self) -> bool:
        """'in each st around', 'in every 3rd st', 'in next 3 sts', 'in next st'."""
        c = self.c
        each = c.match("each")
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
