"""What a pattern says in running words, with the places of single words in it."""

from __future__ import annotations

import re
from collections.abc import Iterator

from roundproof.fabric.model import WorkedRound
from roundproof.frozen import dataclass
from roundproof.notation.tree import Action, Note
from roundproof.pattern.model import Pattern
from roundproof.proof import Proof
from roundproof.source import Line, Located, Span, Text


@dataclass(frozen=True, slots=True)
class Said:
    """A stretch of running words: a line of a text, or a whole text where places in it cannot be
    told. `piece` and `round` where it stands between rounds."""

    text: str
    span: Span
    piece: str | None = None
    round: str | None = None
    action: bool = False
    """A line that tells what to do between rounds."""

    @property
    def exact(self) -> bool:
        return self.span.text == self.text

    def place(self, start: int, end: int) -> Span:
        """The place of some of the words; the whole text where it cannot be told."""
        if self.exact:
            return self.span.cut(start, end)
        return _place(self.span, self.text[start:end])


# ---- all that is printed ----
def everywhere(proof: Proof) -> Iterator[Said]:
    """All that a page or a print shows of the designer's words, short ones as well."""
    pattern, named = proof.pattern, proof.pattern.specimen
    yield from sentences(proof)
    yield from lines(pattern.title, pattern.designer, pattern.contact, pattern.licence)
    yield from lines(*(yarn.fibre for yarn in pattern.yarns))
    for notion in pattern.notions:
        yield from lines(notion.item, notion.amount, notion.or_)
    for photo in pattern.photos:
        yield from lines(photo.alt, photo.shows, photo.by, photo.licence)
    yield from permissions(pattern)
    if named is not None:
        yield from lines(named.name, named.scientific)


def sentences(proof: Proof) -> Iterator[Said]:
    """The same without titles, names and the like."""
    yield from for_makers(proof)
    yield from lines(*(change.note for change in proof.pattern.changes))
    yield from specimen(proof.pattern)
    yield from lines(*proof.pattern.credits)


def promised(proof: Proof) -> Iterator[Said]:
    """Whatever may say something of the object or its makers: all but names, yarns and sources."""
    pattern = proof.pattern
    yield from about(pattern)
    yield from lines(pattern.safety_note)
    yield from making(proof)
    yield from specimen(pattern)
    for notion in pattern.notions:
        yield from lines(notion.item, notion.or_)
    for photo in pattern.photos:
        yield from lines(photo.alt, photo.shows)
    yield from lines(*(change.note for change in pattern.changes), *pattern.credits)
    yield from permissions(pattern)


# ---- parts of it ----
def for_makers(proof: Proof) -> Iterator[Said]:
    """Texts that stand beside the rounds and steps: summary, care, safety, steps, notes, actions
    and remarks."""
    pattern = proof.pattern
    yield from lines(pattern.summary, pattern.care, pattern.safety_note)
    yield from steps(proof)
    yield from notes(proof)


def about(pattern: Pattern) -> Iterator[Said]:
    """What the object is said to be, and how it is kept."""
    yield from lines(pattern.title, pattern.summary, pattern.care)


def making(proof: Proof) -> Iterator[Said]:
    """Steps, and whatever stands between the rounds."""
    yield from steps(proof)
    yield from between_rounds(proof)


def steps(proof: Proof) -> Iterator[Said]:
    yield from lines(*(step.step for step in proof.pattern.assembly))


def notes(proof: Proof) -> Iterator[Said]:
    """What stands between the rounds; not lines that read like lost rounds, which are told of as
    such."""
    lost = {f.span.start for f in proof.reading if f.check == "note-like-round"}
    for said in between_rounds(proof):
        whole = said.round is not None  # a remark is no line of its own
        if whole or not any(said.span.start <= at < said.span.end for at in lost):
            yield said


def between_rounds(proof: Proof) -> Iterator[Said]:
    """Notes, actions and remarks; those of a mirrored piece are the other's."""
    for key, piece in proof.fabric.pieces.items():
        for entry in () if piece.of else piece.entries:
            if isinstance(entry, Note | Action):
                acts = isinstance(entry, Action)
                yield Said(entry.text, _within(entry.span, entry.text), key, action=acts)
            elif isinstance(entry, WorkedRound) and entry.round.remark:
                words = entry.round.remark
                yield Said(words, _within(entry.round.span, words), key, entry.label)


def specimen(pattern: Pattern) -> Iterator[Said]:
    """What is told of the specimen, its references left out."""
    found = pattern.specimen
    if found is not None:
        yield from lines(*(found.parts or {}).values(), *found.simplified)
        yield from lines(*(statement.says for statement in found.statements))


def permissions(pattern: Pattern) -> Iterator[Said]:
    if given := pattern.permissions:
        yield from lines(given.print, given.sell, given.change, given.translate, given.photos)


# ---- texts and places ----
def lines(*texts: Located[str] | Text | None) -> Iterator[Said]:
    """Texts line by line where places in them are known, else each as one line."""
    for text in texts:
        if isinstance(text, Located):
            yield Said(text.value, text.span)
        elif text is not None:
            whole = (Line(" ".join(text.value.split()), text.span),)
            yield from (Said(line.text, line.span) for line in text.lines or whole)


def span_of(text: Text, words: str) -> Span:
    """The place of some words in a text, or all of it."""
    return _place(text.span, words)


def _place(span: Span, words: str) -> Span:
    """Exact where the words stand in the file as they are, but for line breaks, and only once; else
    the whole."""
    pattern = r"\s+".join(map(re.escape, words.split()))
    found = list(re.finditer(pattern, span.text)) if pattern else []
    return span.cut(*found[0].span()) if len(found) == 1 else span


def _within(span: Span, words: str) -> Span:
    """The place of a note's own words in its line, which has `Note:` before them."""
    start = max(0, span.text.find(words))
    return span.cut(start, start + len(words))
