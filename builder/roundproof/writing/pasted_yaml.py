"""A draft made of notes as a pattern file: every line of the notes stands in it as it was written.

What is put in other words (headings, materials) stands beside them as a comment. What has no place
stands at the end as comments, each line with its number. So do lines of rounds that were freed of
marks, once more as they were.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator

from roundproof.frozen import replace
from roundproof.words import say
from roundproof.writing.pasted_draft import Draft, NamedPiece, NamedYarn
from roundproof.writing.pasted_marks import NoteLine
from roundproof.writing.pasted_materials import Notion

_PLAIN = re.compile(r"[A-Za-z](?:[\w '()%./+-]*[\w)%.])?", re.ASCII)
_SPECIAL = frozenset("yes no true false null on off y n".split())  # noqa: SIM905


def scalar(text: str) -> str:
    """A text as YAML, in quotes where it needs them."""
    if _PLAIN.fullmatch(text) and text.lower() not in _SPECIAL and len(text) < 500:
        return text
    return json.dumps(text, ensure_ascii=False)


def pattern_text(draft: Draft, notes: str, compact: bool = False) -> str:
    """The file. `notes` is what the file of notes is called. `compact` packs the lines without a
    place as closely as they go."""
    lines = [
        *_head(draft, notes),
        *_yarns(draft),
        *_notions(draft),
        *_pieces(draft),
        *_assembly(draft),
        *_end(draft, notes, compact),
    ]
    return "\n".join(lines) + "\n"


def _head(draft: Draft, notes: str) -> Iterator[str]:
    yield f"# {say('new.file_made', notes=notes)}"
    yield "format: 1"
    title = f"title: {scalar(draft.title)}"
    raw = draft.title_line.raw if draft.title_line else ""
    yield title if raw in title else f"{title} # {raw}"
    yield "status: draft # then testing, then published"
    yield f"terms: {draft.terms.terms.value}"
    if draft.open:
        yield f"open: # {say('new.file_open')}"
        yield from (f"  - {json.dumps(question, ensure_ascii=False)}" for question in draft.open)


# ---- materials ----
def _yarns(draft: Draft) -> Iterator[str]:
    if draft.listed or draft.yarns or draft.notions:
        yield ""
    yield from _comments(draft.listed)
    if draft.yarns:
        yield "yarns:"
    for named in draft.yarns:
        yield from _yarn(named, draft)


def _yarn(named: NamedYarn, draft: Draft) -> Iterator[str]:
    yarn, first = named.yarn, draft.yarns[0]
    letter = [("letter", yarn.letter)] if len(yarn.letter) == 1 else []
    colour = [("colour", f"{{name: {_flow(yarn.colour)}}}")] if yarn.colour else []
    balls = [("balls", str(yarn.balls))] if yarn.balls else []
    own = replace(yarn, colour="", letter="", balls=None)
    if named is not first and own == replace(first.yarn, colour="", letter="", balls=None):
        said = [("like", _flow(first.key)), *letter, *colour, *balls]
        yield f"  {scalar(named.key)}: {{{', '.join(f'{k}: {v}' for k, v in said)}}}"
        return
    rest = [
        ("fibre", scalar(yarn.fibre) if yarn.fibre else ""),
        ("weight", "" if yarn.weight is None else str(yarn.weight)),
        ("ball", yarn.ball),
        ("balls", str(yarn.balls) if yarn.balls else ""),
        ("hook", draft.hook),
        ("gauge", draft.gauge if re.match(r"[\w ]", draft.gauge) else ""),
    ]
    told = [(k, v) for k, v in (*letter, *colour, *rest) if v]
    yield f"  {scalar(named.key)}:"
    yield from (f"    {k}: {_value(k, v)}" for k, v in told)


def _value(key: str, text: str) -> str:
    return scalar(text) if key == "gauge" and re.search(r"[\"'#:]", text) else text


def _notions(draft: Draft) -> Iterator[str]:
    if draft.notions:
        yield ""
        yield "notions:"
    for notion in draft.notions:
        yield f"  - {_notion(notion)}"


def _notion(notion: Notion) -> str:
    if not (notion.size or notion.count or notion.hazard):
        said = f"{notion.item} {notion.amount}".strip()
        return scalar(said)
    told = [
        ("item", _flow(notion.item)),
        ("size", notion.size),
        ("count", str(notion.count) if notion.count else ""),
        ("amount", notion.amount),
        ("hazard", notion.hazard),
    ]
    return "{" + ", ".join(f"{k}: {_flow(v) if k != 'item' else v}" for k, v in told if v) + "}"


def _flow(text: str) -> str:
    return text if re.fullmatch(r"[\d.]+(?: [a-z]+)?", text) else scalar(text)


# ---- pieces ----
def _pieces(draft: Draft) -> Iterator[str]:
    yield ""
    if not draft.pieces:
        yield from (f"# {line}".rstrip() for line in say("new.file_no_rounds").split("\n"))
        return
    yield "pieces:"
    for piece in draft.pieces:
        yield from _piece(piece)


def _piece(piece: NamedPiece) -> Iterator[str]:
    first = f" # {piece.said[0].raw}" if piece.said else ""
    yield f"  {scalar(piece.key)}:{first}"
    yield from (f"    # {line.raw}" for line in piece.said[1:])
    if piece.name:
        yield f"    name: {scalar(piece.name)}"
    if piece.make:
        yield f"    make: {piece.make}"
    if piece.yarn:
        yield f"    yarn: {scalar(piece.yarn)}"
    yield "    rounds: |"
    texts = [row.text for row in piece.lines]
    while texts and not texts[0]:
        texts.pop(0)
    while texts and not texts[-1]:
        texts.pop()
    yield from (f"      {text}" if text else "" for text in texts)


def _assembly(draft: Draft) -> Iterator[str]:
    if draft.assembly:
        yield ""
        yield from (f"# {line}".rstrip() for line in say("new.file_assembly").split("\n"))
        yield from _comments(draft.assembly)


# ---- what has no place ----
def _end(draft: Draft, notes: str, compact: bool) -> Iterator[str]:
    if compact:
        yield f"# {say('new.file_loose', notes=notes)}"
        yield "# " + "|".join(each.line.raw for each in draft.loose)
        return
    if draft.loose:
        yield ""
        yield f"# ---- {say('new.file_loose', notes=notes)} ----"
        yield from _numbered(each.line for each in draft.loose)
    if changed := _changed(draft):
        yield ""
        yield f"# ---- {say('new.file_changed', notes=notes)} ----"
        yield from _numbered(changed)


def _changed(draft: Draft) -> list[NoteLine]:
    """The lines of rounds that do not stand there as they were written."""
    said = {(line.number, line.raw) for piece in draft.pieces for line in piece.said}
    rows = (row for piece in draft.pieces for row in piece.lines)
    lines = (line for row in rows for line in row.made_of if line.raw not in row.text)
    return [line for line in lines if (line.number, line.raw) not in said]


def _numbered(lines: Iterable[NoteLine]) -> Iterator[str]:
    """Comments with line numbers; a line that became several, once."""
    seen: set[tuple[int, str]] = set()
    for line in lines:
        if (line.number, line.raw) not in seen:
            seen.add((line.number, line.raw))
            yield f"# {line.number:>4}  {line.raw}"


def _comments(lines: Iterable[NoteLine]) -> Iterator[str]:
    last, raw = 0, ""
    for line in lines:
        if line.number > last + 1 > 1:
            yield "#"
        if (line.number, line.raw) != (last, raw):
            yield f"#   {line.raw}"
        last, raw = line.number, line.raw
