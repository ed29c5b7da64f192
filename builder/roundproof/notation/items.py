"""Reading one item of a round."""

from __future__ import annotations

from roundproof.frozen import replace
from roundproof.notation.cursor import CLOSE, LOOPS, SEPARATORS, WORKED
from roundproof.notation.groups import Groups, from_the_start
from roundproof.notation.loops import LoopMark, Part, settled
from roundproof.notation.stitchwork import stitches
from roundproof.notation.tails import Tail
from roundproof.notation.tree import (
    Colour,
    FarSide,
    Fill,
    FreeLoops,
    Item,
    JoinRound,
    Leave,
    Repeat,
    Stitches,
    Turn,
    Unit,
    Where,
)
from roundproof.notation.units import SINGLE, in_ring, named, one, onto_place, spread_from_hook

_PLAINLY = frozenset({"stitch", "inc", "dec", "inv dec", "tog", "own", "foreign", "skip"})
"""Parts that can only begin stitches."""


_SHAPES = frozenset({"stitch", "inc", "dec", "inv dec"})


class Items(Groups):
    """One item of a round: stitches, a group, a chain, a yarn, a turn."""

    def item(self) -> list[Part]:
        part = self.seq[self.at]
        if part in _PLAINLY or (part == "num" and self.seq[self.at + 1] in _PLAINLY):
            return list(stitches(self))
        if part == "with" and self.part(1) in ("num", "stitch"):
            self.at += 1  # 'begin with 6 sc'
            return self.item()
        if part == "round" and self.part(1) == "num" and self.part(2) == "in":
            self.at += 2  # 'working behind rnd 10 into the back loops of rnd 9'
            return []
        if part == "num" and self.part(1) == "round":
            self.at += 2  # 'sc around for 4 rounds', '1 rnd sc'
            return []
        if part == "num" and self.seq[self.at + 1] in ("hue", "colour"):
            return self.counted_yarn()
        if part == "onto":
            return self.on_place()
        if part in CLOSE:
            return self.group()
        if part == "*":
            return [self.star()]
        if part == "do":
            return [self.do()]
        if part == "fan":
            return list(self.said_fan())
        if self.free_loops_follow():
            return [self.free_loops()]
        if part in LOOPS or (part == "in" and self.part(1) in LOOPS):
            start, loop = self.at, self.loop()
            assert loop is not None
            if self.looks("each", "st") and self.part(2) in SEPARATORS:
                self.at += 2  # 'in the back loop of each st, sc around'
            return [LoopMark(loop, self.span(start))]
        yarn = self.yarn() or self._colour_alone()
        if yarn is not None:
            return [yarn]
        if part in ("with", "in") and self.part(1) == "ring":
            self.take()
            return list(self.ring())
        if part in ("in", "from") and self._hook_ahead():
            return list(self.from_hook())
        if part == "rep" and self._group_again():
            self.take()
            found = self.group()
            only = found[0]
            return (
                [replace(only, times=Fill())]
                if isinstance(only, Repeat) and only.times == 1
                else found
            )
        if self._times_before_group():
            return self.times_before_group()
        if self._place_first():
            return list(self.place_first())
        if part == "each" and self.part(1) in _SHAPES:
            return self.all_of_it()
        if part == "ring":
            return list(self.ring())
        if part == "leave" or self.looks("num", "st", "free"):
            return [self.leave()]
        start = self.at
        found = self.marker()
        return found if found or self.at > start else list(stitches(self))

    def on_place(self) -> list[Part]:
        """'Around first leg: 12 sc'; 'along ch' behind chains made in this round."""
        onto = self.take().onto
        self.skip(*SEPARATORS)
        found = settled(self.item())
        return [onto_place(item, onto) for item in found] if onto else list(found)

    def _colour_alone(self) -> Colour | None:
        """A yarn that the pattern does not list: '"Foam"', 'change to foam', 'PINK: 6 sc'."""
        start = self.at
        lead = self.part() in ("with", "in", "change")
        quoted = self.part(int(lead)) == '"' and self.part(int(lead) + 2) == '"'
        if quoted:
            self.at += lead + 3
            return Colour(self.tokens[self.at - 2].span.text, self.span(start))
        changed = self.looks("change", "word")
        if changed or (start == 0 and self.looks("word", ":")):
            self.at += 1 + changed
            found = Colour(self.tokens[self.at - 1].span.text, self.span(start))
            self.match("around")  # 'back to russet for the whole round'
            return found
        return None

    def counted_yarn(self) -> list[Part]:
        """'6 cream, 12 brown' in single stitches, '4 cream dec'."""
        start, count, yarn = self.at, self.take().number, self.yarn()
        assert yarn is not None
        if self.part() not in _PLAINLY:
            return [yarn, Stitches(one(SINGLE), count, self.span(start))]
        first, *rest = stitches(self)
        if not isinstance(first, Stitches) or first.times != 1 or first.where is not Where.NEXT:
            raise self.fail("the number by the stitch, like `4 sc in cream`")
        return [yarn, replace(first, times=count, span=self.span(start)), *rest]

    def _place_first(self) -> bool:
        """'into every stitch 2 sc', 'in each of next 3 sts: inc': the stitch behind its place."""
        if self.part() != "in" or self.part(1) not in ("each", "next", "same", "first", "last"):
            return False
        ahead = 2
        while self.part(ahead) in ("next", "st", "num", ":", ",", "in", "each", "around"):
            ahead += 1
        return self.part(ahead) in _SHAPES and self.part(2) not in WORKED

    def place_first(self) -> list[Item]:
        """The place, then the stitch that goes there."""
        start = self.at
        place = Tail(self, Unit(((SINGLE, 1),)), None)
        if self.looks("in", "next", "num") and self.part(3) in _SHAPES:
            self.at += 2  # 'into next 2 sc'
        else:
            place.read()
        self.skip(":", ",")
        (only, *rest) = stitches(self)
        if rest or not isinstance(only, Stitches) or not isinstance(only.times, int):
            raise self.fail("one kind of stitch for that place, like `2 sc in each st`")
        several = named([(kind, n * only.times) for kind, n in only.unit.makes], only.unit.uses)
        place.unit = several if only.unit.uses == 1 else only.unit
        return place.items(start)

    def all_of_it(self) -> list[Part]:
        """'all sc': the whole round."""
        start = self.at
        self.take()
        found = stitches(self)
        only = found[0]
        if len(found) > 1 or not isinstance(only, Stitches) or only.where is not Where.NEXT:
            raise self.fail("what all stitches are, like `sc in each st`")
        times = Fill() if only.times == 1 else only.times
        return [replace(only, times=times, span=self.span(start))]

    def _times_before_group(self) -> bool:
        """'6 x (…)', '6x: inc', '3 times 2 sc in one st'."""
        if not self.looks("num", "times"):
            return False
        ahead = 2 + (self.part(2) == ":")
        if self.part(ahead) == "num":
            ahead += 1
        return self.part(ahead) in CLOSE or self.part(ahead) == "*" or self.part(ahead) in WORKED

    def times_before_group(self) -> list[Part]:
        """'6 x (2 sc, inc)'."""
        start, times = self.at, self.number(("num", "times"))
        assert times is not None
        self.match(":")
        found = self.item()
        body = tuple(settled(found))
        if len(body) == 1 and isinstance(only := body[0], Repeat) and only.times == 1:
            body = only.body
        only_item = body[0] if len(body) == 1 else None
        if isinstance(only_item, Stitches) and (only_item.times, only_item.where) == (
            1,
            Where.NEXT,
        ):
            return [replace(only_item, times=times, span=self.span(start))]
        return [Repeat(from_the_start(body), times, self.span(start))]

    def _hook_ahead(self) -> bool:
        ahead = 1 + (self.part() == "from" and self.part(1) == "in")
        return self.part(ahead) == "ord" and self.value(ahead + 1) == "ch"

    def from_hook(self) -> list[Item]:
        """'starting in 2nd ch from hook, sc 5': the first stitch goes there, the rest on."""
        start = self.at
        self.skip("from", "in")
        nth = self.take().number
        self.chain_word()
        self.match("hook")
        self.skip(*SEPARATORS)
        first, *rest = stitches(self)
        if not isinstance(first, Stitches) or not isinstance(first.times, int):
            raise self.fail("stitches for the chain, like `sc in 2nd ch from hook`")
        return [*spread_from_hook(first, nth, self.span(start)), *rest]

    def marker(self) -> list[Part]:
        start = self.at
        if self.part() in ("on", "to", "in") and self.part(1) == "far side":
            self.take()
        if self.match("far side"):
            while self.chain_word() or self.match("in", "each"):
                pass
            return [FarSide(self.span(start))]
        if self.match("turn"):
            return [Turn(self.span(start))]
        if self.part() == "join" and self.part(1) in ("word", "hue", "colour", '"'):
            return self._joined_yarn()
        if self.match("join"):
            self.match("on")  # 'close up'
            if self.match("with"):
                self.match("stitch")
            self.skip(
                "in",
                "to",
                "first",
                "last",
                "top",
                "ring",
                "stitch",
                "ch",
                "st",
                "ord",
                "remain",
                "round",
                "with",
            )
            if self.tokens[self.at - 1].value == "ch":  # 'the top of ch-3', 'of ch 3'
                self.at += 2 if self.looks("-", "num") else self.part() == "num"
            self.skip("aside", "word", "to")  # 'being careful not to twist'
            return [JoinRound(self.span(start))]
        return []

    def _joined_yarn(self) -> list[Part]:
        """'Join new yarn in any st': up to the next stop, it is said where the work goes on."""
        start = self.at
        self.take()
        yarn = self.yarn() or self._colour_alone()
        while self.part() not in ("end", *SEPARATORS, *CLOSE):
            if self.free_loops_follow():
                break
            self.at += 1
        self.asides.append((start, self.at))
        return [yarn] if yarn else []

    def free_loops(self) -> FreeLoops:
        start = self.at
        self.skip("in", "to", "each", "free", "remain")
        loop = LOOPS[self.take().part]
        self.skip("in", "from", "free", "remain")
        if not self.looks("round", "num"):
            raise self.fail("the round whose loops they are, like `in the free front loops of R6`")
        self.take()
        return FreeLoops(loop, self.take().number, self.span(start))

    def leave(self) -> Item:
        start = self.at
        self.skip("leave", "last", "remain", "next")
        if self.part() not in ("num", "st"):
            raise self.fail("how many stitches to leave, like `leave 6 sts unworked`")
        count = self.take().number or 1
        self.place_word()
        self.match("free") or self.match("remain") or self.match("word")
        while self.part() not in ("end", "turn", *SEPARATORS, *CLOSE, *CLOSE.values()):
            self.at += 1  # 'for the second flipper'
        return Leave(count, self.span(start))

    def ring(self) -> list[Item]:
        """'MR, 6 sc' and 'magic ring with 6 sc'."""
        start = self.at
        self.skip("ring")
        self.skip("with", *SEPARATORS)
        if self.value() == "ch" and self.part(1) == "num" and self.part(2) in SEPARATORS:
            self.at += 3  # the chain that lifts the first round counts for nothing
            self.skip(*SEPARATORS)
        found = stitches(self)
        if not all(isinstance(i, Stitches) for i in found):
            raise self.fail("stitches to work into the ring, like `6 sc in magic ring`")
        span = self.span(start)
        return [
            Stitches(*in_ring(i.unit, i.times), span, None, Where.RING)
            for i in found
            if isinstance(i, Stitches)
        ]
