"""Which lines of some notes are rounds, read as the rounds of a pattern are; and their terms."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from enum import Enum, auto

from roundproof.frozen import dataclass
from roundproof.notation.labels import label
from roundproof.notation.reader import Context, read_script
from roundproof.notation.tree import Action, Round
from roundproof.pattern.model import Terms
from roundproof.source import Line, Source, Text
from roundproof.writing.pasted_marks import NoteLine

LONGEST = 1500
"""No line longer than this is read as a round."""
_MOST_JOINED = 4
_NAMED = re.compile(r"(?i)^\W*(?:\d+\s*[.)]\s*)?(?:rounds?|rnds?|rds?|rows?|rw|r)\.?\s*\d")
_BEHIND = re.compile(r"(?i)^\W*\d+\s*(?:st|nd|rd|th)?\s*(?:rounds?|rnds?|rds?|rows?|rw)\b")
_STITCH = re.compile(
    r"(?i)(?<![a-z])(?:[hdt]?dc|[sd]?tr|sc|htr|inc|dec|inv ?dec|ch|sl ?st|ss|mr|magic|"
    r"increase|decrease|crochet|chain|sts?|around|even|rep(?:eat)?)(?![a-z])|\(\d+\)\s*$"
)
_STARTS = re.compile(
    r"(?i)(?<![a-z])(?:magic (?:ring|circle|loop)|adjustable ring|mr|mc|(?:in|into) (?:a |the )?"
    r"ring|ch(?:ain)? ?\d|\d+ ?ch)(?![a-z])"
)
_MEANS = re.compile(r"(?i)^\W*[a-z0-9 ]{1,14}\s*(?:=|[–—-]\s|:)\s*[a-z]")


class Kind(Enum):
    """What a line is: a round, one in everything but that it does not read; an action between
    rounds; or other words."""

    ROUND = auto()
    NEARLY = auto()
    ACTION = auto()
    WORDS = auto()


@dataclass(frozen=True, slots=True)
class Reading:
    """What a line is. `first` is its number, 0 where it has none, `last` the last one of a range;
    `starts` tells whether it can begin a piece, `stated` whether it tells its count."""

    kind: Kind
    first: int = 0
    last: int = 0
    starts: bool = False
    stated: bool = False

    @property
    def worked(self) -> bool:
        return self.kind in (Kind.ROUND, Kind.NEARLY)


class Reader:
    """Reads lines in given terms; each wording once."""

    def __init__(self, terms: Terms, colours: Mapping[str, str]) -> None:
        self._context = Context(terms, colours, "notes")
        self._known: dict[str, Reading] = {}

    def read(self, text: str) -> Reading:
        if text not in self._known:
            self._known[text] = self._read(text)
        return self._known[text]

    def _read(self, text: str) -> Reading:
        if not text or text.startswith("#") or len(text) > LONGEST:
            return Reading(Kind.WORDS)
        line = Line(text, Source("notes", text).span(0, len(text)))
        found = label(line)
        script, findings = read_script(Text(text, line.span, (line,)), self._context)
        rounds = [entry for entry in script.entries if isinstance(entry, Round)]
        if found is None:
            return self._bare(text, rounds, not script.entries, bool(findings), script.entries)
        numbers = (found.label.first, max([found.label.last, *(r.label.last for r in rounds)]))
        kind = Kind.ROUND if rounds and not findings else Kind.NEARLY
        named = bool(_NAMED.match(text) or _BEHIND.match(text))
        bare = not text[found.work :].strip()
        if kind is Kind.NEARLY and not (bare and named):
            stitches = _STITCH.search(text, found.work)
            kind = (
                Kind.NEARLY if stitches and (named or rounds) and not _talks(text) else Kind.WORDS
            )
            if any(isinstance(entry, Action) for entry in script.entries):
                kind = Kind.ACTION
        stated = any(r.stated is not None for r in rounds)
        return Reading(kind, *numbers, found.label.first == 1, stated)

    def _bare(
        self,
        text: str,
        rounds: list[Round],
        foundation: bool,
        faulty: bool,
        entries: Sequence[object],
    ) -> Reading:
        """A line without a number. Words before the work ('Tail: ch 12') may name a piece."""
        if any(r.beside for r in rounds):
            return Reading(Kind.WORDS)
        chained = foundation or (len(rounds) == 1 and re.match(r"ch(?:ain)? ?\d+\b", text, re.I))
        if not chained and any(isinstance(entry, Action) for entry in entries):
            return Reading(Kind.ACTION)
        clean = foundation or (rounds and not faulty and not any(r.remark for r in rounds))
        if not clean or _MEANS.match(text) or not _STITCH.search(text):
            return Reading(Kind.WORDS)
        stated = any(r.stated is not None for r in rounds)
        return Reading(Kind.ROUND, starts=bool(_STARTS.search(text)), stated=stated)

    def joined(self, lines: Sequence[NoteLine]) -> tuple[str, int]:
        """The first line with those after it that a printed page broke it into, and how many
        lines that are. Taken together they must read where the first alone does not, or tell
        the count that it lacks."""
        first = self.read(lines[0].text)
        text, best, taken = lines[0].text, lines[0].text, 1
        if first.kind is Kind.ACTION and _goes_on(lines):
            return f"{text} {lines[1].text}", 2
        if not first.worked or (first.kind is Kind.ROUND and first.stated):
            return best, taken
        for number, line in enumerate(lines[1:_MOST_JOINED], 2):
            after = self.read(line.text)
            if line.blank or line.mark or after.kind is Kind.ACTION or label(_line(line.text)):
                break
            text = f"{text} {line.text}"
            if self._better(first, self.read(text)) and not (after.worked and not first.stated):
                best, taken = text, number
        return best, taken

    def _better(self, first: Reading, whole: Reading) -> bool:
        if whole.kind is not Kind.ROUND:
            return False
        return whole.stated if first.kind is Kind.ROUND else True


def _goes_on(lines: Sequence[NoteLine]) -> bool:
    """Whether 'Fasten off, leaving a long' goes on in the line after it."""
    first, after = lines[0].text, lines[1].text if len(lines) > 1 else ""
    whole = len(first) > 20 and not first.endswith((".", "!", ":", ")"))
    return whole and after[:1].islower() and len(after) < LONGEST and label(_line(after)) is None


def rounds_in(lines: Sequence[str], context: Context) -> tuple[int, int]:
    """How many rounds a piece has, and how many of its lines do not read yet."""
    block = "\n".join(lines)
    source, at, parts = Source("notes", block), 0, []
    for line in lines:
        parts.append(Line(line, source.span(at, at + len(line))))
        at += len(line) + 1
    script, findings = read_script(Text(block, source.span(0, at), tuple(parts)), context)
    rounds = [entry for entry in script.entries if isinstance(entry, Round)]
    unread = {f.span.begins[0] for f in findings if f.check != "note-like-round"}
    return sum(max(1, r.label.last - r.label.first + 1) for r in rounds), len(unread)


def numbered(text: str) -> bool:
    """Whether a line starts as a round does, whatever comes after."""
    return len(text) <= LONGEST and label(_line(text)) is not None


def _line(text: str) -> Line:
    return Line(text, Source("notes", text).span(0, len(text)))


def _talks(text: str) -> bool:
    """Whether a line that names a round only talks of it: 'Round 12 is where the eyes go.'"""
    return bool(
        re.match(r"(?i)^\W*\w+\s*\d+\s+(?:is|are|was|shows?|and then|you|will|looks)\b", text)
    )


# ---- terms ----
@dataclass(frozen=True, slots=True)
class TermsFound:
    """The terms of some notes, and why: "said", "words", "mixed" (words of both), "unsure" (`dc`
    alone, which both have), or "none"; "shared" where they are those of all patterns of a site."""

    terms: Terms
    why: str
    line: int = 0


_OF = {"us": Terms.US, "american": Terms.US, "uk": Terms.UK, "british": Terms.UK}
_SAID = re.compile(
    r"(?i)\b(?P<a>u\.?s\.?(?:a\.?)?|american|u\.?k\.?|british)(?:\s+english)?(?:\s+crochet)?"
    r"(?:\s+stitch)?\s+(?:terms?|terminology|notation|abbreviations|names|stitches)\b"
    r"|\b(?:terms?|terminology|notation|abbreviations)\s*(?:[:=(-]|are|is)?\s*(?:in\s+)?"
    r"(?P<b>us|u\.s\.|american|uk|u\.k\.|british)\b"
)
_US = re.compile(r"(?i)(?<![a-z])(?:h?scs?|hdcs?|sc\d?tog|single crochets?|half double)(?![a-z])")
_UK = re.compile(
    r"(?i)(?<![a-z])(?:htrs?|half treble|htr\d?tog|miss (?:the |a )?(?:next|\d+|one|two|first|st))"
    r"(?![a-z])"
)
_BOTH = re.compile(r"(?i)(?<![a-z])(?:dcs?|dc\d?tog|trs?|double crochets?)(?![a-z])")


def terms_of(lines: Sequence[NoteLine], shared: Terms | None = None) -> TermsFound:
    """The terms that the notes are in, by what they say and by the words they use; else those
    that all patterns of the site share."""
    found = _terms_in(lines)
    if shared is not None and found.why in ("unsure", "none"):
        return TermsFound(shared, "shared")
    return found


def _terms_in(lines: Sequence[NoteLine]) -> TermsFound:
    us = sum(len(_US.findall(line.text)) for line in lines)
    uk = sum(len(_UK.findall(line.text)) for line in lines)
    told = [(line, _said(line.text)) for line in lines if len(line.text) < LONGEST]
    said = [(line.number, terms) for line, all_of in told for terms in all_of]
    if len({terms for _, terms in said}) == 1:
        return TermsFound(said[0][1], "said", said[0][0])
    if us and uk:
        return TermsFound(Terms.UK if uk > us else Terms.US, "mixed")
    if us or uk:
        return TermsFound(Terms.UK if uk else Terms.US, "words")
    if said:
        return TermsFound(said[0][1], "mixed", said[0][0])
    double = any(_BOTH.search(line.text) for line in lines)
    return TermsFound(Terms.US, "unsure" if double else "none")


def _said(text: str) -> list[Terms]:
    found = (m["a"] or m["b"] for m in _SAID.finditer(text))
    words = (re.sub(r"\W", "", word).lower() for word in found)
    return [_OF["us" if word == "usa" else word] for word in words]


def again(reading: Reading, last: int) -> bool:
    """Whether a round starts anew after one of some number."""
    return reading.starts or (0 < reading.first <= last)
