"""Reads what a piece's `rounds` say, line by line. A line that cannot be read is reported once, at
the offending word, and the piece goes on from the count the line states."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from roundproof.expressions import expression
from roundproof.findings import Finding
from roundproof.frozen import dataclass, field, replace
from roundproof.notation.actions import action
from roundproof.notation.changed import again_of, all_round, changed, ink
from roundproof.notation.counts import count_in_front, ending, stated_at_end
from roundproof.notation.cursor import WORKED, Unread
from roundproof.notation.declared import declared, undeclared
from roundproof.notation.labels import (
    HIGHEST,
    Labelled,
    label,
    rounds_said,
    split,
    without_rounds_said,
)
from roundproof.notation.loops import in_one_loop
from roundproof.notation.onto import hints, names_of, placed
from roundproof.notation.parse import readings, work_of_round
from roundproof.notation.said import Complaints
from roundproof.notation.tokens import Lexicon, Own, Token, plain
from roundproof.notation.tree import (
    Chain,
    Entry,
    Instruction,
    JoinRound,
    Label,
    Note,
    Round,
    Script,
    Stitches,
)
from roundproof.notation.usual import Usual
from roundproof.pattern.model import Terms
from roundproof.source import Line, Span, Text

_COUNTED = expression(r"[(\[<{=]\s*\d+[^()\[\]]*[)\]>}]?\.?\s*$|\d+\s*(?:sts?|stitches)\.?\s*$")
_COUNT_ALONE = expression(r"\s*[(\[]\s*\d+\s*(?:sts?|stitches)?\s*[)\]]\.?\s*")
_HEADING = expression(r"\s*[a-z]+(?: [a-z]+)?:\s", re.IGNORECASE)
_NOTE = expression(r"\s*note\s*:\s*", re.IGNORECASE)
_GOING_ON = (
    " and",
    " rep",
    " repeat",
    " from",
    " in",
    " into",
    " next",
    " each",
    " of",
    " the",
    " to",
)
"""Words that no round ends with."""
_LETTERS = re.compile(r"[^\W\d_]+").findall
_WORKS = WORKED | {"ring"}


@dataclass(frozen=True, slots=True)
class Context:
    """What the reading of a piece needs to know of its pattern: the terms its rounds are written
    in, the key of the yarn for each word that may name one, the words of its own, its pieces."""

    terms: Terms
    colours: Mapping[str, str]
    piece: str
    own: Mapping[str, Own] = field(default_factory=dict)
    pieces: Mapping[str, str] = field(default_factory=dict)
    """The key of each piece for its names; empty for the piece that is read."""


def read_script(text: Text, context: Context) -> tuple[Script, list[Finding]]:
    """The entries of a piece's rounds, and what could not be read in them."""
    reader = _Reader(context)
    return reader.script(text.lines or ()), reader.said.findings


