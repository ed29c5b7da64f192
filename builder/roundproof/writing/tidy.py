"""A pattern's rounds in house style, by editing nothing but them: whatever stands around them,
comments, spacing, line ends, stays as it is.

What is written is read again before it is given on. A line that would not be read as the same work
is left as it was.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from roundproof.fabric.model import WorkedPiece, WorkedRound
from roundproof.findings import Edit
from roundproof.frozen import dataclass
from roundproof.notation.own import context_of, own_words
from roundproof.notation.reader import Context, read_script
from roundproof.notation.tree import Action, Entry, Label, Note, Round, Script
from roundproof.pattern.load import read_pattern
from roundproof.proof import Proof
from roundproof.source import Source, Text
from roundproof.words import say
from roundproof.writing.house_style import House, Rewritten
from roundproof.writing.numbers import Numbers, as_they_are, in_order
from roundproof.writing.references import Moved, References

_BLOCK = re.compile(r":[ \t]*\|[-+0-9]*[ \t]*(?:#[^\n]*)?$")
_ATTEMPTS = 4

Where = tuple[str, int]
"""A piece's key and the place of a round in it."""


@dataclass(frozen=True, slots=True)
class Left:
    """A line that was left as it is, and why; `label` is empty for a whole piece."""

    piece: str
    label: str
    line: int
    why: str


@dataclass(frozen=True, slots=True)
class Renumbered:
    """A round with its old and its new label."""

    piece: str
    old: str
    new: str
    line: int


@dataclass(frozen=True, slots=True)
class Tidied:
    """What became of a pattern's text. `rounds` is the number of lines of work rewritten."""

    source: Source
    text: str
    edits: tuple[Edit, ...]
    rounds: int
    left: tuple[Left, ...]
    renumbered: tuple[Renumbered, ...]
    moved: tuple[Moved, ...]

    @property
    def changed(self) -> bool:
        return self.text != self.source.text


def tidied(proof: Proof, *, counts: bool = False, renumber: bool = False) -> Tidied:
    """The pattern's text in house style; with `counts` every count written that is missing, with
    `renumber` rounds that skip or double numbered anew and whatever names them moved along."""
    wary: dict[Where, str] = {}
    shut: dict[str, str] = {}
    for _ in range(_ATTEMPTS):
        tidying = _Tidying(proof, counts, renumber, wary, shut)
        if not tidying.misread(wary, shut):
            break
    else:  # nothing is better than something else
        shut |= {key: say("tidy.misread") for key in proof.fabric.pieces}
        tidying = _Tidying(proof, counts, renumber, wary, shut)
    return tidying.result()


class _PieceTidy:
    """One piece: what its script says, and what becomes of each of its rounds."""

    def __init__(self, worked: WorkedPiece, text: Text, script: Script, numbers: Numbers) -> None:
        self.worked = worked
        self.text = text
        self.script = script
        self.numbers = numbers
        self.lines: list[Rewritten] = []
        self.rounds = script.rounds


