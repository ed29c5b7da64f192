"""Rounds told by an earlier one: 'repeat R8-R12', 'as the round before'; and by the change from it:
'same again but 2 sc, dec', where what follows the change is the whole work of the round."""

from __future__ import annotations

from roundproof.expressions import expression
from roundproof.frozen import replace
from roundproof.notation.numerals import value as numeral
from roundproof.notation.tokens import plain
from roundproof.notation.tree import Again, Fill, Instruction, Repeat, Stitches
from roundproof.source import Line, Span

_A_ROUND = r"(?:rounds?|rnds?|rows?|rds?|r)"
_NUMBER = rf"(?:{_A_ROUND}\.?\s*(?P<{{0}}>\d+)|(?P<{{0}}_>\d+)(?:st|nd|rd|th)\s+{_A_ROUND})"
_AS_BEFORE = expression(
    r"(?:rep(?:eat)?\.?\s+|work\s+)?(?:ditto|(?:the\s+|exactly\s+the\s+)?(?:same|as|like|last|previous))"
    r"(?:\s+(?:as|like|in|for|the|that|thing|last|previous|prev\.?|preceding|above|before|again|one"
    rf"|{_A_ROUND}))*\s*(?=$|[(\[{{<=.,;!-]|\d+\s*st)"
)
"""'same as the round before', 'as above', 'ditto'."""
_AGAIN = expression(
    r"(?:(?P<lead>rep(?:eat)?\.?|(?:work\s+)?(?:the\s+)?(?:same\s+)?(?:as|like)(?:\s+for)?(?:\s+in)?)\s+)?"
    rf"(?:the\s+)?{_NUMBER.format('first')}"
    rf"(?:\s*(?:-|to|and|&|\+)\s*(?:{_A_ROUND})?\.?\s*(?P<last>\d+))?"
    r"(?:\s*,?\s*(?:(?P<more>\d+|[a-z]+)\s*(?:more\s*times?|times?\s*more)|x\s*(?P<x>\d+)"
    r"|(?P<times>\d+|[a-z]+)\s*times|(?P<once>once|twice)(?:\s+more)?))?"
)
_AGAIN_STARTS = ("rep", "work", "the", "same", "as", "like", "r")
_LIKE = (*_AGAIN_STARTS, "ditto", "exactly", "last", "prev")
_BUT = expression(
    r"\s*(?:rep(?:eat)?\s+|work\s+)?(?:(?:the |exactly the )?same|as|like)\b[^,;:()\[\]*]{0,30}?"
    r",?\s*\b(?:but|except)\s+(?:(?:with|this time|now|it's)\s+)*"
)


def changed(line: Line) -> Line | None:
    """The work behind the words of a change; None where there are none."""
    match = _BUT.match(plain(line.text))
    if match is None:
        return None
    return Line(line.text[match.end() :], line.span.cut(match.end(), len(line.text)))


def all_round(work: Instruction) -> Instruction:
    """'2 sc, dec' instead of what was repeated before is repeated too; '24 sc' is all."""
    items = work.items
    once = [i for i in items if isinstance(i, Stitches) and isinstance(i.times, int)]
    if len(items) < 2 or len(once) < len(items):
        return work
    span = items[0].span.to(items[-1].span)
    return replace(work, items=(Repeat(items, Fill(), span),))


def words_of_again(text: str) -> int:
    """How many characters of a plain text say that earlier rounds are repeated."""
    match = _AS_BEFORE.match(text) or _AGAIN.match(text)
    return len(match.group().rstrip()) if match else 0


def again_of(line: Line, round_: int) -> Again | None:
    """'repeat R8-R12 3 more times', 'as the round before' in a round of that number."""
    text = plain(line.text).strip()
    if round_ > 1 and text.startswith(_LIKE) and _AS_BEFORE.match(text):
        return Again(round_ - 1, round_ - 1, 1, ink(line))
    match = _AGAIN.match(text) if text.startswith(_AGAIN_STARTS) else None
    if match is None or not (match["lead"] or match["more"]):
        return None
    groups = match.groupdict()
    number = {n.rstrip("_"): _times_said(g) for n, g in groups.items() if g and n != "lead"}
    times = number.get("more") or number.get("x") or number.get("times") or number.get("once") or 1
    last = number.get("last", number["first"])
    return Again(number["first"], last, times, ink(line))


def _times_said(words: str) -> int:
    """'3', 'three', 'twice'."""
    if words.isdigit():
        return int(words[:6])
    return {"once": 1, "twice": 2}.get(words) or numeral(words) or 1


def ink(line: Line) -> Span:
    """The span of the writing in a line, without the white space around it."""
    text = line.text
    return line.span.cut(len(text) - len(text.lstrip()), len(text.rstrip()))
