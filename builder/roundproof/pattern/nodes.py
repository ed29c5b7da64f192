"""YAML text read into a tree of nodes that know their places; every value stays the text it was.

A reader of YAML events is all that is borrowed: no value is turned into a number or a date here,
nothing that YAML can do besides mappings, lists and words is followed (aliases, tags, merges), and
depth and number of values are bounded, so that no file can exhaust the stack or the memory.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from roundproof.expressions import expression
from roundproof.findings import Edit, Finding, Severity
from roundproof.frozen import dataclass
from roundproof.pattern.sorts import A_PATTERN, Sort
from roundproof.pattern.traps import FILE_UNUSABLE, explained, unusable
from roundproof.source import Source, Span

MAX_DEPTH = 40
MAX_VALUES = 10_000

_WORD = expression(r"[^\s,\]}]*")
_UNPRINTABLE = "[\x00-\x08\x0b-\x1f\x7f\ud800-\udfff]"
_COMMENT_AFTER = expression(r"([ \t]+)#(?=[^\s#])[^\r\n]*")


@dataclass(frozen=True, slots=True)
class Scalar:
    """A value without parts. `style` is the sign YAML knows it by: empty for a plain one, or one
    of `|`, `>`, `'`, `"`. The span of a `|` or `>` text takes in the sign."""

    text: str
    span: Span
    style: str = ""

    @property
    def empty(self) -> bool:
        """Nothing was written, or in YAML's word for nothing."""
        return not self.style and self.text in ("", "~", "null")


