"""Rounds named outside their labels: in assembly, photos, marks, notes, and how they move along
when rounds get other numbers.

Nothing is guessed: where it is not certain which piece a number belongs to, or which round bears
it, the place is told and left to the designer.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from roundproof.findings import Edit
from roundproof.frozen import dataclass
from roundproof.notation.edges import piece_of
from roundproof.pattern.model import (
    Around,
    At,
    Close,
    Embroider,
    Insert,
    Join,
    Joint,
    Pattern,
    Piece,
    Place,
    Step,
    Stuff,
)
from roundproof.source import Located, Span, Text
from roundproof.writing.numbers import Numbers

_WORD = r"(?:rounds?|rnds?|rows?|r)"
_MORE = (
    rf"\s*(?:-|–|—|,|&|\bto\b|\bthrough\b|\band\b|\bor\b)\s*{_WORD}\.?\s*\d{{1,6}}\b"  # R4 and R5
    r"|\s*(?:-|–|—|\bto\b)\s*\d{1,6}\b"  # R4-5
)
_COUNTED = r"\s*(?:sts?|stitch(?:es)?|[a-z]*(?:sc|dc|tr)|inc|dec|times|x|more|[cm]?m|g)\b"
_PLURAL = (  # rounds 4 and 5, but not: rounds 4 and 5 sts
    rf"(?:{_MORE}|\s*(?:,|&|\band\b|\bor\b)\s*\d{{1,6}}\b(?!{_COUNTED}))"
)
_NAMED = re.compile(
    rf"\b(?:(?:rounds|rnds|rows)\.?\s*\d{{1,6}}\b{_PLURAL}*|{_WORD}\.?\s*\d{{1,6}}\b(?:{_MORE})*)",
    re.IGNORECASE,
)
_NEAR = 200
"""Characters around a number in which the name of its piece is looked for."""
_DIGITS = re.compile(r"\d+")


@dataclass(frozen=True, slots=True)
class Moved:
    """A place where rounds are named, before and after. `after` is empty where it was left alone,
    with the reason in `why`."""

    span: Span
    before: str
    after: str = ""
    why: str = ""


class References:
    """Collects what becomes of the places where rounds are named."""

    def __init__(self, pattern: Pattern, numbers: Mapping[str, Numbers]) -> None:
        self.pattern = pattern
        self.numbers = numbers
        self.change = any(each.change for each in numbers.values())
        self.names = {p.key.lower(): p.key for p in pattern.pieces}
        self.names |= {p.name.lower(): p.key for p in pattern.pieces}
        self.edits: list[Edit] = []
        self.moved: list[Moved] = []

    def pattern_wide(self) -> None:
        """Everything outside the rounds."""
        for piece in self.pattern.pieces:
            self.piece(piece)
        for step in self.pattern.assembly:
            self.step(step)
        for photo in self.pattern.photos:
            self.words(photo.after)
            self.words(photo.alt)
        for entry in self.pattern.accept:
            self.words(entry.at)
        for text in (self.pattern.summary, self.pattern.care, self.pattern.safety_note):
            self.text(text)
        for text in self.pattern.open:
            self.text(text)

    def piece(self, piece: Piece) -> None:
        for mark in (piece.marks or {}).values():
            self.words(mark, piece.key)
        for edge in piece.starts.in_ if piece.starts else ():
            self.words(edge)
        path = piece.path or {}
        host = path.get("piece")
        for key in ("from", "to"):
            self.words(path.get(key), host.value if host else None)

    def step(self, step: Step) -> None:
        pieces = list(dict.fromkeys(self.verb(step)))
        self.words(step.after)
        self.text(step.step, pieces[0] if len(pieces) == 1 else None)

    def verb(self, step: Step) -> Iterator[str]:
        """Moves what a verb names; the pieces it is about."""
        verb = step.verb
        if isinstance(verb, Join):
            host = self.host(verb.to)
            self.words(verb.edge)
            self.words(verb.to)
            self.at(verb.at, host)
            self.around(verb.around, host)
            yield from filter(None, (self.host(verb.edge), host))
        elif isinstance(verb, Place):
            host = self.host(verb.piece)
            for label in verb.between:
                self.words(label, host)
            self.around(verb.around, host)
            yield from filter(None, (host,))
        elif isinstance(verb, Embroider):
            host = self.host(verb.piece)
            for line in verb.lines:
                self.words(line.from_, host)
                self.words(line.to, host)
            yield from filter(None, (host,))
        elif isinstance(verb, Joint):
            for point in verb.path:
                self.words(point)
        else:
            yield from filter(None, (self.single(verb),))

    def single(self, verb: Insert | Stuff | Close) -> str | None:
        if isinstance(verb, Close):
            self.words(verb.edge)
            return self.host(verb.edge)
        host = self.host(verb.piece)
        self.words(verb.how if isinstance(verb, Stuff) else verb.ends, host)
        return host

    def host(self, words: Located[str] | None) -> str | None:
        return piece_of(words.value, self.numbers) if words else None

    def at(self, at: At | None, host: str | None) -> None:
        for said in (at.footprint, *at.between, at.up) if at else ():
            self.words(said, host)

    def around(self, around: Around | None, host: str | None) -> None:
        self.words(around.from_ if around else None, host)

    # ---- one place ----

    def words(self, said: Located[str] | None, piece: str | None = None) -> None:
        if said is not None:
            self.span(said.span, piece)

    def text(self, text: Text | None, piece: str | None = None) -> None:
        if text is not None:
            self.span(text.span, piece)

    def span(self, span: Span, piece: str | None, before: int | None = None) -> None:
        """The rounds named in a stretch of the file. `piece` is the one they belong to where no
        piece is named beside them; `before` the index of the round that the words stand in."""
        if not self.change or span.source is not self.pattern.source:
            return
        text = span.text
        for found in _NAMED.finditer(text):
            key = self.beside(text, found) or piece
            if key is not None and key in self.numbers:
                self.mention(span.cut(*found.span()), self.numbers[key], before)
            elif any(self.touches(n, found.group()) for n in self.numbers.values()):
                self.unsure(span.cut(*found.span()), "tidy.which_piece")

    def mention(self, span: Span, numbers: Numbers, before: int | None) -> None:
        if not numbers.change:
            return
        edits: list[Edit] = []
        why = ""
        for digits in _DIGITS.finditer(span.text):
            number = int(digits.group())
            new = numbers.of(number, before)
            if not new:
                why = "tidy.no_such_round"
            elif new[-1] != number:
                edits.append(Edit(span.cut(*digits.span()), str(new[-1])))
            if len(new) > 1:
                why = "tidy.stood_twice"
        if edits:
            self.edits += edits
            self.moved.append(Moved(span, span.text, _with(span, edits), why))
        elif why:
            self.unsure(span, why)

    def private(self, span: Span, piece: str) -> None:
        """A stretch that is not touched: what it names is told of."""
        for found in _NAMED.finditer(span.text) if self.change else ():
            key = self.beside(span.text, found) or piece
            if key in self.numbers and self.touches(self.numbers[key], found.group()):
                self.unsure(span.cut(*found.span()), "tidy.private_line")

    def unsure(self, span: Span, why: str) -> None:
        self.moved.append(Moved(span, span.text, "", why))

    def beside(self, text: str, found: re.Match[str]) -> str | None:
        """The piece named right before or after: 'body R4', 'R4 of the body'."""
        start, end = found.span()
        before = text[max(0, start - _NEAR) : start].rstrip(" ,:(").lower()
        behind = text[end : end + _NEAR].lower()
        after = re.sub(r"^\s*(?:of|on|in)\s+(?:the\s+)?", "", behind)
        follows = after != behind
        near = [
            name for name in self.names
            if re.search(rf"(?<!\w){re.escape(name)}$", before)
            or (follows and re.match(rf"{re.escape(name)}(?!\w)", after))
        ]  # fmt: skip
        return self.names[max(near, key=len)] if near else None

    def touches(self, numbers: Numbers, words: str) -> bool:
        """Whether any of the rounds that these words may mean gets another number."""
        named = [int(digits) for digits in _DIGITS.findall(words)]
        return numbers.change and any(new != n for n in named for new in numbers.of(n))


def _with(span: Span, edits: list[Edit]) -> str:
    text = span.text
    for edit in reversed(edits):
        start, end = edit.span.start - span.start, edit.span.end - span.start
        text = text[:start] + edit.text + text[end:]
    return text
