"""Reading the work of one round: items, groups and repeats. `forms` is the document of what is
read; nothing is guessed: a wording with two meanings is read both ways."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product

from roundproof.frozen import replace
from roundproof.notation.cursor import CLOSE, LOOPS, SEPARATORS, Cursor, Unread
from roundproof.notation.loops import LoopMark, Part, instruction_of, settled
from roundproof.notation.stitchwork import Tail, stitches
from roundproof.notation.stops import count_follows, paired
from roundproof.notation.tokens import Token
from roundproof.notation.tree import (
    Chain,
    Colour,
    FarSide,
    Fill,
    FreeLoops,
    Instruction,
    Item,
    JoinRound,
    Leave,
    Repeat,
    Stitches,
    Times,
    Turn,
    Unit,
    Where,
)
from roundproof.notation.units import SINGLE, in_loop, in_ring, named

_DEEPEST = 20
_MOST_CHOICES = 3
_MOST_ITEMS = 5000


def readings(tokens: Sequence[Token]) -> tuple[tuple[Instruction, ...], list[Token]]:
    """Every way to take a round's work, mostly one, and the tokens after it (count, remarks).

    Raises Unread where the wording is not read.
    """
    paired(tokens)
    first = _Parser(tokens)
    found, rest = [first.whole()], list(tokens[first.at :])
    for taken in list(product((0, 1), repeat=min(first.choices, _MOST_CHOICES)))[1:]:
        reading = _Parser(tokens, taken).whole()
        if reading not in found:
            found.append(reading)
    return tuple(found), rest


class _Parser(Cursor):
    deep = 0

    def whole(self) -> Instruction:
        parts = self.parts()
        if not any(not isinstance(p, LoopMark | FreeLoops) for p in parts):
            raise self.fail("stitches, like `(sc, inc) x 6`")
        while len(parts) == 1 and isinstance(only := parts[0], Repeat) and only.times == 1:
            # a group written once, with nothing said: it may fill the round
            parts = [Repeat(only.body, Fill(), only.span)] if self.choose() else list(only.body)
        return instruction_of(self._line_times(parts))

    def _line_times(self, parts: list[Part]) -> list[Part]:
        """'sc, dec x 6' without brackets: the number may be meant for the whole line."""
        last = parts[-1]
        if (
            len(_unmarked(parts)) < 2
            or not isinstance(last, Stitches)
            or not isinstance(last.times, int)
        ):
            return parts
        if self.seq[max(0, self.at - 2) : self.at] != ("times", "num"):
            return parts
        times = self.tokens[self.at - 1].number
        if times < 2 or last.times % times or not self.choose():
            return parts
        each = replace(last, times=last.times // times)
        body = settled([*parts[:-1], each])
        return [Repeat(tuple(body), times, self.span(0))]

    def parts(self, stop: str = "end") -> list[Part]:
        """Items up to `stop`, a stitch count, or the end."""
        self.deep += 1
        if self.deep > _DEEPEST:
            raise self.fail("fewer brackets within brackets")
        found: list[Part] = []
        while True:
            self.skip(*SEPARATORS)
            if self.part() in (stop, "end") or self._ends(stop):
                break
            if stop == "end" and self.looks("rep", "from", "*"):
                raise Unread(
                    self.tokens[self.at + 2], "a `*` where the repeat begins", unpaired=True
                )
            if stop == "end" and found and self._repeats_line():
                found = self._line_again(found)
                continue
            found += self.item()
            if len(found) > _MOST_ITEMS:
                raise self.fail("a shorter round")
        self.deep -= 1
        return found

    def _ends(self, stop: str) -> bool:
        if stop == "*" and self.part() == "rep":
            return True
        if stop == "end" and self.part() == "fasten off":
            return True
        return stop in ("end", "*") and count_follows(self)

    def _repeats_line(self) -> bool:
        """'…, repeat around', '…. Do this 6 times in all'; not 'rep from *'."""
        return self.looks("do this") or (self.looks("rep") and not self.looks("rep", "from", "*"))

    def _line_again(self, found: list[Part]) -> list[Part]:
        """'2 sc, inc, repeat around': the line so far, over and over; what is said of the whole
        line before it stays outside."""
        body = _unmarked(found)
        if not body:
            raise self.fail("stitches before it")
        marks = [part for part in found if isinstance(part, LoopMark | FreeLoops)]
        said = body if found[: len(marks)] == marks else found
        self.take()
        self.match("from")
        self.match("first")
        times = self.times() or Fill()
        span = body[0].span.to(self.tokens[self.at - 1].span)
        lead = marks if said is body else [p for p in marks if isinstance(p, FreeLoops)]
        return [*lead, Repeat(tuple(settled(said)), times, span)]

    # ---- one item ----

    def item(self) -> list[Part]:
        part = self.part()
        if part in CLOSE:
            return self.group()
        if part == "*":
            return [self.star()]
        if part == "do":
            return [self.do()]
        if part == "fan":
            return list(self.said_fan())
        if self._free_loops_follow():
            return [self.free_loops()]
        if part in LOOPS or (part == "in" and self.part(1) in LOOPS):
            start, loop = self.at, self.loop()
            assert loop is not None
            return [LoopMark(loop, self.span(start))]
        if part == "colour" or (part in ("with", "in", "change") and self.part(1) == "colour"):
            start = self.at
            self.at += part != "colour"
            return [Colour(self.take().value, self.span(start))]
        if part in ("with", "in") and self.part(1) == "ring":
            self.take()
            return list(self.ring())
        if part == "in" and self.part(1) == "ord" and self.value(2) == "ch":
            return list(self.from_hook())
        if self._times_before_group():
            return self.times_before_group()
        if self.looks("with", "word"):  # a yarn that the pattern does not list
            self.at += 2
            return [Colour(self.tokens[self.at - 1].value, self.tokens[self.at - 1].span)]
        if part == "ring":
            return list(self.ring())
        if part == "leave" or self.looks("num", "st", "free"):
            return [self.leave()]
        return self.marker() or list(stitches(self))

    def _times_before_group(self) -> bool:
        return self.looks("num", "times") and (self.part(2) in CLOSE or self.part(2) == "*")

    def times_before_group(self) -> list[Part]:
        """'6 x (2 sc, inc)'."""
        start, times = self.at, self.number(("num", "times"))
        assert times is not None
        found = self.item()
        body = tuple(settled(found))
        if len(body) == 1 and isinstance(body[0], Repeat) and body[0].times == 1:
            body = body[0].body
        return [Repeat(body, times, self.span(start))]

    def from_hook(self) -> list[Item]:
        """'starting in 2nd ch from hook, sc 5': the first stitch goes there, the rest on."""
        start = self.at
        self.take()
        nth = self.take().number
        self.chain_word()
        self.match("hook")
        self.skip(*SEPARATORS)
        first, *rest = stitches(self)
        if not isinstance(first, Stitches) or not isinstance(first.times, int):
            raise self.fail("stitches for the chain, like `sc in 2nd ch from hook`")
        span = self.span(start)
        found: list[Item] = [Stitches(first.unit, 1, span, None, Where.HOOK, nth)]
        if first.times > 1:
            found.append(Stitches(first.unit, first.times - 1, span, first.loop))
        return [*found, *rest]

    def marker(self) -> list[Part]:
        start = self.at
        if self.part() == "on" and self.part(1) == "far side":
            self.take()
        if self.match("far side"):
            while self.chain_word() or self.match("in", "each"):
                pass
            return [FarSide(self.span(start))]
        if self.match("turn"):
            return [Turn(self.span(start))]
        if self.match("join"):
            if self.match("with"):
                self.match("stitch")
            if self.match("in", "first") or self.match("to", "first"):
                self.place_word()
            self.match("in", "ring") or self.match("to", "ring")
            return [JoinRound(self.span(start))]
        return []

    def _free_loops_follow(self) -> bool:
        ahead = int(self.part() == "in")
        ahead += self.part(ahead) == "each"
        return self.part(ahead) == "free" and self.part(ahead + 1) in LOOPS

    def free_loops(self) -> FreeLoops:
        """'in the free front loops of R6'."""
        start = self.at
        self.skip("in", "each", "free")
        loop = LOOPS[self.take().part]
        self.skip("in", "from")
        if not self.looks("round", "num"):
            raise self.fail("the round whose loops they are, like `in the free front loops of R6`")
        self.take()
        return FreeLoops(loop, self.take().number, self.span(start))

    def leave(self) -> Item:
        start = self.at
        self.skip("leave", "last", "remain", "next")
        if self.part() != "num":
            raise self.fail("how many stitches to leave, like `leave 6 sts unworked`")
        count = self.take().number
        self.match("st")
        self.match("free") or self.match("remain")
        return Leave(count, self.span(start))

    def ring(self) -> list[Item]:
        """'MR, 6 sc' and 'magic ring with 6 sc'."""
        start = self.at
        self.take()
        self.skip("with", *SEPARATORS)
        found = stitches(self)
        if not all(isinstance(i, Stitches) for i in found):
            raise self.fail("stitches to work into the ring, like `6 sc in magic ring`")
        span = self.span(start)
        return [
            Stitches(*in_ring(i.unit, i.times), span, None, Where.RING)
            for i in found
            if isinstance(i, Stitches)
        ]

    # ---- groups and repeats ----

    def group(self) -> list[Part]:
        start = self.at
        opened = self.take()
        close = CLOSE[opened.part]
        if self.looks("colour", close):
            self.at += 2
            return [Colour(self.tokens[self.at - 2].value, self.span(start))]
        times: Times | None = self.number(("num", "times", ":"))
        body = settled(self.parts(close))
        if not self.match(close):
            raise Unread(opened, f"a `{close}` that closes this `{opened.part}`")
        if not body:
            raise Unread(opened, "stitches between the brackets")
        places = self._places()
        if places is not None:
            fan, loop = self.fan(body), self.loop()
            return [Stitches(fan, places, self.span(start), loop)]
        if times is None:
            times = self._again() if self.match("rep") else self.times()
        loop = self.loop()
        if loop:
            body = [in_loop(item, loop) for item in body]
        return [Repeat(tuple(body), 1 if times is None else times, self.span(start))]

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
        return (self.times() or Fill()) if self.match("in", "each", "st") else None

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
        body = tuple(settled(self.parts("*")))
        if not body:
            raise Unread(opened, "stitches after the `*`")
        if self.match("*"):
            self.skip(*SEPARATORS)
            if self.part() != "rep":
                times = self.times()
                if times is None:
                    raise self.fail("how often, like `x 6` or `around`")
                return Repeat(body, times, self.span(start))
        if not self.match("rep"):
            raise Unread(opened, "a second `*`, or `rep from *`")
        return Repeat(body, self._again(), self.span(start))

    def do(self) -> Item:
        """'do the following 3 times: 2 sc, inc; end of the repeat'."""
        start, opened = self.at, self.take()
        times = self.times()
        if times is None:
            raise self.fail("how often, like `3 times` or `all around`")
        body = tuple(settled(self.parts("end repeat")))
        if not body or not self.match("end repeat"):
            raise Unread(opened, "stitches to repeat, and `end of the repeat` after them")
        return Repeat(body, times, self.span(start))

    def _again(self) -> Times:
        """After 'rep': from *, then how often. 'rep from * 5 times' has two meanings."""
        self.match("from")
        while self.match("*") or (self.looks("to", "*") and self.match("to")):
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


def _unmarked(parts: Sequence[Part]) -> list[Part]:
    """The work itself, without words about loops that stand by themselves."""
    return [part for part in parts if not isinstance(part, LoopMark | FreeLoops)]
