"""One line of work in house style: `R7: (5 sc, inc) x 6 (42)`, in the pattern's own terms, its
yarns called what the designer calls them there.

A line that cannot be rewritten without losing something or settling what is not settled is left
alone, and the reason is given in words.
"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Callable, Sequence

from roundproof.fabric.model import WorkedRound
from roundproof.findings import Edit, Finding
from roundproof.frozen import dataclass, replace
from roundproof.notation.changed import words_of_again
from roundproof.notation.counts import clothed, ending
from roundproof.notation.labels import label as label_of
from roundproof.notation.labels import split, without_rounds_said
from roundproof.notation.reader import Context
from roundproof.notation.tokens import Lexicon, Token, plain
from roundproof.notation.tree import (
    Again,
    Instruction,
    Item,
    Label,
    Repeat,
    Round,
    Stated,
    Stitches,
)
from roundproof.notation.writer import written
from roundproof.source import Line, Span, Text
from roundproof.words import say

_MEANT = re.compile(r"\b(?:(?:do not|don't|without) \w+|fold(?:ed)?(?: flat)?|flat)\b")
"""Words that reading passes over and a maker does not."""
_ROUNDS_SAID = re.compile(r"\s*\(\s*\d+\s*(?:rounds?|rnds?|rows?|rds?)\s*\)", re.IGNORECASE)
_FULL_STOP = re.compile(r"[ \t]*[.,;]+(?=[ \t]*(?:\r?\n|$))")
_SIGNS = " \t\r\n,;.:+/"

Move = Callable[[int], int]
"""The new number of an earlier round of the piece."""


@dataclass(frozen=True, slots=True)
class Rewritten:
    """What becomes of a line of work: `edits` put it into house style, `reads` is what it has to
    be read as afterwards, `rest` the words behind it, which stay. `why` tells why it is left."""

    edits: tuple[Edit, ...]
    reads: Round
    rest: Span
    why: str = ""


class House:
    """The lines of one piece."""

    def __init__(
        self, text: Text, context: Context, findings: Sequence[Finding], counts: bool
    ) -> None:
        lines = [line for line in text.lines or () if not line.text.lstrip().startswith("#")]
        self.parts = [part for line in lines for part in split(line)]
        self.at = {part.span.start: index for index, part in enumerate(self.parts)}
        self.lexicon = Lexicon(context.terms, context.colours, context.own)
        self.terms = context.terms
        self.findings = sorted(findings, key=lambda f: f.span.start)
        self.found_at = [f.span.start for f in self.findings]
        self.counts = counts

    def line(
        self, round_: Round, worked: WorkedRound | None, label: Label, move: Move
    ) -> Rewritten:
        """The line of a round that is to bear `label`."""
        lines = self.lines(round_)
        if round_.repeats is not None:
            return self.again(round_, round_.repeats, lines, label, move)
        why = self.trouble(round_, worked, lines)
        if why or worked is None or worked.instruction is None:
            return self.left(round_, label, move, why)
        work = moved(worked.instruction, move)
        end, counted = self.end(round_, lines)
        span = Span(round_.work.source, _start(round_), end)
        if why := _lost(span):
            return self.left(round_, label, move, why)
        count = round_.stated.count if round_.stated and counted else None
        if round_.stated is None and self.counts and _countable(worked):
            count = worked.made
        text = f"{label_text(label)}: {self.work(work, round_, lines)}"
        text += "" if count is None else f" ({count})"
        if count is None and _more_on_the_line(end, lines[-1]):
            text += "."
        stated = round_.stated if count is None else Stated(count, span)
        reads = replace(round_, label=label, readings=(work,), stated=stated)
        edits = () if span.text == text else (Edit(span, text),)
        return Rewritten(edits, reads, Span(span.source, end, max(end, round_.span.end)))

    def left(self, round_: Round, label: Label, move: Move, why: str) -> Rewritten:
        """A line whose work stays as it is; its number may have to change all the same."""
        given = round_.label.given
        span = round_.label.span if given else round_.work.cut(0, 0)
        text = label_text(label) if given else f"{label_text(label)}: "
        same = given and (label.first, label.last) == (round_.label.first, round_.label.last)
        readings = tuple(moved(reading, move) for reading in round_.readings)
        reads = replace(round_, label=label, readings=readings)
        rest = Span(span.source, span.end, round_.span.end)
        return Rewritten(() if same else (Edit(span, text),), reads, rest, why)

    def again(
        self, round_: Round, again: Again, lines: Sequence[Line], label: Label, move: Move
    ) -> Rewritten:
        """'repeat R8-R12 3 more times', whatever is said behind it."""
        reads = replace(again, first=move(again.first), last=move(again.last))
        kind = "rows " if label.row else "R"
        text = f"{label_text(label)}: repeat {kind}{reads.first}"
        if reads.first != reads.last:
            text += f"-{'' if label.row else 'R'}{reads.last}"
        text += f" {again.times} more times" if again.times > 1 else ""
        end = again.span.start + words_of_again(plain(again.span.text))
        rest = self.lexicon.tokens(Line(again.span.text[end - again.span.start :],
                                        Span(again.span.source, end, again.span.end)))  # fmt: skip
        if (count := clothed(rest)) and round_.stated:
            text += f" ({round_.stated.count})"
            end = rest[count[1] - 1].span.end
        span = Span(again.span.source, _start(round_), end)
        edits = () if span.text == text else (Edit(span, text),)
        remains = Span(span.source, end, max(end, round_.span.end))
        return Rewritten(edits, replace(round_, label=label, repeats=reads), remains)

    # ---- what a line holds ----

    def lines(self, round_: Round) -> list[Line]:
        """The lines of a round, without its label and without '(5 rounds)'."""
        start = end = self.at[round_.span.start]
        while end < len(self.parts) and self.parts[end].span.end <= round_.span.end:
            end += 1
        first, *more = self.parts[start:end]
        found = label_of(first) if round_.label.given else None
        if found:
            first = Line(first.text[found.work :], first.span.cut(found.work, len(first.text)))
        return [without_rounds_said(first), *more]

    def tokens(self, lines: Sequence[Line]) -> list[Token]:
        return [token for line in lines for token in self.lexicon.tokens(line)]

    def end(self, round_: Round, lines: Sequence[Line]) -> tuple[int, bool]:
        """Where the work ends with its count, and whether the count stands right there."""
        rest = [t for t in self.tokens(lines) if t.span.start >= round_.work.end]
        found = clothed(rest)
        if found:
            last = rest[-1] if ending(rest, lines).loop else rest[found[1] - 1]
            end = last.span.end
        elif round_.span.source.text[round_.work.end : round_.span.end].strip():
            # the signs between the work and other words belong to those
            end = round_.work.start + len(round_.work.text.rstrip(_SIGNS))
        else:
            end = round_.work.end
        for more in (_ROUNDS_SAID, _FULL_STOP):
            if behind := more.match(round_.span.source.text, end):
                end = behind.end()
        return end, found is not None

    def work(self, work: Instruction, round_: Round, lines: Sequence[Line]) -> str:
        """The work in house style; what stands in a line before this one stays there."""
        own = tuple(i for i in work.items if i.span.start >= round_.work.start)
        typed = {t.value: t.span.text for t in reversed(self.tokens(lines))
                 if t.part in ("colour", "word")}  # fmt: skip
        rows = round_.label.row or "across" in plain(round_.work.text)
        work = replace(work, items=own)
        return written(work, self.terms, lambda key: typed.get(key, key), rows=rows)

    def trouble(self, round_: Round, worked: WorkedRound | None, lines: Sequence[Line]) -> str:
        """Why a line had better be left alone, or nothing."""
        said = bisect_left(self.found_at, round_.span.start)
        if said < len(self.findings) and self.found_at[said] <= round_.span.end:
            return self.findings[said].message
        if not round_.readings or worked is None or worked.instruction is None:
            return say("tidy.unread")
        if any(token.part.startswith("foreign") for token in self.tokens(lines)):
            return say("tidy.foreign")
        if len(round_.readings) > 1 and not worked.sound:
            return say("tidy.two_ways")
        return ""


def label_text(label: Label) -> str:
    """`R7`, `R4-R6`; rows stay rows."""
    if not label.row:
        return str(label)
    one = label.first == label.last
    return f"Row {label.first}" if one else f"Rows {label.first}-{label.last}"


def moved(work: Instruction, move: Move) -> Instruction:
    """The instruction with the numbers of the rounds whose loops or stitches it goes into."""
    into = work.into and replace(work.into, round=move(work.into.round))
    return replace(work, into=into, items=tuple(_moved(item, move) for item in work.items))


def _moved(item: Item, move: Move) -> Item:
    if isinstance(item, Repeat):
        return replace(item, body=tuple(_moved(inner, move) for inner in item.body))
    if isinstance(item, Stitches) and item.onto and item.onto.round and not item.onto.piece:
        return replace(item, onto=replace(item.onto, round=move(item.onto.round)))
    return item


def _start(round_: Round) -> int:
    return round_.label.span.start if round_.label.given else round_.work.start


def _countable(worked: WorkedRound) -> bool:
    """Whether there is one number of stitches to state; a chain to start from has none yet."""
    work = worked.instruction
    stitches = work is not None and any(isinstance(i, Stitches | Repeat) for i in work.items)
    return stitches and worked.made is not None and worked.sound and len(worked.run) == 1


def _lost(span: Span) -> str:
    """What rewriting would lose of the words in a span, as a reason to leave it."""
    if any(line.lstrip().startswith("#") for line in span.text.split("\n")[1:]):
        return say("tidy.private")
    found = _MEANT.search(plain(span.text))
    return say("tidy.meant", words=found.group()) if found else ""


def _more_on_the_line(end: int, line: Line) -> bool:
    """Whether nothing but another round follows on the same line of the file."""
    text = line.span.source.text
    own = text[end : line.span.end].strip()
    stop = text.find("\n", line.span.end)
    return not own and bool(text[max(end, line.span.end) : stop if stop >= 0 else None].strip())
