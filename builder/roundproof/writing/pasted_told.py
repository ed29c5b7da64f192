"""What was made of some notes, in plain words for the terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

from roundproof.words import count, listing, say
from roundproof.writing.pasted import Pasted
from roundproof.writing.pasted_draft import Draft
from roundproof.writing.pasted_marks import NoteLine
from roundproof.writing.pasted_materials import Notion

_WIDTH = 11
_LONGEST = 60
_MOST = 12
"""Of the lines without a place, so many runs are shown with their words."""


def told(made: Pasted, file: Path, notes: str) -> str:
    """The whole summary: title, terms, pieces, materials, what has no place, what comes next."""
    lines = [say("new.told_done", file=file, notes=notes), ""]
    for what, rows in _rows(made, file):
        for nth, row in enumerate(rows):
            start = say(f"new.told_{what}") if nth == 0 else ""
            lines.append(f"  {start:<{_WIDTH}}{row}".rstrip())
    return "\n".join(lines) + "\n"


def _rows(made: Pasted, file: Path) -> Iterator[tuple[str, Sequence[str]]]:
    draft = made.draft
    yield "title", [_title(draft)]
    terms = draft.terms
    yield "terms", [say(f"new.terms_{terms.why}", terms=terms.terms.value, line=terms.line)]
    yield "pieces", list(_pieces(made)) or [say("new.told_no_pieces")]
    if draft.yarns:
        yield "yarns", [listing([named.key for named in draft.yarns])]
    if draft.hook:
        yield "hook", [draft.hook]
    if draft.gauge:
        yield "gauge", [draft.gauge]
    if draft.notions:
        yield "notions", [listing([_notion(notion) for notion in draft.notions])]
    if draft.assembly:
        yield "assembly", [say("new.told_words", lines=_runs(draft.assembly))]
    yield "open", draft.open
    yield "loose", list(_loose(draft))
    yield "next", [say("new.told_next_check", folder=file.parent)]


def _title(draft: Draft) -> str:
    line = draft.title_line
    shown = _short(draft.title)
    return say("new.told_title_line", title=shown, line=line.number) if line else shown


def _pieces(made: Pasted) -> Iterator[str]:
    for piece, (rounds, unread) in zip(made.draft.pieces, made.rounds, strict=True):
        said = [count("round", rounds)]
        said += [say("new.told_make", number=piece.make)] if piece.make else []
        said += [say("new.told_unread", lines=count("line", unread))] if unread else []
        yield say("new.told_piece", piece=piece.key, rounds=", ".join(said))


def _notion(notion: Notion) -> str:
    number = f"{notion.count} " if notion.count else ""
    more = " ".join(filter(None, (notion.size, notion.amount)))
    return f"{number}{notion.item}{f' {more}' if more else ''}"


def _loose(draft: Draft) -> Iterator[str]:
    lines = [each.line for each in draft.loose if each.why != "rule"]
    if not lines:
        yield say("new.told_all")
        return
    yield say("new.told_kept", lines=count("line", len({line.number for line in lines})))
    runs = list(_run(lines))
    for first, last in runs[:_MOST]:
        where = _lines(first.number, last.number)
        yield f"{where:<14}  {_short(first.raw)}"
    if len(runs) > _MOST:
        yield say("new.told_more", number=len(runs) - _MOST)


def _runs(lines: Sequence[NoteLine]) -> str:
    return listing([_lines(first.number, last.number) for first, last in _run(lines)][:_MOST])


def _run(lines: Sequence[NoteLine]) -> Iterator[tuple[NoteLine, NoteLine]]:
    """Lines that follow each other, or with one blank line between, as first and last."""
    ordered = sorted(lines, key=lambda line: line.number)
    first = last = ordered[0]
    for line in ordered[1:]:
        if line.number > last.number + 2:
            yield first, last
            first = line
        last = line
    yield first, last


def _lines(first: int, last: int) -> str:
    if first == last:
        return say("new.told_one_line", number=first)
    return say("new.told_lines", first=first, last=last)


def _short(text: str) -> str:
    """A line for the terminal: nothing in it that could move the cursor, and not too long."""
    plain = "".join(c if c.isprintable() else " " for c in text)
    return plain if len(plain) <= _LONGEST else plain[: _LONGEST - 1] + "…"
