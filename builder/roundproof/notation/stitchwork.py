"""Reading one stitch with its number and its tail: '3 sc', 'inc x 6', 'sc in each st around'."""

from __future__ import annotations

from collections.abc import Callable

from roundproof.notation.cursor import CLOSE, WORKED, Cursor
from roundproof.notation.tails import Tail
from roundproof.notation.tokens import BIGGEST
from roundproof.notation.tree import (
    Chain,
    Fill,
    Item,
    Repeat,
    Stitches,
    Unit,
)
from roundproof.notation.units import SINGLE, named, one
from roundproof.source import Span

COUNTED = frozenset(
    {"st", "stitch", "foreign", "own", "inc", "dec", "inv dec", "tog", "foreign tog"}
    | {"total", "each"}
)
"""Parts that may stand behind a number in a stitch count: '(30 sts)', '(24 sc total)'."""

_DASHES = ("-", "=", ">", "|", "/")
_CHAIN = (("ch", 1),)
_BY = ("times", "num")
_TRAILS = frozenset({"times", "num", "(", ".", "*"})
"""What the number behind a stitch may begin with."""


def stitches(at: Cursor) -> list[Item]:
    """One stitch, with a colour before it where its tail names one. Raises Unread."""
    start = at.at
    numbered = at.seq[start] == "num"
    part = at.seq[start + numbered]
    if at.seq[start + numbered + 1] in _SHUT and part in _BARE:
        return [_alone(at, numbered)]
    if part == "around" and at.match("around", "in", "stitch"):  # 'work even in sc'
        kind = at.tokens[at.at - 1].value
        return [Stitches(one(kind), Fill(), at.span(start))]
    count = at.take().number if numbered else None
    if numbered and part == "times" and at.part(1) in COUNTED:
        at.take()
    every = at.at if at.part() == "each" and at.part(1) in ("ord", "st") else None
    if every is not None:  # 'every 3rd st inc'
        at.take()
        nth = at.take().number if at.part() == "ord" else 1
        if at.part() in ("and", "+") and at.part(1) == "ord":  # 'every 4th and 5th st together'
            at.at += 2
            at.place_word()
            at.match(".")
            if at.match("together"):
                dec = Stitches(named(((SINGLE, 1),), 2), 1, at.span(start))
                plain = Stitches(one(SINGLE), nth - 1, at.span(start))
                return [Repeat((plain, dec) if nth > 1 else (dec,), Fill(), at.span(start))]
        at.place_word()
    unit = _unit(at, count)
    if unit is None and at.part() == "next" and at.part(1) == "num":
        ahead = 2 + (at.part(2) == "st")
        if at.part(ahead + (at.part(ahead) == ".")) == "together":
            at.take()
            count = at.take().number  # 'work next 2 sts together'
    if unit is None and count is not None and count > 1 and _all_together(at):
        unit, count = named(((SINGLE, 1),), count), None  # 'crochet two together'
    if unit is None and count is not None and _bare(at):
        unit = Unit(((SINGLE, 1),))  # '3, inc': a bare number among stitches
    if unit is None:
        if count is not None and at.part() not in ("word", "num", "ord"):
            at.at = start
        raise at.fail("a stitch, like `sc`, `inc` or `dec`")
    if unit.makes == _CHAIN:
        return [_chain(at, count, start)]
    again = at.number(_BY) if count is not None else None
    if count is None:
        count = _trailing(at)
        if unit.skips and count is not None:
            at.place_word()  # 'miss 1 dc'
    elif again is not None:  # '2 sc x 6'
        count = min(count * again, BIGGEST)
    tail = Tail(at, unit, count)
    if every is not None:
        tail.every, tail.times = nth, Fill()
    return tail.items(start)


_SHUT = frozenset({",", ";", ")", "]", "}", "end"})
_BARE = frozenset({"stitch", "inc", "dec", "inv dec"})
"""'3 sc,' and 'inc)': most stitches have nothing but a number before them and a stop behind."""


def _alone(at: Cursor, numbered: bool) -> Item:
    token, span = at.tokens[at.at + numbered], at.span(at.at)
    count = at.tokens[at.at].number if numbered else 1
    at.at += numbered + 1
    span = Span(span.source, span.start, token.end)
    if token.value == "ch" and token.part == "stitch":
        at.back_down = False
        return Chain(count, span)
    return Stitches(WHOLE[token.part] or one(token.value), count, span)


