"""Reading groups and repeats: '(2 sc, inc) x 6', '*…; rep from *', '… in next st'."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Sequence

from roundproof.frozen import replace
from roundproof.notation.cursor import BRACKETS, CLOSE, LOOPS, SEPARATORS, WORKED, Cursor, Unread
from roundproof.notation.loops import LoopMark, Part, settled
from roundproof.notation.stops import count_follows
from roundproof.notation.tails import Tail
from roundproof.notation.tree import (
    Chain,
    Colour,
    Fill,
    Item,
    Onto,
    Repeat,
    Stitches,
    Times,
    Unit,
    Where,
)
from roundproof.notation.units import SINGLE, in_loop, named, onto_place

_SAYS = frozenset({"in", "with", "change", "colour", "hue", "word", *LOOPS})
"""Parts with which brackets may begin that hold a word for what follows."""


class Groups(Cursor, ABC):
    """Groups in brackets and between stars, and how often they are worked."""

    @abstractmethod
    def parts(self, stop: str = "end") -> list[Part]:
        """Items up to `stop`, a stitch count, or the end."""

    def _group_again(self) -> bool:
        """'Repeat [2 sc, inc]': a group behind the word, not before it."""
        return self.part(1) in BRACKETS and not self.count_ahead(1)

    def count_ahead(self, places: int) -> bool:
        """Whether a stitch count stands further on."""
        self.at += places
        found = count_follows(self)
        self.at -= places
        return found

    def group(self) -> list[Part]:
        start = self.at
        opened = self.take()
        close = CLOSE[opened.part]
        said = self._said_in_brackets(close, start) if self.part() in _SAYS else []
        if said:
            return said
        times = self.number(("num", "times", ":")) if self.part(1) == "times" else None
        body = settled(self.parts(close))
        if not self.match(close):
            raise Unread(opened, f"a `{close}` that closes this `{opened.part}`")
        if not _worked(body):
            raise Unread(opened, "stitches between the brackets")
        placed = self._placed(body, start) if self.part() == "in" else None
        if placed:
            return [placed]
        often: Times | None = times
        if often is None:
            often = self._again() if self.match("rep") else self.times()
        loop = self.loop()
        if loop:
            body = [in_loop(item, loop) for item in body]
        if onto := self._onto():
            body = [onto_place(item, onto) for item in body]
            often = Fill() if often is None else often
        return [Repeat(from_the_start(body), 1 if often is None else often, self.span(start))]

    def _placed(self, body: Sequence[Item], start: int) -> Stitches | None:
        """'(sc, hdc, sc) in next st': all of it in one place."""
        if self.part(1) in ("last", "first"):
            self.at += 1
            where = Where(self.take().part)
            self.place_word()
            fan, loop = self.fan(body), self.loop()
            return Stitches(fan, 1, self.span(start), loop, where, onto=self._onto())
        places = self._places()
        if places is None:
            return None
        fan, loop = self.fan(body), self.loop()
        onto = self._onto()
        return Stitches(fan, places, self.span(start), loop, onto=onto)

    def _onto(self) -> Onto | None:
        return self.take().onto if self.part() == "onto" else None

    def _said_in_brackets(self, close: str, start: int) -> list[Part]:
        """'(sand)', '[B]', '(in BLO)': not a group but a word for what follows."""
        at = self.at
        loop = self.loop()
        if loop and self.match(close):
            return [LoopMark(loop, self.span(start))]
        self.at = at
        yarn = self.yarn()
        if yarn is None and self.looks("word", close) and self.part(2) in WORKED | {"num", "ring"}:
            self.at += 1
            yarn = Colour(self.tokens[at].span.text, self.span(at))
        if yarn and self.match(close):
            return [replace(yarn, span=self.span(start))]
        self.at = at
        return []

    def _places(self) -> Times | None:
        """Into how many places a group goes as one: 'in next st x 2', 'in each of next 3 sts',
        'in each st around'. None where nothing of the kind follows."""
        if self._one_place():
            again = self.number(("times", "num"))
            return 1 if again is None else again
        several = self.number(("in", "each", "next", "num"))
        if several is not None:
            self.place_word()
            return several
        if self.match("in", "each"):
            self.place_word() or self.match("space")
            return self.times() or Fill()
        return None

    def _one_place(self) -> bool:
        for form in (("in", "next", "st"), ("in", "same", "st"), ("in", "st"), ("in", "next")):
            if self.looks(*form) and self.part(len(form)) != "num":
                self.at += len(form)
                return True
        return False

    def said_fan(self) -> Sequence[Item]:
        """'work the following in the next stitch: sc, hdc; end of the group'."""
        start, opened = self.at, self.take()
        tail = Tail(self, Unit(((SINGLE, 1),)), None)
        tail.read()
        body = settled(self.parts("end group"))
        if not body or tail.where is not Where.NEXT or not self.match("end group"):
            raise Unread(opened, "stitches for one place, and `end of the group` after them")
        tail.unit = self.fan(body)
        return tail.items(start)

    def fan(self, body: Sequence[Item]) -> Unit:
        """Several stitches into one place."""
        makes: list[tuple[str, int]] = []
        for item in body:
            if isinstance(item, Chain):
                makes.append(("ch", item.count))
            elif isinstance(item, Stitches) and isinstance(item.times, int):
                makes += [(kind, n * item.times) for kind, n in item.unit.makes]
            else:
                raise self.fail("plain stitches in the brackets, like `(sc, hdc, sc) in next st`")
        return named(makes, 1)

    def star(self) -> Item:
        start = self.at
        opened = self.take()
        body = from_the_start(settled(self.parts("*")))
        if not _worked(body):
            raise Unread(opened, "stitches after the `*`")
        if self.match("*"):
            self.skip(*SEPARATORS)
            if self.part() != "rep":
                glued = self.part() == "num" and self.tokens[self.at].glued
                times = self.times() or (self.take().number if glued else None)
                if times is None:
                    raise self.fail("how often, like `x 6` or `around`")
                return Repeat(body, times, self.span(start))
        if not self.match("rep"):
            raise Unread(opened, "a second `*`, or `rep from *`")
        times = self._again()
        self.match("*")  # '*inc, repeat from * around*'
        return Repeat(body, times, self.span(start))

    def do(self) -> Item:
        """'do the following 3 times: 2 sc, inc; end of the repeat'."""
        start, opened = self.at, self.take()
        times = self.times()
        if times is None:
            raise self.fail("how often, like `3 times` or `all around`")
        body = from_the_start(settled(self.parts("end repeat")))
        if not _worked(body) or not self.match("end repeat"):
            raise Unread(opened, "stitches to repeat, and `end of the repeat` after them")
        return Repeat(body, times, self.span(start))

    def _again(self) -> Times:
        """After 'rep': from *, then how often. 'rep from * 5 times' has two meanings."""
        self.match(".")
        self.match("from")
        if self.value() == "between" and self.part(1) == "*":
            self.at += 2  # 'repeat between * and *'
            self.skip("and", "-")
        while self.match("*") or (
            self.part() in ("to", "-") and self.part(1) == "*" and self.take()
        ):
            pass
        told = (("num", "more"), ("num", "times", "more"), ("num", "times in all"))
        more = any(self.looks(*form) for form in told)
        times = self.times()
        if times is None:
            found = self.number(("num", "more"))
            if found is None:
                raise self.fail("how often to repeat, like `around` or `5 more times`")
            return found + 1
        if isinstance(times, int) and not more and not self.match("total"):
            return times + self.choose()
        return times


def from_the_start(body: Sequence[Item]) -> tuple[Item, ...]:
    """What is repeated: its 'first stitch' is the next one of each time."""
    first = body[0] if body else None
    if isinstance(first, Stitches) and first.where is Where.FIRST:
        return (replace(first, where=Where.NEXT), *body[1:])
    return tuple(body)


def _worked(body: Sequence[Item]) -> bool:
    """Whether there is anything to work; a yarn alone is none."""
    return not all(isinstance(item, Colour) for item in body)
