"""Labels at the start of a line: 'R7', 'Rounds 8-17 (10 rounds):', '4.', '4th row', 'Next'."""

from __future__ import annotations

import re
from itertools import pairwise

from roundproof.expressions import expression
from roundproof.frozen import dataclass
from roundproof.notation.numerals import value
from roundproof.notation.tokens import plain
from roundproof.notation.tree import Label
from roundproof.source import Line, Span

_WORD = r"(?:rounds?|rnds?|rows?|rds?|rw|r)"
_LEAD = r"\s*(?:[|•·]\s*|[-*]\s+|\[\s*x?\s*\]\s*)?"
_TO = r"(?:->|[-/&+,>]|~(?=\S)|(?:through |up )?to|thru|through|(?:up )?until|till?|and|t/m)"
_SUFFIX = r"(?:st|nd|rd|th|[ªº°])?"
_SAID = rf"(?:\s*\(\s*(?P<rounds>\d+)\s*{_WORD}\s*\))?"
_SIDE = r"(?:\s*\((?:rs|ws|right side|wrong side)\))?"
_NTH = r"(?:(?:#|no\.|nr\.?|number)\s*)?"
_MORE = rf"\s*{_TO}\s*(?:{_WORD}\.?\s*)?{_NTH}"
_SHUT = rf"(?:\.?\)(?={_MORE}\d+\.?\))|\.\.|[./>])?"
"""What may close the first number of a range: '5) - 7)'."""
_NUMBERS = (
    rf"\d+{_SUFFIX}(?:r(?=[~-]))?"
    rf"(?:(?!\.-\s+\d){_SHUT}-?{_MORE}(?:(?:and|&)\s*)?\d+{_SUFFIX})*"
)
_NAMED = expression(
    rf"{_LEAD}(?:\d+\s*[.)]\s*)?(?P<word>{_WORD})\s*\.?\s*{_NTH}(?P<numbers>{_NUMBERS})(?![\d\w])"
    rf"{_SAID}{_SIDE}\s*(?P<end>[:.)=~>;|/-]+|(?=\s|$|[(*\[{{<\"]))\s*"
)
_NUMBERED = expression(
    rf"{_LEAD}(?:from\s+)?(?P<numbers>{_NUMBERS})"
    rf"(?:\.?\s*(?P<word>{_WORD})\b\.?(?:\s*inclusive\.?)?{_SIDE}\s*(?P<end>[:.)=~-]*)"
    rf"|{_SAID}{_SIDE}(?:\s*[.):>~]+(?!\d)|\s*\||/(?=\s)|\s+[-=>]+(?=\s)))\s*"
)
_END = expression(rf"{_SUFFIX}[\s:.)=~>;|/,-]*")
"""What stands between the number of a label and its work."""
_LISTS = expression(r"[,&+]|and")
_FULL_STOPS = expression(rf"\s*\d+\.\s*{_WORD}\.\s*\d+\s+[a-z]")
"""'2. row. 6 sc': the number of the round stands before the word."""
_LISTED = expression(r"\s*\d+\s*[.)]\s*(?=\D)")
_TICKED = expression(r"\s*(?:\[\s*x?\s*\]|\|)\s*(?P<numbers>\d+)\s+(?=\S)")
_SPELT = r"[a-z]+(?:[ -][a-z]+)?"
_IN_WORDS = expression(
    rf"\s*(?:(?P<word>{_WORD})\.?\s+(?P<a>{_SPELT})(?:\s*{_TO}\s*(?P<b>{_SPELT}))?"
    rf"|(?P<a2>{_SPELT})(?:\s*{_TO}\s*(?P<b2>{_SPELT}))?\s+(?P<word2>{_WORD}))\b\s*[:.)=-]+\s*"
)
_RELATIVE = expression(
    rf"\s*(?:(?:next|following|last|final)\s+(?:(?P<n>\d+|{_SPELT})\s+)?(?P<word>{_WORD})\b"
    r"\s*[:.)=-]+\s*)"
)
_WITHIN = expression(rf"(?<=[.)\]}}>;])\s*(?={_WORD}\.?\s*\d+\s*(?:[-:.)]|to\b|and\b|&))")
_AFTER_COUNT = expression(rf"(?<=[\d.)\]}}>;])\s+(?={_WORD}\.?\s*(?P<n>\d+)\b)")
_ANOTHER = expression(rf"[\d.)\]}}>;]\s*{_WORD}\.?\s*\d")
"""What a second label on a line looks like: most lines have none, and are not searched further."""
_ROUNDS = expression(rf"\(\s*(\d+)\s*{_WORD}\s*\)")
HIGHEST = 100_000
"""No label is taken for more than this; one that reaches it is not read."""


