"""The usual wordings, which most rounds of every pattern are written in, read in one go.

For 'R7: (2 sc, inc) x 6 (24)' one look at each item does, where the general reader takes many. It
is the general reader's grammar still: whatever is read here is read there as the same tree at the
same places, and the tests hold the two together. A line with anything else in it, and any wording
with two meanings, is left to the general reader.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Set
from functools import lru_cache

from roundproof.notation.cursor import BRACKETS, CLOSE, LOOPS
from roundproof.notation.labels import Labelled
from roundproof.notation.loops import instruction_of
from roundproof.notation.stitchwork import WHOLE
from roundproof.notation.tokens import Lexicon, plain, vocabulary
from roundproof.notation.tree import (
    Colour,
    Fill,
    Instruction,
    Item,
    Label,
    Repeat,
    Round,
    Stated,
    Stitches,
    Times,
    Unit,
)
from roundproof.notation.units import joined, named, one
from roundproof.reference import stitches
from roundproof.source import Line, Span

_LONGEST = 1000
"""Characters; a longer line is no usual one."""
_DEEPEST = 3
_FILL = Fill()
_N = r"[1-9]\d{0,5}"
_ST = r"(?:sts?|stitch(?:es)?)"
_Match = re.Match[str]

_START = re.compile(
    r"(?P<named>(?P<word>r(?:ounds?|nds?|ows?|ds?)?)\.? *(?P<first>\d{1,5})"
    r"(?:-(?:(?P=word))?(?P<last>\d{1,5}))?)(?: *[:.)] *| +)(?P<work>)"
    r"(?:(?:in )?(?P<loop>[bf]lo)(?: *[:,] *| +))?"
).match
"""A label, and a loop named for the whole round."""

_PART = re.compile(
    rf"(?:(?P<stitch>(?:(?P<count>{_N}) *)?(?P<word>(?:inv )?[a-z]++(?:[23]tog)?)"
    rf"(?: +(?:(?P<x>x *)?(?P<behind>{_N})"
    rf"|in (?P<each>each (?:of )?)?(?:the )?next (?P<over>{_N}) {_ST}"
    rf"|in (?:the )?(?P<next>next) {_ST}|(?P<all>in each {_ST}(?: around)?|around"
    r"|in (?P<strand>[bf]lo) around)))?)"
    rf"|(?P<close> *(?P<sign>[)\]]) *(?:x *(?P<a>{_N})|(?P<b>{_N}) *(?:times|x)|around))"
    rf"|(?P<star> *\* *(?:x *(?P<c>{_N})|(?<= )(?P<d>{_N}) times|around))"
    rf"|(?P<rep>rep(?:eat)? from \* (?:(?P<more>{_N}) more times|around|to end)))"
    r"(?: *[,;] *|(?= *(?:[.)\]*([<{=-]|\Z)))"
    r"|(?P<open>[(\[*]) *"
    r"|(?P<yarn>(?:with|in|change to) (?P<name>[a-z]++))(?: *[,:] *| +)"
    r"|(?P<total>(?P<stop>\.?) *(?P<opener>[(\[<{=-]) *(?P<stated>\d{1,6})"
    r"(?: *(?:sts|stitches))?(?: *(?P<closer>[)\]>}]))?) *\.? *\Z"
    r"|(?P<end>\.?) *\Z"
).match
"""One item with the stop behind it, a bracket or star, the stated count, or the end of the line."""

_FIXED = frozenset(
    {"in", "each", "of", "the", "next", "around", "x", "times", "more", "rep", "repeat", "from"}
    | {"st", "sts", "stitch", "stitches", "inv", "tog", "to", "end", "with", "change", "blo", "flo"}
)
"""Words that `_PART` knows by themselves."""
_BEHIND = {"x", "in", "around"}
"""Words that may stand right behind a stitch."""


@lru_cache(maxsize=256)
def _unit(text: str, uk: bool) -> Unit | None:
    """What the words for a plain stitch, an increase or a decrease make, in one set of terms."""
    bare, together = (text[:-4], int(text[-4])) if text.endswith(("2tog", "3tog")) else (text, 0)
    words = tuple(bare.split())
    phrases = vocabulary(uk).get(words[0], ()) if words else ()
    if any(len(known) > 1 and known[1] in _BEHIND for known, _ in phrases):
        return None
    entry = next((entry for known, entry in phrases if known == words), None)
    if entry is None or len(bare) == 1:
        return None
    if entry.part == "stitch" and _is_plain(entry.value):
        return named(((entry.value, 1),), together) if together else one(entry.value)
    return None if together else WHOLE.get(entry.part)


def _is_plain(kind: str) -> bool:
    """Whether a stitch goes into the top of one other, and its name means nothing else."""
    row = stitches()[kind]
    simple = row.into == "top" and row.uses == 1 and not row.made_of and not row.vague
    return simple and kind not in ("ch", "sl st")


class Usual:
    """Reads the usual wordings with the words of one pattern."""

    def __init__(self, lexicon: Lexicon, places: Set[str] = frozenset()) -> None:
        """`places` are the words without one of which a line names no place."""
        mine, self.uk, known = lexicon.mine, lexicon.uk, vocabulary(lexicon.uk)
        self.other = {*mine, *places}
        self.units: dict[str, Unit] = {}
        """What the words for stitches make, as they are met."""
        self.yarns = {
            word: phrases[0][1].value
            for word, phrases in mine.items()
            if [(len(words), entry.part) for words, entry in phrases] == [(1, "colour")]
            and all(len(words) == 1 for words, _ in known.get(word, ()))
            and _unit(word, self.uk) is None
            and word not in places
        }
        clear = all(word.isalpha() for word in mine) and all(map(_has_letters, places))
        letters = lexicon.letters.keys()
        self.clear = clear and _FIXED.isdisjoint(self.other) and letters.isdisjoint("xX")
        """Whether no word of the pattern's own, which come first, may stand amid ours."""

    def unit(self, word: str) -> Unit | None:
        """What a word for a plain stitch makes that means nothing else in the pattern."""
        found = _unit(word, self.uk) if self.clear and word not in self.other else None
        if found is not None:
            self.units[word] = found
        return found

    def round(self, line: Line) -> tuple[Labelled, Round] | None:
        """The label and the round of a line, if all of it is in the usual wordings."""
        text = plain(line.text)
        start = _START(text) if len(text) <= _LONGEST else None
        if start is None:
            return None
        work = _Work(self, line, text, start.end())
        if not work.read() or work.has_two_meanings():
            return None
        _, begins = start.span("work")
        if work.looped and start["loop"]:
            return None
        loop = LOOPS.get(start["loop"])
        instruction = (
            instruction_of(work.found)
            if work.looped
            else Instruction(tuple(joined(work.found)), loop)
        )
        label, span = _label(start, work), work.span(begins, work.ended)
        return Labelled(label, begins), Round(label, (instruction,), work.stated, line.span, span)