@dataclass(frozen=True, slots=True)
class Seq:
    items: tuple[Node, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Entry:
    key: Scalar
    value: Node


@dataclass(frozen=True, slots=True)
class Map:
    """Keys in the order of the file, each once."""

    entries: tuple[Entry, ...]
    span: Span

    def get(self, key: str) -> Node | None:
        return next((e.value for e in self.entries if e.key.text == key), None)


Node = Scalar | Seq | Map


def tree(source: Source, sort: Sort = A_PATTERN) -> tuple[Map | None, tuple[Finding, ...]]:
    """The file's mapping; None, and a finding why, where nothing can be made of the file."""
    if not source.text.strip("\ufeff \t\r\n"):
        return None, (unusable(source, "The file is empty.", f"Write {sort.holds} into it."),)
    builder = _Builder(source, sort)
    for event in _events(source):
        if (stop := event if isinstance(event, Finding) else builder.take(event)) is not None:
            return None, (stop,)
    return builder.done()


def _events(source: Source) -> Iterator[Any]:
    """What the YAML reader sees, in order; at a fault, the finding that tells of it."""
    from ruamel.yaml import YAML

    try:
        yield from YAML(typ="safe", pure=True).parse(source.text)
    except Exception as fault:  # on odd input the reader raises more than its own errors
        yield explained(source, fault)


class _Open:
    """A mapping or list that is still being read."""

    def __init__(self, start: int, mapping: bool, flow: bool) -> None:
        self.start = start
        self.mapping = mapping
        self.flow = flow
        self.items: list[Node] = []


class _Builder:
    """Takes events one by one and stacks up nodes: no recursion, so depth is only a number."""

    def __init__(self, source: Source, sort: Sort) -> None:
        self._source, self._sort = source, sort
        self._stack: list[_Open] = []
        self._findings: list[Finding] = []
        self._root: Node | None = None
        self._documents = self._values = 0

    def take(self, event: Any) -> Finding | None:
        """Adds an event to the tree; a finding means that the file cannot be used."""
        self._shorthand(event)
        kind = type(event).__name__
        if kind == "ScalarEvent":
            return self._add(self._scalar(event))
        if kind == "AliasEvent":
            return self._add(Scalar("", self._span(event)))
        if kind in ("MappingStartEvent", "SequenceStartEvent"):
            return self._open(event, kind == "MappingStartEvent")
        if kind in ("MappingEndEvent", "SequenceEndEvent"):
            return self._add(self._close(event))
        if kind == "DocumentStartEvent":
            return self._document(event)
        return None

    def done(self) -> tuple[Map | None, tuple[Finding, ...]]:
        if isinstance(self._root, Map):
            return self._root, tuple(self._findings)
        message = f"The file has only comments: nothing in it is {self._sort.holds} yet."
        span = self._source.span(0, 0)
        if self._root is not None:
            message = f"The file does not start with keys such as {self._sort.starts}."
            span = self._root.span
        return None, (Finding(FILE_UNUSABLE, Severity.ERROR, span, message, self._sort.begin),)

    def _span(self, event: Any) -> Span:
        return self._source.span(event.start_mark.index, event.end_mark.index)

    def _scalar(self, event: Any) -> Scalar:
        span, style = self._span(event), event.style or ""
        if style in ("|", ">"):
            span = span.cut(0, len(span.text.rstrip()))
        text = self._printable(event.value, span) if style == '"' else event.value
        scalar = Scalar(text, span, style)
        if scalar.text and not style:
            self._cut_off(scalar)
        return scalar

    def _printable(self, text: str, span: Span) -> str:
        """A text in double quotes, where a `\\` can make characters that no page can show."""
        odd = None if text.isprintable() else re.search(_UNPRINTABLE, text)
        if odd is None:
            return text
        what = f"`\\` makes a character here that cannot be printed (U+{ord(odd[0]):04X})."
        self._say("value-kind", span, what, "Write it without the `\\`, in single quotes.")
        return re.sub(_UNPRINTABLE, "\ufffd", text)

    def _add(self, node: Node) -> Finding | None:
        self._values += 1
        if self._values > MAX_VALUES:
            far = f"more than {MAX_VALUES:,} values, far more than {self._sort.holds}"
            what = f"The file holds {far} can have."
            return unusable(self._source, what, "Check that this is the right file.", node.span)
        if self._stack:
            self._stack[-1].items.append(node)
        else:
            self._root = node
        return None

    def _open(self, event: Any, mapping: bool) -> Finding | None:
        at = event.start_mark.index
        self._stack.append(_Open(at, mapping, self._source.text[at : at + 1] in ("{", "[")))
        if len(self._stack) <= MAX_DEPTH:
            return None
        what = f"Brackets or indentation go more than {MAX_DEPTH} levels deep here."
        return unusable(self._source, what, "Take the surplus ones out.", self._span(event))

    def _close(self, event: Any) -> Node:
        done = self._stack.pop()
        entries = tuple(self._entries(done.items)) if done.mapping else ()
        last = [entries[-1].value] if entries else done.items[-1:]
        end = event.end_mark.index if done.flow else done.start
        span = self._source.span(done.start, max([end, *(node.span.end for node in last)]))
        return Map(entries, span) if done.mapping else Seq(tuple(done.items), span)

    def _entries(self, items: list[Node]) -> Iterator[Entry]:
        seen: dict[str, Scalar] = {}
        for key, value in zip(items[::2], items[1::2], strict=True):
            if not isinstance(key, Scalar):
                self._say("value-kind", key.span, "A key has to be one word or a few, not a list.")
            elif (first := seen.setdefault(key.text, key)) is not key:
                line = first.span.begins[0]
                what = f"`{key.text}` is given twice: first on line {line}, and again here."
                self._say("key-doubled", key.span, what, "Keep one of the two.")
            else:
                yield Entry(key, self._placed(key, value))

    def _placed(self, key: Scalar, value: Node) -> Node:
        """A value, but with nothing in it placed behind the colon of its key: the reader has
        it where the next thing begins."""
        if not isinstance(value, Scalar) or value.style or value.text:
            return value
        at = self._source.text.find(":", key.span.end, value.span.end) + 1
        nothing = Scalar("", self._source.span(at, at)) if at else value
        self._cut_off(nothing)
        return nothing

    def _document(self, event: Any) -> Finding | None:
        self._documents += 1
        if self._documents == 1:
            return None
        what = "A second text starts here, as a line of `---` or `...` says, and a file holds one."
        mend = "Take that line out, or move what follows to a folder of its own."
        return unusable(self._source, what, mend, self._span(event))

    def _shorthand(self, event: Any) -> None:
        """Aliases, anchors, tags: what YAML has them for is said in other ways here."""
        sign = ""
        if getattr(event, "anchor", None):
            sign = "*" if type(event).__name__ == "AliasEvent" else "&"
        elif getattr(event, "tag", None):
            sign = "!"
        if sign:
            start = self._span(event).start
            word = _WORD.match(self._source.text, start)
            span = self._source.span(start, word.end() if word else start)
            what = f"`{sign}` at the start of a value is a shorthand of YAML that is not read here."
            mend = "If it belongs to the text, put the text in quotes; else write the value out."
            self._say("value-shorthand", span, what, mend)

    def _cut_off(self, scalar: Scalar) -> None:
        """A `#` with a space before it starts a comment, where a colour or a number was meant."""
        cut = _COMMENT_AFTER.match(self._source.text, scalar.span.end)
        if cut is None or (scalar.text and cut[1] != " "):
            return
        span = self._source.span(cut.start() + len(cut[1]), cut.end())
        lost = span.text.rstrip()
        what = f"Everything from the `#` on is a comment, so `{lost[:40]}` is not read."
        mend = "Put the whole value in quotes, or, if it is a comment, write a space after the `#`."
        edits = () if scalar.text or '"' in lost else (Edit(span, f'"{lost}"'),)
        self._say("text-cut", span, what, mend, edits)

    def _say(
        self, check: str, span: Span, message: str, mend: str = "", edits: tuple[Edit, ...] = ()
    ) -> None:
        self._findings.append(Finding(check, Severity.ERROR, span, message, mend, edits=edits))