@dataclass(frozen=True, slots=True)
class Labelled:
    """A label and where the work begins in the line. `rounds` is the number of rounds that the
    text says a range has, with its place. `counted_on` tells that the words name no number ('Next
    round'): the label then holds how many rounds there are, from 1."""

    label: Label
    work: int
    rounds: tuple[int, Span] | None = None
    up_to: tuple[int, int] | None = None
    """'Rnd 6 - 12 sc' with nothing to close the label: the last round and where the work begins,
    should it be a range after all."""
    counted_on: bool = False


def label(line: Line) -> Labelled | None:
    """The label a line starts with, or None."""
    text = plain(line.text)
    match, counted = _NAMED.match(text), _may_count(text)
    if counted and (match is None or _FULL_STOPS.match(text)):
        match = _NUMBERED.match(text)
    if match is None and not counted:
        return _in_words(line, text)
    if match is None:
        match = _TICKED.match(text)
        return _in_words(line, text) if match is None else _labelled(line, match, match.end())
    return _labelled(line, match, match.end(), _own(match))


def _may_count(text: str) -> bool:
    """Whether a line may start with the number of its round, behind a sign or without."""
    lead = text.lstrip()
    return lead[:1].isdecimal() or lead.startswith(("|", "•", "·", "-", "*", "[", "from"))


def _number_first(match: re.Match[str]) -> bool:
    """Whether a label has its number before the word for a round."""
    return match.re.groupindex["numbers"] == 1


def _labelled(line: Line, match: re.Match[str], work: int, own: int = 0) -> Labelled:
    """The label that a match is. `own` is how many of its numbers belong to it, 0 for all: the
    others are the beginning of the work."""
    groups, from_ = match.groupdict(), match.start("numbers")
    found = list(re.finditer(r"\d+", groups["numbers"]))
    numbers = [_number(n[0]) for n in found]
    first, last = numbers[0], numbers[own - 1]
    word = groups.get("word") or ""
    start = len(line.text) - len(line.text.lstrip())
    end = match.end("numbers")
    if own:
        end = from_ + found[own - 1].end()
        behind = _END.match(plain(line.text), end)
        work = behind.end() if behind else end
    elif _number_first(match):
        end = from_ + len(groups["numbers"].rstrip("stndrhª º°"))
    label_ = Label(first, last, line.span.cut(start, end), row=word.startswith(("row", "rw")))
    said = None if own else groups.get("rounds")
    rounds = (_number(said), line.span.cut(*match.span("rounds"))) if said else None
    up_to = (numbers[1], match.end()) if own == 1 and numbers[1] > first else None
    return Labelled(label_, work, rounds, up_to)