class _Reader:
    def __init__(self, context: Context) -> None:
        self.lexicon = Lexicon(context.terms, context.colours, context.own)
        self.said = Complaints(self.lexicon, context.piece)
        self.names = names_of(context.pieces)
        self.hints = hints(self.names)
        self.usual = Usual(self.lexicon, self.hints)
        self.next = 1
        self.keys: set[int] = set()
        """Where the lines begin that explain words."""
        self.begun = False
        """Whether a round has been read."""
        self.start: list[Token] = []
        """A foundation on a line of its own before the first round: its tokens."""

    def script(self, lines: Sequence[Line]) -> Script:
        typed = lines
        lines, labels, usual = self.cut(typed)
        if self.declare(lines, labels):
            lines, labels, usual = self.cut(typed)
        labelled = any(labels)
        entries: list[Entry] = []
        at = 0
        labels = [_as_range(*pair) for pair in zip(labels, [*labels[1:], None], strict=False)]
        self.lines, self.labels = lines, labels
        while at < len(lines):
            line, found = lines[at], labels[at]
            at += 1
            if found is not None:
                more: list[Line] = []
                while (
                    at < len(lines) and not labels[at] and self.open(found, line, more, lines[at])
                ):
                    more.append(lines[at])
                    at += 1
                read = usual[at - 1 - len(more)]
                if read is None or more or self.start:
                    entries += self.round(line, found, more)
                else:
                    self.next, self.begun = found.label.last + 1, True
                    entries.append(read)
            elif line.text.strip():
                unlabelled = not labelled or self.fills_gap(at - 1)
                entries += self.other(line, not unlabelled, bool(entries))
        return Script(tuple(entries))

    def declare(self, lines: Sequence[Line], labels: Sequence[Labelled | None]) -> bool:
        """Take the words that the lines before the first round explain: 'X = sc, V = inc'. Whether
        there are any."""
        own: dict[str, Own] = {}
        for line, found in zip(lines, labels, strict=True):
            if found is not None:
                break
            told = declared(line, self.lexicon)
            self.keys |= {line.span.start} if told else set()
            own |= told
        if own:
            self.lexicon = self.said.lexicon = self.lexicon.with_own(own)
            self.usual = Usual(self.lexicon, self.hints)
        return bool(own)

    def cut(
        self, lines: Sequence[Line]
    ) -> tuple[list[Line], list[Labelled | None], list[Round | None]]:
        """Lines with one round each, the label of each, and the rounds in the usual wordings."""
        cut: list[Line] = []
        labels: list[Labelled | None] = []
        rounds: list[Round | None] = []
        for line in lines:
            usual = self.usual.round(line)
            if usual is not None:
                cut.append(line)
                labels.append(usual[0])
                rounds.append(usual[1])
            elif not line.text.lstrip().startswith("#"):
                parts = split(line)
                cut += parts
                labels += [label(part) for part in parts]
                rounds += [None for _ in parts]
        return cut, labels, rounds

    def tokens(self, line: Line) -> list[Token]:
        """The tokens of a line, with one for each place that has a name."""
        found = self.lexicon.tokens(line)
        words = _LETTERS(plain(line.text))
        return found if self.hints.isdisjoint(words) else placed(found, self.names)

    def fills_gap(self, at: int) -> bool:
        """Whether lines without a label stand where just so many labels are missing: R2, a line
        that reads as a round, R4."""
        lines = 0
        for line, found in zip(self.lines[at:], self.labels[at:], strict=True):
            if found is not None:
                first = self.next + lines if found.counted_on else found.label.first
                return lines > 0 and first == self.next + lines
            work = self.quiet(line)
            lines += bool(work and not _foundation(work) and action(line, self.lexicon) is None)
        return False

    def open(self, found: Labelled, line: Line, more: Sequence[Line], following: Line) -> bool:
        """Whether a round goes on in the following line: a bare label, a line that ends open."""
        if not following.text.strip() or _NOTE.match(following.text):
            return False
        text = " ".join([line.text[found.work :], *(m.text for m in more)]).strip()
        if not text:
            return action(following, self.lexicon) is None
        unclosed = any(text.count(a) > text.count(b) for a, b in ("()", "[]", "{}"))
        if unclosed or self.goes_on(text, following):
            return True
        return text.endswith((",", ";", "+", "*")) or text.lower().endswith(_GOING_ON)

    def goes_on(self, text: str, following: Line) -> bool:
        """Whether a line goes on in the middle of a sentence: no count yet, and the next one starts
        small, with a number or with the count, and has stitches in it."""
        start = following.text.lstrip()[:1]
        if _COUNTED.search(text) or _HEADING.match(following.text):
            return False
        if not (start.islower() or start.isdigit() or start in "(["):
            tokens = self.tokens(following)
            return (
                bool(tokens) and tokens[0].part == "rep" and action(following, self.lexicon) is None
            )
        if action(following, self.lexicon) is not None:
            return False
        if _COUNT_ALONE.fullmatch(following.text):
            return True
        tokens = self.tokens(following)
        if not any(token.part in _WORKS for token in tokens):
            return False
        if start in "([" and not self.quiet(following):
            return True  # the count of a stitch: '(18 sc)'
        return not (self.quiet_text(text, following) and self.quiet(following))

    def quiet_text(self, text: str, following: Line) -> bool:
        """Whether words read as a round by themselves."""
        return self.quiet(Line(text, following.span)) is not None

    def other(self, line: Line, labelled: bool, begun: bool) -> list[Entry]:
        """A line without a label: an action, a round in a piece without any, or a note."""
        note = _NOTE.match(line.text)
        if line.span.start in self.keys:
            return [Note(line.text.strip(), line.span)]
        if note:
            return [Note(line.text[note.end() :].strip(), line.span)]
        act = action(line, self.lexicon)
        if act is not None:
            return [act]
        work = self.quiet(line)
        if work and not begun and _foundation(work):
            tokens = self.tokens(line)
            if not readings(tokens)[1]:  # one with a count is a round of its own
                self.start = tokens
                return []
        if work and not labelled:
            number = Label(self.next, self.next, line.span.cut(0, 0), given=False)
            return self.round(line, Labelled(number, 0), [])
        if work and any(isinstance(i, Stitches) for i in work.items):
            self.said.note_like_round(line)
        return [Note(line.text.strip(), line.span)]

    def quiet(self, line: Line) -> Instruction | None:
        """The first reading of a line that may or may not be a round, without complaint."""
        tokens = self.tokens(line)
        if not any(token.part in _WORKS for token in tokens):
            return None
        try:
            return readings(tokens)[0][0]
        except Unread:
            return None

    def round(self, line: Line, found: Labelled, more: Sequence[Line]) -> list[Entry]:
        if found.counted_on:
            label_ = found.label
            number = replace(label_, first=self.next, last=self.next + label_.last - 1, given=True)
            found = replace(found, label=number)
        self.next = found.label.last + 1
        first = self.first_line(line, found)
        lines = (first, *more)
        span = line.span.to(lines[-1].span)
        tokens = [token for part in lines for token in self.tokens(part)]
        if found.label.last >= HIGHEST:
            self.said.too_high(found.label)
            return [Round(found.label, (), stated_at_end(tokens), span, work_of(tokens, line))]
        start = ink(first).start
        told_anew = changed(first)
        first, lines = (told_anew, (told_anew, *more)) if told_anew else (first, lines)
        tokens = [token for part in lines for token in self.tokens(part)] if told_anew else tokens
        again = again_of(first, found.label.first)
        if again:
            stated = stated_at_end(tokens)
            return [Round(found.label, (), stated, span, again.span, repeats=again)]
        act = action(first, self.lexicon)
        if act and not any(token.part in _WORKS for token in tokens):
            return [act]  # 'R9: Fasten off.' works nothing
        work = work_of(tokens, line)
        if told_anew:
            work = Span(work.source, start, work.end)
        front, tokens = count_in_front(tokens)
        tokens, self.start = self.start + tokens, []
        parts = {token.part for token in tokens}
        if "mc" in parts:
            tokens = magic_circle(tokens, not self.begun)
        self.begun = True
        try:
            told = work_of_round(tokens)
        except Unread as unread:
            if letters := undeclared(tokens):
                spans = tuple(token.span for token in letters)
                return [Round(found.label, (), stated_at_end(tokens), span, work, stray=spans)]
            self.said.unread(unread, found.label, work)
            return [Round(found.label, (), stated_at_end(tokens), span, work)]
        if told.stray:
            spans = tuple(token.span for token in told.stray)
            stated = stated_at_end(tokens)
            return [Round(found.label, (), stated, span, work, stray=spans)]
        found_readings, rest = told.readings, told.rest
        if told_anew:
            found_readings = tuple(all_round(r) for r in found_readings)
        if not parts.isdisjoint(("foreign", "foreign tog")):
            self.said.foreign(tokens, found.label)
        if rest and rest[0].start > work.start:
            before = tokens[len(tokens) - len(rest) - 1]
            work = Span(work.source, work.start, max(work.start, before.end))
        end = ending(rest, lines)
        if front is not None and end.stated is None:
            end = replace(end, stated=front)
        if end.loop:
            found_readings = tuple(in_one_loop(r, end.loop) for r in found_readings)
        act = action(end.remark, self.lexicon) if end.remark else None
        remark = end.remark.text if end.remark and not act else ""
        asides = [_words_of(tokens, *aside) for aside in told.asides]
        remark = " ".join(part for part in (*asides, remark) if part)
        beside = tuple(
            Span(work.source, tokens[a].start, tokens[b - 1].end) for a, b in told.asides
        )
        doubts = [token.span for token in told.doubts]
        if "mc" in parts:
            doubts += [t.span for t in tokens if t.part == "ring" and t.value == "MC"]
        read = Round(
            *(found.label, found_readings, end.stated, span, work, remark),
            beside=beside,
            doubtful=tuple(doubts),
        )
        return [read, act] if act else [read]

    def first_line(self, line: Line, found: Labelled) -> Line:
        """The work in a labelled line. '(5 rounds)' behind it is blanked out, so places stay."""
        first = Line(line.text[found.work :], line.span.cut(found.work, len(line.text)))
        behind = rounds_said(first)
        if found.rounds:
            self.said.rounds(found.label, *found.rounds)
        elif behind:
            self.said.rounds(found.label, behind[0], behind[1])
        return without_rounds_said(first) if behind else first