WHOLE: dict[str, Unit | None] = {
    "stitch": None,
    "inc": named(((SINGLE, 2),), 1),
    "dec": named(((SINGLE, 1),), 2),
    "inv dec": Unit(((SINGLE, 1),), 2, "inv dec"),
}


def _unit(at: Cursor, count: int | None) -> Unit | None:
    part = at.part()
    if part in ("stitch", "foreign"):
        return _stitch_unit(at)
    if part == "st" and count is not None and at.part(1) in ("in", "each", "around", "ring"):
        at.doubts.append(at.take())  # '2 st in each st'
        return Unit(((SINGLE, 1),))
    if part == "own":
        return at.take().unit
    if part == "around" and count is None:
        return Unit(((SINGLE, 1),))  # 'work even': the tail takes the word itself
    if part in ("tog", "foreign tog"):
        token = at.take()
        return named(((token.value, 1),), max(1, token.number))
    if part == "inc":
        at.take()
        glued = at.part() == "num" and at.tokens[at.at].glued and at.tokens[at.at].number > 2
        if glued and not at.choose():  # 'inc3': three in one, or three increases
            return named(((SINGLE, at.take().number),), 1)
        return named(((SINGLE, 2),), 1)
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
    following = at.part()
    if kind == "spike sc":
        at.skip("in", "st", "round", "aside") if not at.looks("in", "next") else None
        if at.looks("num", "round"):  # 'into the st 2 rnds below'
            at.at += 2
            at.skip("aside")
    if following in _SHAPED and kind != "ch":
        at.take()
        return _SHAPED[following](kind)
    together = _together(at) if following in ("next", "first", "last") else 0
    return named(((kind, 1),), together) if together else one(kind)


_SHAPED: dict[str, Callable[[str], Unit]] = {
    "inc": lambda kind: named(((kind, 2),), 1),
    "dec": lambda kind: named(((kind, 1),), 2),
    "inv dec": lambda kind: Unit(((kind, 1),), 2, "inv dec"),
}
"""'hdc inc', 'dc dec': what the word behind a stitch makes of it."""


def _all_together(at: Cursor) -> bool:
    """'2 together', '2 sts. together': behind the number."""
    ahead = int(at.part() == "st")
    ahead += at.part(ahead) == "."
    if at.part(ahead) != "together":
        return False
    at.at += ahead + 1
    return True


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
    if at.part() not in _BARE_ENDS and at.part() not in _DASHES:
        return False
    if len(at.tokens) == 1 or (at.at > 1 and at.seq[at.at - 2] in ("hue", "colour")):
        return True
    if at.at == 1 and at.part() in ("fasten off", "join", "leave"):
        return True
    return "ring" in at.seq or not WORKED.isdisjoint(at.seq) or at.part() in ("in", "each")


_BARE_ENDS = frozenset(
    {*CLOSE, *CLOSE.values(), ",", ";", "+", "*", "end", "rep", "in", "each", "together", "ring"}
    | {"fasten off", "join", "leave"}
)
"""What may stand behind a bare number: '3, inc', '8 leave a tail'."""


def _chain(at: Cursor, count: int | None, start: int) -> Item:
    if count is None and (at.part() == "num" or at.looks("times", "num")):
        at.match("times")
        count = at.take().number
    at.back_down = False
    return Chain(1 if count is None else count, at.span(start))


def _trailing(at: Cursor) -> int | None:
    """The number after a stitch: 'sc 3', 'inc x 6', 'dec 6 times', 'sk 1 st'."""
    if at.seq[at.at] not in _TRAILS:
        return None
    found = at.number(_BY)
    for form in (("(", "num", "times", ")"), ("(", "times", "num", ")")):
        if found is None:  # 'dec (6 times)'
            found = at.number(form)
    if found is None:
        found = at.number((".", "times", "num"))  # 'inv. dec. x 6'
    if (
        found is None
        and at.looks("*", "num")
        and at.tokens[at.at].glued
        and at.tokens[at.at + 1].glued
    ):
        found = at.number(("*", "num"))  # 'inc*3'
    if found is None and at.part() == "num" and not at.looks("num", "st", "free"):
        found = at.take().number
        again = at.number(("times", "num"))
        if again is not None:  # 'sc 2 x 6'
            return min(found * again, BIGGEST)
        at.match("times") or at.match("st")
    return found