class _Work:
    """The work of one line while it is read. Each step takes one part of it and tells whether it
    is a usual one where it stands."""

    def __init__(self, usual: Usual, line: Line, text: str, at: int) -> None:
        self.usual, self.units, self.yarns = usual, usual.units, usual.yarns
        self.written, self.text, self.at = line.text, text, at
        self.source, self.base = line.span.source, line.span.start
        self.found: list[Item] = []
        self.outer: list[tuple[str, int, list[Item]]] = []
        """The groups that are open: their signs, where they start, and what stands before them."""
        self.parted = True
        """Whether an item may stand here."""
        self.by = False
        """Whether the last item was 'inc x 6', whose number may be meant for more."""
        self.looped = False
        """Whether an item names a loop of its own."""
        self.stated: Stated | None = None
        self.ended = 0
        """Where the work ends in the line, once that is known."""

    def span(self, start: int, end: int) -> Span:
        return Span(self.source, self.base + start, self.base + end)

    def read(self) -> bool:
        """Take all of the line; False where it is not in the usual wordings alone."""
        text, steps = self.text, _STEPS
        while not self.ended:
            part = _PART(text, self.at)
            if part is None or not steps[part.lastgroup or ""](self, part):
                return False
            self.at = part.end()
        return True

    def stitch(self, part: _Match) -> bool:
        """'3 sc', 'sc 3', 'inc x 6', 'sc in next 3 sts', 'sc around'."""
        count, word, by, behind, each, over, next_, all_ = part.group(*_STITCH)
        unit = self.units.get(word) or self.usual.unit(word)
        if unit is None or not self.parted or (count and behind):
            return False
        times: Times = int(count or behind or 1)
        if over or next_ or all_:
            if count and (unit.word or unit.uses > 1 or all_ == "around" or part["strand"]):
                return False
            times = _FILL if all_ else max(1, int(over or 1) // unit.uses)
            if count and (each or count != over):
                unit = _several(unit.makes[0][0], int(count))
        start, end = part.span("stitch")
        loop = LOOPS.get(part["strand"])
        self.looped |= loop is not None
        self.found.append(Stitches(unit, times, self.span(start, end), loop))
        self.by, self.parted = by is not None, part.end() > end
        return True

    def open(self, part: _Match) -> bool:
        """'(', '[' and the first star."""
        sign = part["open"]
        starred = sign == "*" and any(opened == "*" for opened, _, _ in self.outer)
        if starred or not self.parted or len(self.outer) == _DEEPEST:
            return False
        self.outer.append((sign, part.start(), self.found))
        self.found = []
        return True

    def close(self, part: _Match) -> bool:
        """') x 6', '] 6 times', ') around'."""
        opened = BRACKETS.get(self.outer[-1][0]) if self.outer else None
        often = part["a"] or part["b"]
        return opened == part["sign"] and not self.parted and self.repeat(part, often)

    def star(self, part: _Match) -> bool:
        """'* x 6', '* around': the second star."""
        often = part["c"] or part["d"]
        return self.starred() and not self.parted and self.repeat(part, often)

    def rep(self, part: _Match) -> bool:
        """'rep from * around', 'rep from * 5 more times'."""
        worked = bool(self.found) and not isinstance(self.found[-1], Colour)
        return self.starred() and worked and self.repeat(part, part["more"], 1)

    def starred(self) -> bool:
        """Whether the group in hand begins with a star."""
        return bool(self.outer) and self.outer[-1][0] == "*"

    def repeat(self, part: _Match, times: str | None, more: int = 0) -> bool:
        """The group in hand, so many times or all around. 'x 1' has two meanings."""
        body, end = tuple(joined(self.found)), part.end(part.lastgroup or 0)
        often = int(times) + more if times else _FILL
        _, start, self.found = self.outer.pop()
        self.found.append(Repeat(body, often, self.span(start, end)))
        self.by, self.parted = False, part.end() > end
        return often != 1

    def yarn(self, part: _Match) -> bool:
        """'with chalk', 'change to slate'."""
        key, parted = self.yarns.get(part["name"]), self.parted
        if key is not None:
            self.found.append(Colour(key, self.span(*part.span("yarn"))))
            self.parted = True
        return parted and key is not None

    def total(self, part: _Match) -> bool:
        """'(18)', '[18 sts]', '= 18': the stated count, with which the line ends."""
        self.ended = part.end("stop") if part["stop"] else part.start()
        self.stated = Stated(int(part["stated"]), self.span(*part.span("stated")))
        clothed = CLOSE.get(part["opener"]) == part["closer"]
        nothing_behind = self.written[part.end("total") :].isascii()  # not even a space of no width
        return clothed and nothing_behind and not self.parted and not self.outer

    def end(self, part: _Match) -> bool:
        """A full stop at the end belongs to the work."""
        self.ended = part.end("end")
        return not self.parted and not self.outer

    def has_two_meanings(self) -> bool:
        """'R7: sc' may be meant for the whole round, and so may the number of 'sc, inc x 6'."""
        *before, last = self.found
        if not isinstance(last, Stitches):
            return False
        alone = last.times == 1 and all(isinstance(item, Colour) for item in before)
        return alone or (self.by and bool(before))


_STITCH = ("count", "word", "x", "behind", "each", "over", "next", "all")
_STEPS: Mapping[str, Callable[[_Work, _Match], bool]] = {
    "stitch": _Work.stitch,
    "open": _Work.open,
    "close": _Work.close,
    "star": _Work.star,
    "rep": _Work.rep,
    "yarn": _Work.yarn,
    "total": _Work.total,
    "end": _Work.end,
}


def _has_letters(word: str) -> bool:
    return any(sign.isalnum() for sign in word)


@lru_cache(maxsize=256)
def _several(kind: str, count: int) -> Unit:
    """So many of a stitch in one place."""
    return named(((kind, count),), 1)


def _label(start: _Match, work: _Work) -> Label:
    first, last = start.group("first", "last")
    span = work.span(0, start.end("named"))
    return Label(int(first), int(last or first), span, row=start["word"].startswith("row"))
