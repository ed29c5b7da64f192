"""What a designer says in words that are printed, each with its place."""

from __future__ import annotations

import re
from collections.abc import Iterator

from roundproof.fabric.model import WorkedRound
from roundproof.notation.tree import Action, Note
from roundproof.pattern.model import Pattern
from roundproof.proof import Proof
from roundproof.source import Line, Located, Span, Text

Said = Located[str] | Text | None


def said(proof: Proof) -> Iterator[Line]:
    """All running words of the pages: of the front, of the making, and of the specimen."""
    yield from about(proof.pattern)
    yield from lines(proof.pattern.safety_note)
    yield from making(proof)
    yield from specimen(proof.pattern)
    yield from beside(proof.pattern)


def about(pattern: Pattern) -> Iterator[Line]:
    """What the object is said to be, and how it is kept."""
    yield from lines(pattern.title, pattern.summary, pattern.care)


def making(proof: Proof) -> Iterator[Line]:
    """Steps, and notes and actions between the rounds."""
    for step in proof.pattern.assembly:
        yield from lines(step.step)
    for worked in proof.fabric.pieces.values():
        if worked.of is not None:
            continue  # the words are those of another piece
        for entry in worked.entries:
            if isinstance(entry, Note | Action):
                yield _part(entry.span, entry.text)
            elif isinstance(entry, WorkedRound) and entry.round.remark:
                yield _part(entry.round.span, entry.round.remark)


def specimen(pattern: Pattern) -> Iterator[Line]:
    """What is told of the specimen, its references left out."""
    found = pattern.specimen
    if found is not None:
        yield from lines(*(found.parts or {}).values(), *found.simplified)
        yield from lines(*(statement.says for statement in found.statements))


def beside(pattern: Pattern) -> Iterator[Line]:
    """What stands beside the making: things needed, pictures, history, thanks, answers."""
    for notion in pattern.notions:
        yield from lines(notion.item, notion.or_)
    for photo in pattern.photos:
        yield from lines(photo.alt, photo.shows)
    yield from lines(*(change.note for change in pattern.changes), *pattern.credits)
    if (given := pattern.permissions) is not None:
        yield from lines(given.print, given.sell, given.change, given.translate, given.photos)


def place(line: Line, start: int, end: int) -> Span:
    """Where a part of a line stands in the file; the whole text where that cannot be told."""
    if line.span.text == line.text:
        return line.span.cut(start, end)
    words = r"\s+".join(map(re.escape, line.text[start:end].split()))
    found = list(re.finditer(words, line.span.text))
    return line.span.cut(*found[0].span()) if len(found) == 1 else line.span


def lines(*texts: Said) -> Iterator[Line]:
    """Texts line by line where places in them are known, else each as one line."""
    for text in texts:
        if isinstance(text, Located):
            yield Line(text.value, text.span)
        elif text is not None:
            yield from text.lines or (Line(" ".join(text.value.split()), text.span),)


def _part(span: Span, words: str) -> Line:
    """Words within the line that they stand in."""
    start = max(0, span.text.find(words))
    return Line(words, span.cut(start, start + len(words)))
