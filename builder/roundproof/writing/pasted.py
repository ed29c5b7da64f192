"""From pasted notes to a draft of a pattern. Nothing of the notes is lost: what has no place in the
draft stands at its end as comments."""

from __future__ import annotations

import re

from roundproof.frozen import dataclass
from roundproof.notation.reader import Context
from roundproof.pattern.files import MAX_BYTES
from roundproof.pattern.load import read_pattern
from roundproof.pattern.model import Terms
from roundproof.source import Source
from roundproof.words import say
from roundproof.writing.pasted_draft import MOST, Draft, draft_of, empty
from roundproof.writing.pasted_marks import NoteLine, unmarked
from roundproof.writing.pasted_rounds import Reader, rounds_in, terms_of
from roundproof.writing.pasted_sort import sorted_lines
from roundproof.writing.pasted_text import Unreadable, lines_of
from roundproof.writing.pasted_words import COLOUR
from roundproof.writing.pasted_yaml import pattern_text

_MOST_COLOURS = 60


@dataclass(frozen=True, slots=True)
class Pasted:
    """A draft, its file's text, and for each piece how many rounds it has and how many of its
    lines do not read yet. `lines` is how many lines of the notes have words."""

    draft: Draft
    text: str
    rounds: tuple[tuple[int, int], ...]
    lines: int


def pasted(data: bytes, notes: str, name: str, shared: Terms | None = None) -> Pasted:
    """The draft of a pattern called `name`, from the bytes of the file `notes`; `shared` are the
    terms of the site's defaults. Raises Unreadable where the draft would be too long for a
    pattern file."""
    lines = unmarked(lines_of(data))
    terms = terms_of(lines, shared)
    colours = _colours(lines)
    draft = draft_of(sorted_lines(lines, Reader(terms.terms, colours)), terms, name)
    inked = len({line.number for line in lines if line.raw})
    text = pattern_text(draft, notes)
    if len(draft.pieces) > MOST or not _loads(text):
        draft = empty(draft, lines)
        text = pattern_text(draft, notes, compact=True)
        if not _loads(text):
            raise Unreadable(say("new.notes_long", file=notes))
    context = Context(
        terms.terms, {yarn.key.lower(): yarn.key for yarn in draft.yarns} | colours, ""
    )
    counted = (rounds_in([row.text for row in piece.lines], context) for piece in draft.pieces)
    return Pasted(draft, text, tuple(counted), inked)


def _loads(text: str) -> bool:
    """Whether the project's own loader takes the file."""
    if len(text.encode("utf-8", "replace")) > MAX_BYTES:
        return False
    return read_pattern(Source("pattern.yaml", text), "pasted")[0] is not None


def _colours(lines: list[NoteLine]) -> dict[str, str]:
    """Words of the notes that may name a yarn, for reading the rounds."""
    found: dict[str, str] = {}
    for line in lines:
        for match in COLOUR.finditer(line.text[:500]):
            if len(found) < _MOST_COLOURS:
                found.setdefault(match[0].lower(), match[0].lower())
        for match in re.finditer(r"\b(?i:yarn|colou?r) ([A-F])\b", line.text[:500]):
            found.setdefault(match[1].lower(), match[1])
    return found