def _own(match: re.Match[str]) -> int:
    """How many of the numbers a label seems to have are its own, 0 for all of them. The last one of
    'Rnd 2 - 12 sc' and 'Rnds 6-8 - 24 sc' is the work: a dash stands apart, and nothing closes the
    label; that of 'R3, 12 sc' does not follow the one before it."""
    numbers, word = match["numbers"], match.groupdict().get("word") or ""
    found = list(re.finditer(r"\d+", numbers))
    closed = match.groupdict().get("end") or _number_first(match)
    plural = word.endswith("s") and len(word) > 2
    ranged = False
    for at, (before, after) in enumerate(pairwise(found), 1):
        first, last = int(before[0][:9]), int(after[0][:9])
        between = numbers[before.end() : after.start()]
        listed = _LISTS.search(between) is not None
        apart = re.fullmatch(r".*\s-+\s+|\.-+\s+|,\s+", between) is not None
        single = at == 1 and apart and not plural and not closed
        if single or (last <= first and apart) or (last != first + 1 if listed else ranged):
            return at
        ranged |= not listed and "/" not in between
    return 0


def _in_words(line: Line, text: str) -> Labelled | None:
    """'Round one:', 'Fifth and sixth rounds:', 'Next 9 rounds:'."""
    if not any(word.startswith("r") for word in text.split(None, 7)[:7]):
        return None  # the word for a round comes soon, if at all
    match = _IN_WORDS.match(text)
    if match and value(match["a"] or match["a2"]) is not None:
        first = value(match["a"] or match["a2"])
        last = value(match["b"] or match["b2"] or match["a"] or match["a2"])
        if first is None or last is None:
            return None
        word = match["word"] or match["word2"]
        span = line.span.cut(0, max(match.end(g) for g in ("a", "b", "a2", "b2", "word2")))
        return Labelled(Label(first, last, span, row=word.startswith("row")), match.end())
    match = _RELATIVE.match(text)
    if match is None:
        return None
    said = match["n"] or "1"
    rounds = _number(said) if said.isdigit() else value(said) or 1
    span = line.span.cut(0, match.end("word"))
    row = match["word"].startswith("row")
    return Labelled(Label(1, rounds, span, row=row, given=False), match.end(), counted_on=True)


def split(line: Line) -> list[Line]:
    """Several rounds on one line as lines of their own."""
    text = plain(line.text)
    if not _ANOTHER.search(text, 3):
        return [line]
    listed = _LISTED.match(text)  # '6. Round 4:' is one round
    start = listed.end() if listed else 0
    named = _NAMED.match(text, start)
    cuts = {m.end() for m in _WITHIN.finditer(text, named.end() if named else start)}
    cuts |= _numbered_on(text, named)
    if not cuts:
        return [line]
    ends = [*sorted(cuts), len(text)]
    return [
        Line(line.text[a:b].rstrip() if b < len(text) else line.text[a:b], line.span.cut(a, b))
        for a, b in zip([0, *ends], ends, strict=False)
    ]


def _numbered_on(text: str, named: re.Match[str] | None) -> set[int]:
    """Where a line goes on with the round that follows the one before it: 'r4 … = 18 r5 …'."""
    if named is None:
        return set()
    at, cuts = int(re.findall(r"\d+", named["numbers"])[-1][:9]), set()
    for match in _AFTER_COUNT.finditer(text, named.end()):
        if int(match["n"][:9]) == at + 1:
            further = _NAMED.match(text, match.end())
            if further is None:
                continue
            cuts.add(match.end())
            at = int(re.findall(r"\d+", further["numbers"])[-1][:9])
    return cuts


def rounds_said(line: Line) -> tuple[int, Span, int, int] | None:
    """'(5 rounds)' after the work: the number, its span, and where the brackets stand."""
    match = _ROUNDS.search(plain(line.text))
    if match is None:
        return None
    return _number(match.group(1)), line.span.cut(*match.span(1)), match.start(), match.end()


def without_rounds_said(line: Line) -> Line:
    """The line with '(5 rounds)' behind the work blanked out, so that places stay."""
    said = rounds_said(line)
    if said is None:
        return line
    _, _, start, end = said
    return Line(line.text[:start] + " " * (end - start) + line.text[end:], line.span)


def _number(digits: str) -> int:
    return min(int(digits[:9]), HIGHEST)
