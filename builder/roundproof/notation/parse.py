"""Reading the work of one round: items one after the other, and what is said of all of them.

`forms` is the document of what is read; nothing is guessed: a wording with two meanings is read
both ways."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product

from roundproof.frozen import dataclass, replace
from roundproof.notation.cursor import LOOPS, SEPARATORS, Unread
from roundproof.notation.groups import from_the_start
from roundproof.notation.items import Items
from roundproof.notation.loops import SAID, Part, instruction_of, settled, unmarked
from roundproof.notation.remarks import among_known, remark_end
from roundproof.notation.stops import STARTS, count_follows, leaves_yarn, paired
from roundproof.notation.tokens import Token
from roundproof.notation.tree import (
    Chain,
    Colour,
    Fill,
    FreeLoops,
    Instruction,
    Item,
    Repeat,
    Stitches,
    Turn,
    Where,
)

_DEEPEST = 20
_MOST_CHOICES = 3
_MOST_ITEMS = 5000
_MOST_STRAY = 3
_AGAIN = frozenset({"rep", "do this", "num", "times", "twice", "-", "*", "around"})
_GAPS = frozenset({*SEPARATORS, "-", "~"})
_COUNTING = ("counts", "not counted")
_DASHES = frozenset({"-", "~", "/", "|"})
_MAY_END = STARTS | {"rep", "fasten off", "leave"}
_ONE_STITCH = frozenset({"stitch", "foreign", "in", *LOOPS})
_SENTENCE_ENDS = frozenset({"end", ",", ".", ";", ")", "]", "}", "-", "=", ">", "|"})


@dataclass(frozen=True, slots=True)
class Work:
    """What a round says to do: every way to take it, mostly one; the tokens behind it (count,
    remarks); and stretches of tokens passed over before and within it, as (first, past the last):
    remarks, which are no work, and stray words, without which it could not be read. `doubts` are
    words that may stand for something else as well."""

    readings: tuple[Instruction, ...]
    rest: list[Token]
    asides: tuple[tuple[int, int], ...] = ()
    stray: tuple[Token, ...] = ()
    doubts: tuple[Token, ...] = ()


def work_of_round(tokens: Sequence[Token]) -> Work:
    """The work of a round. Raises Unread where the wording is not read."""
    paired(tokens)
    stray: list[Token] = []
    first: Unread | None = None
    while True:
        try:
            return _work(tokens, tuple(stray))
        except Unread as unread:
            first = first or unread
            where = None if unread.unpaired or len(stray) >= _MOST_STRAY else unread.token
            if where is None or not among_known(tokens, where):
                raise first from None
            stray.append(where)
            tokens = [token for token in tokens if token is not where]


def _work(tokens: Sequence[Token], stray: tuple[Token, ...]) -> Work:
    first = _Parser(tokens)
    found, rest = [first.whole()], list(tokens[first.at :])
    for taken in list(product((0, 1), repeat=min(first.choices, _MOST_CHOICES)))[1:]:
        reading = _Parser(tokens, taken).whole()
        if reading not in found:
            found.append(reading)
    return Work(tuple(found), rest, tuple(first.asides), stray, tuple(first.doubts))


def readings(tokens: Sequence[Token]) -> tuple[tuple[Instruction, ...], list[Token]]:
    """Every way to take a round's work, and the tokens after it; nothing in it may be passed over.

    Raises Unread where the wording is not read.
    """
    work = work_of_round(tokens)
    if work.stray:
        raise Unread(work.stray[0], "a word of the trade")
    return work.readings, work.rest


class _Parser(Items):
    deep = 0
    stopped = False
    """What follows is no work."""

    def whole(self) -> Instruction:
        parts = self.parts()
        if all(isinstance(p, SAID) for p in parts):
            raise self.fail("stitches, like `(sc, inc) x 6`")
        parts = self._counted(self._alone(parts))
        while len(parts) == 1 and isinstance(only := parts[0], Repeat) and only.times == 1:
            # a group written once, with nothing said: it may fill the round
            parts = [Repeat(only.body, Fill(), only.span)] if self.choose() else list(only.body)
        return instruction_of(self._line_times(parts))

    def _alone(self, parts: list[Part]) -> list[Part]:
        """'R7: sc' with nothing else said may be meant for the whole round."""
        if len(parts) > 3:
            return parts
        work = [p for p in parts if not isinstance(p, (*SAID, Colour, Turn))]
        only = work[0] if len(work) == 1 else None
        if not isinstance(only, Stitches) or only.times != 1 or only.where is not Where.NEXT:
            return parts
        first = self._place_of(only)
        said = {t.part for t in self.tokens[first:] if t.start < only.span.end}
        if only.unit.made != 1 or only.unit.uses != 1 or said - _ONE_STITCH or not self.choose():
            return parts
        return [replace(only, times=Fill()) if p is only else p for p in parts]

    def _counted(self, parts: list[Part]) -> list[Part]:
        """'without increasing, 30 sc': the number is how many that is."""
        first, *rest = parts
        work = [p for p in rest if not isinstance(p, (*SAID, Colour))]
        last = work[0] if len(work) == 1 else None
        if not isinstance(first, Stitches) or not isinstance(last, Stitches):
            return parts
        evenly = first.times == Fill() and self.seq[self._place_of(first)] == "around"
        plain = last.unit.made == last.unit.uses == 1 and last.where is Where.NEXT
        return rest if evenly and plain and isinstance(last.times, int) else parts

    def _place_of(self, item: Item) -> int:
        return next(i for i, t in enumerate(self.tokens) if t.start >= item.span.start)

    def _line_times(self, parts: list[Part]) -> list[Part]:
        """'sc, dec x 6' without brackets: the number may be meant for the whole line."""
        last = parts[-1]
        if len(parts) < 2 or self.seq[max(0, self.at - 2) : self.at] != ("times", "num"):
            return parts
        if not isinstance(last, Stitches) or not isinstance(last.times, int):
            return parts
        if len(unmarked(parts)) < 2:
            return parts
        times = self.tokens[self.at - 1].number
        if times < 2 or last.times % times or not self.choose():
            return parts
        each = replace(last, times=last.times // times)
        body = settled([*parts[:-1], each])
        return [Repeat(from_the_start(body), times, self.span(0))]

    def parts(self, stop: str = "end") -> list[Part]:
        """Items up to `stop`, a stitch count, or the end."""
        self.deep += 1
        if self.deep > _DEEPEST:
            raise self.fail("fewer brackets within brackets")
        found: list[Part] = []
        outside, self.before = self.before, found
        while True:
            while (part := self.seq[self.at]) in _GAPS:
                if part in _DASHES and self._ends(stop):
                    break
                self.at += 1
            if part == stop or part == "end" or (part in _MAY_END and self._ends(stop)):
                break
            if self.stopped:
                break
            if stop == "end" and part == "rep" and self.looks("rep", "from", "*"):
                raise Unread(
                    self.tokens[self.at + 2], "a `*` where the repeat begins", unpaired=True
                )
            if found and part in _AGAIN and self._repeats_line(stop):
                found = self.before = self._line_again(found)
                continue
            start = self.at
            try:
                items = self.item()
            except Unread:
                if stop != "end" or not self.passed_over(start):
                    raise
                found = self.before = self._chain_said_to_count(found, start)
                continue
            found += items
            if self.filled is not None:
                found = self.before = self._filled(found)
            if len(found) > _MOST_ITEMS:
                raise self.fail("a shorter round")
        self.deep -= 1
        self.before = outside
        return found

    def _filled(self, found: list[Part]) -> list[Part]:
        """'sc 2, inc 1 around': all of it, over and over; '18 sc around' is said twice over."""
        fill, self.filled = self.filled or Fill(), None
        body = [p for p in unmarked(found) if not isinstance(p, Colour)]
        marks = [p for p in found if p not in body]
        rings = any(isinstance(p, Stitches) and p.where is Where.RING for p in body)
        only = body[0] if len(body) == 1 else None
        if rings or (isinstance(only, Stitches) and only.unit.made == only.unit.uses == 1):
            return found
        span = body[0].span.to(self.tokens[self.at - 1].span)
        return [*marks, Repeat(from_the_start(settled(body)), fill, span)]

    def _chain_said_to_count(self, found: list[Part], start: int) -> list[Part]:
        """'ch 3 (counts as first dc)'."""
        last, said = found[-1] if found else None, self.seq[start + 1]
        if not isinstance(last, Chain) or said not in _COUNTING:
            return found
        self.asides.pop()
        return [*found[:-1], replace(last, counts=said == "counts")]

    def passed_over(self, start: int) -> bool:
        """Whether what stands here is a remark, which is then gone past: words with no stitch in
        them, up to the next stop, in brackets, or to the end of the line."""
        self.deep = 1
        end = remark_end(self, start)
        if end is None:
            return False
        self.at = end
        if end < len(self.tokens) or self.seq[start + 1] in _COUNTING:
            self.asides.append((start, end))
        else:
            self.at, self.stopped = start, True
        return True

    def _ends(self, stop: str) -> bool:
        if stop == "*" and self.part() == "rep":
            return True
        if stop == "end" and (self.part() == "fasten off" or leaves_yarn(self)):
            return True
        return stop in ("end", "*") and count_follows(self)

    def _repeats_line(self, stop: str) -> bool:
        """'…, repeat around', '…. Do this 6 times in all', '…, 6 times'; not 'rep from *'."""
        if stop == "*":
            return False
        part = self.part()
        if part == "rep":
            return not self.looks("rep", "from", "*") and not self._group_again()
        if part == "do this":
            return True
        ahead = int(part == "-")
        if self.part(ahead) == "twice":
            return self._nothing_behind(ahead + 1)
        several = self.seq[self.at + ahead : self.at + ahead + 2]
        if several in (("num", "times"), ("times", "num"), ("num", "group")):
            return self._nothing_behind(ahead + 2)
        if part == "*" and self.part(1) == "num" and self.tokens[self.at + 1].glued:
            return self._nothing_behind(2)
        worked = any(not isinstance(p, (*SAID, Colour)) for p in self.before)
        return part == "around" and worked and self.seq[self.at - 1] in SEPARATORS

    def _nothing_behind(self, ahead: int) -> bool:
        """Whether the words end there, or a count follows."""
        return self.part(ahead) in _SENTENCE_ENDS or self.count_ahead(ahead)

    def _line_again(self, found: list[Part]) -> list[Part]:
        """'2 sc, inc, repeat around': the line so far, over and over; what is said of the whole
        line before it stays outside. '…, 6 times' without more may be meant for the last item."""
        body = unmarked(found)
        if all(isinstance(part, Colour) for part in body):
            raise self.fail("stitches before it")
        marks = [part for part in found if isinstance(part, SAID)]
        said = body if found[: len(marks)] == marks else found
        told = self.match("rep") or self.match("do this")
        self.match("-")
        self.match("from")
        self.match("first")
        times = self.times() or self.number(("num", "group")) or Fill()
        last = body[-1]
        if not told and times == Fill() and len(body) == 1 and _several_plain(last):
            return found  # '24 sc, without shaping'
        several = isinstance(times, int) and len(body) > 1 and not isinstance(last, Colour)
        if not told and several and self.choose():
            return [*found[:-1], Repeat(from_the_start(settled([last])), times, last.span)]
        starts = [p for p in said if isinstance(p, Stitches) and p.where is Where.RING]
        span = body[0].span.to(self.tokens[self.at - 1].span)
        lead = marks if said is body else [p for p in marks if isinstance(p, FreeLoops)]
        if starts and not told:
            raise self.fail("rounds without the ring in what is repeated")
        return [*lead, Repeat(from_the_start(settled(said)), times, span)]


def _several_plain(part: Part) -> bool:
    """'24 sc': so many stitches, one in each."""
    if not isinstance(part, Stitches) or not isinstance(part.times, int):
        return False
    return part.times > 1 and part.unit.made == part.unit.uses == 1