class _Tidying:
    """One attempt. `wary` are rounds, `shut` pieces that are to be left as they are."""

    def __init__(
        self,
        proof: Proof,
        counts: bool,
        renumber: bool,
        wary: dict[Where, str],
        shut: dict[str, str],
    ) -> None:
        self.proof = proof
        self.pattern = proof.pattern
        self.counts = counts
        self.left: list[Left] = []
        self.pieces = dict(self.opened(renumber, shut))
        self.references = References(
            self.pattern,
            {p.key: self.numbers_of(p.key) for p in self.pattern.pieces},
        )
        for key in self.pieces:
            self.piece(key, wary)
        if renumber:
            self.references.pattern_wide()
        self.text = _edited(self.pattern.source.text, self.edits())

    def opened(self, renumber: bool, shut: dict[str, str]) -> Iterator[tuple[str, _PieceTidy]]:
        """The pieces whose rounds can be edited where they stand."""
        for key, worked in self.proof.fabric.pieces.items():
            text = worked.piece.rounds
            if text is None or not text.lines or text.span.source is not self.pattern.source:
                continue
            line = text.span.begins[0]
            if key in shut or not _in_block(text):
                self.left.append(Left(key, "", line, shut.get(key) or say("tidy.no_block")))
                continue
            script, _ = read_script(text, self.context(key))
            numbers = in_order(script.entries) if renumber else as_they_are(script.entries)
            if numbers.why:
                self.left.append(Left(key, "", line, numbers.why))
            yield key, _PieceTidy(worked, text, script, numbers)

    def numbers_of(self, key: str) -> Numbers:
        return self.pieces[key].numbers if key in self.pieces else Numbers(())

    def context(self, key: str) -> Context:
        return context_of(self.pattern, key, own_words(self.pattern)[0])

    def piece(self, key: str, wary: dict[Where, str]) -> None:
        piece = self.pieces[key]
        source = self.pattern.source
        findings = [f for f in self.proof.reading if f.piece == key and f.span.source is source]
        house = House(piece.text, self.context(key), findings, self.counts)
        worked = {w.round.span.start: w for w in piece.worked.rounds if not w.round.repeats}
        index = 0
        for entry in piece.script.entries:
            if not isinstance(entry, Round):
                self.references.span(entry.span, key)
                continue
            new = _written(piece.numbers.labels[index][1])
            line = self.line(house, piece, entry, index, new, worked, wary.get((key, index)))
            if line.why:
                number = entry.span.begins[0]
                self.left.append(Left(key, str(entry.label), number, line.why))
            self.references.span(line.rest, key, index)
            piece.lines.append(line)
            index += 1
        self.private(piece, key)

    def line(
        self,
        house: House,
        piece: _PieceTidy,
        entry: Round,
        index: int,
        label: Label,
        worked: dict[int, WorkedRound],
        why: str | None,
    ) -> Rewritten:
        def move(number: int) -> int:
            return piece.numbers.move(number, index)

        if why is not None:
            return house.left(entry, label, move, why)
        return house.line(entry, worked.get(entry.span.start), label, move)

    def private(self, piece: _PieceTidy, key: str) -> None:
        """Private lines are nobody's but the designer's: a round named there is told of."""
        for line in piece.text.lines or ():
            if line.text.lstrip().startswith("#"):
                self.references.private(line.span, key)

    def edits(self) -> list[Edit]:
        found = [edit for p in self.pieces.values() for line in p.lines for edit in line.edits]
        return sorted([*found, *self.references.edits], key=lambda e: (e.span.start, e.span.end))

    # ---- what was written, read again ----

    def misread(self, wary: dict[Where, str], shut: dict[str, str]) -> bool:
        """Whether anything would be read as other work than before; it is noted where."""
        again, _ = read_pattern(Source("", self.text), self.pattern.slug)
        before = len(wary) + len(shut)
        for key, piece in self.pieces.items():
            now = again.piece(key) if again else None
            if now is None or now.rounds is None or now.rounds.lines is None:
                shut[key] = say("tidy.misread")
                continue
            script, _ = read_script(now.rounds, self.context(key))
            if not _alike(piece.script.entries, script.entries):
                shut[key] = say("tidy.misread")
                continue
            for index, (line, read) in enumerate(zip(piece.lines, script.rounds, strict=True)):
                if not _same(line.reads, read):
                    wary[key, index] = say("tidy.misread")
        return len(wary) + len(shut) > before

    def result(self) -> Tidied:
        renumbered = tuple(
            Renumbered(key, str(old), str(new), old.span.begins[0])
            for key, piece in self.pieces.items()
            for old, new in piece.numbers.labels
            if (old.first, old.last) != (new.first, new.last)
        )
        rewritten = sum(bool(ln.edits) for p in self.pieces.values() for ln in p.lines)
        moved = tuple(sorted(self.references.moved, key=lambda m: m.span.start))
        left = tuple(sorted(self.left, key=lambda one: one.line))
        edits = tuple(self.edits())
        return Tidied(self.pattern.source, self.text, edits, rewritten, left, renumbered, moved)


def _written(label: Label) -> Label:
    """The label as it is once it stands there."""
    return Label(label.first, label.last, label.span, label.row)


def _in_block(text: Text) -> bool:
    """Whether a text stands on lines of its own after `|`, where `:` and `#` may be written."""
    before = text.span.source.text[: text.span.start].rstrip(" \t\r\n")
    return _BLOCK.search(before.rsplit("\n", 1)[-1]) is not None


def _alike(before: Sequence[Entry], after: Sequence[Entry]) -> bool:
    """Whether two scripts have the same lines of each kind in the same order."""
    if len(before) != len(after):
        return False
    return all(_kind(a) == _kind(b) for a, b in zip(before, after, strict=True))


def _kind(entry: Entry) -> object:
    if isinstance(entry, Action):
        return entry.act, entry.yarn, entry.number, entry.between
    return "note" if isinstance(entry, Note) else "round"


def _same(expected: Round, read: Round) -> bool:
    def told(round_: Round) -> object:
        stated = round_.stated.count if round_.stated else None
        return round_.label, round_.readings, stated, round_.repeats, bool(round_.remark)

    return told(expected) == told(read)


def _edited(text: str, edits: Sequence[Edit]) -> str:
    """The text with the edits made, which stand in order."""
    kept, at = [], 0
    for edit in edits:
        kept += [text[at : edit.span.start], edit.text]
        at = edit.span.end
    return "".join([*kept, text[at:]])
