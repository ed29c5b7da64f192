"""What a pattern says in running words, with the places of single words in it."""

from __future__ import annotations

import re
from collections.abc import Iterator

from roundproof.fabric.model import WorkedRound
from roundproof.frozen import dataclass
from roundproof.notation.tree import Action, Note
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
        words, file = self.text[start:end], self.span.text
        if words and file.count(words) == 1:
            at = file.index(words)
            return self.span.cut(at, at + len(words))
        return self.span


def for_makers(proof: Proof) -> Iterator[Said]:
    """Texts that stand beside the rounds and steps: summary, care, safety, steps, notes, actions
    and remarks."""
    yield from about(proof)
    yield from steps(proof)
    yield from notes(proof)


def about(proof: Proof) -> Iterator[Said]:
    pattern = proof.pattern
    for text in (pattern.summary, pattern.care, pattern.safety_note):
        yield from _lines(text)


def steps(proof: Proof) -> Iterator[Said]:
    for step in proof.pattern.assembly:
        yield from _lines(step.step)


def notes(proof: Proof) -> Iterator[Said]:
    """Notes, actions and remarks between the rounds; not lines that read like lost rounds, which
    are told of as such."""
    lost = {f.span.start for f in proof.reading if f.check == "note-like-round"}
    for piece in proof.fabric.pieces.values():
        key = piece.piece.key
        for entry in () if piece.of else piece.entries:
            if isinstance(entry, Note | Action):
                if not any(entry.span.start <= start < entry.span.end for start in lost):
                    acts = isinstance(entry, Action)
                    yield Said(entry.text, _within(entry.span, entry.text), key, action=acts)
            elif isinstance(entry, WorkedRound) and entry.round.remark:
                words = entry.round.remark
                yield Said(words, _within(entry.round.span, words), key, entry.label)


def everywhere(proof: Proof) -> Iterator[Said]:
    """All that a page or a print shows of the designer's words, short ones as well."""
    yield from sentences(proof)
    yield from (Said(word.value, word.span) for word in _words(proof) if word is not None)


def sentences(proof: Proof) -> Iterator[Said]:
    """The same without titles, names and the like."""
    pattern, specimen = proof.pattern, proof.pattern.specimen
    yield from for_makers(proof)
    for change in pattern.changes:
        yield from _lines(change.note)
    if specimen is not None:
        for text in (
            *(specimen.parts or {}).values(),
            *specimen.simplified,
            *(statement.says for statement in specimen.statements),
        ):
            yield from _lines(text)
    for text in pattern.credits:
        yield from _lines(text)


def _words(proof: Proof) -> Iterator[Located[str] | None]:
    pattern, specimen = proof.pattern, proof.pattern.specimen
    yield from (pattern.title, pattern.designer, pattern.contact, pattern.licence)
    for yarn in pattern.yarns:
        yield yarn.fibre
    for notion in pattern.notions:
        yield from (notion.item, notion.amount, notion.or_)
    for photo in pattern.photos:
        yield from (photo.alt, photo.shows, photo.by, photo.licence)
    if given := pattern.permissions:
        yield from (given.print, given.sell, given.change, given.translate, given.photos)
    if specimen is not None:
        yield from (specimen.name, specimen.scientific)


def _lines(text: Text | None) -> Iterator[Said]:
    if text is not None:
        whole = (Line(" ".join(text.value.split()), text.span),)
        yield from (Said(line.text, line.span) for line in text.lines or whole)


def _within(span: Span, words: str) -> Span:
    """The place of a note's own words in its line, which has `Note:` before them."""
    start = max(0, span.text.find(words))
    return span.cut(start, start + len(words))


def span_of(text: Text, words: str) -> Span:
    """The place of some words in a text: exact where they stand in the file as they are, but for
    line breaks, and only once; else the whole text."""
    pattern = r"\s+".join(re.escape(word) for word in words.split())
    found = list(re.finditer(pattern, text.span.text))
    return text.span.cut(*found[0].span()) if len(found) == 1 else text.span