def _as_range(found: Labelled | None, after: Labelled | None) -> Labelled | None:
    """'Rnd 6 - 12 sc in each st' before round 13 is a range."""
    if not found or not found.up_to or not after or after.label.first != found.up_to[0] + 1:
        return found
    last, work = found.up_to
    return replace(found, label=replace(found.label, last=last), work=work)


def magic_circle(tokens: list[Token], first: bool) -> list[Token]:
    """'MC' stands for the magic circle where a piece begins and no ring is named otherwise, else
    for the main colour."""
    places = [i for i, token in enumerate(tokens) if token.part == "mc"]
    if not places:
        return tokens
    ring = first and not any(token.part == "ring" for token in tokens)
    for place in places:
        token = tokens[place]
        meant = token._replace(part="ring") if ring else token._replace(part="hue")
        tokens = [*tokens[:place], meant, *tokens[place + 1 :]]
    return tokens


def _words_of(tokens: Sequence[Token], start: int, end: int) -> str:
    """What stands between two tokens, without the brackets around it."""
    text = tokens[start].source.text[tokens[start].start : tokens[end - 1].end]
    inside = text[1:-1] if text[:1] in "([{<" else text
    words = inside.strip(" .,;:-")
    return words[:1].upper() + words[1:] + "." if words else ""


def work_of(tokens: Sequence[Token], line: Line) -> Span:
    """The words of a round's work; the whole line where there are none."""
    return tokens[0].span.to(tokens[-1].span) if tokens else ink(line)


def _foundation(work: Instruction) -> bool:
    """Whether a line makes only a foundation: 'Ch 7.', 'Ch 24, join with sl st.'"""
    chained = any(isinstance(item, Chain) for item in work.items)
    return chained and all(isinstance(item, Chain | JoinRound) for item in work.items)
