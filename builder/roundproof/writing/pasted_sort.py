"""Sorts the lines of some notes: title, materials, pieces, assembly, and what has no place."""

from __future__ import annotations

import re
from collections.abc import Sequence

from roundproof.frozen import dataclass, replace
from roundproof.writing.pasted_headings import Heading, heading, is_yarn, made, section
from roundproof.writing.pasted_junk import Loose, without_junk
from roundproof.writing.pasted_marks import NoteLine
from roundproof.writing.pasted_materials import Materials, told
from roundproof.writing.pasted_rounds import LONGEST, Kind, Reader, Reading, again, numbered
from roundproof.writing.pasted_tail import tail_of
from roundproof.writing.pasted_words import GREETS, JUNK, MAIL, PARTS_WITH

_BEFORE = re.compile(r"^(?P<head>[^:–—]{2,45}?)\s*[:–—-]\s+(?P<work>\S.*)$")
REACH = 7
"""A heading stands at most so many lines with words above the first round of its piece."""


@dataclass(frozen=True, slots=True)
class Placed:
    """A line of a piece's rounds, and the lines of the notes that it is made of."""

    text: str
    made_of: tuple[NoteLine, ...] = ()


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece: what its heading says, the lines that say so, and its rounds with what stands
    between them."""

    head: Heading
    said: tuple[NoteLine, ...]
    lines: tuple[Placed, ...]


@dataclass(frozen=True, slots=True)
class Sorted:
    """All lines of some notes, in order, each in one of these."""

    title: NoteLine | None
    materials: Materials
    listed: tuple[NoteLine, ...]
    pieces: tuple[Piece, ...]
    assembly: tuple[NoteLine, ...]
    loose: tuple[Loose, ...]


def sorted_lines(lines: Sequence[NoteLine], reader: Reader) -> Sorted:
    kept, loose = without_junk(lines)
    kept = _headings_apart(kept, reader)
    found = _Sorter(kept, list(loose), reader, sparing=True).all()
    if found.pieces or not any(reader.read(line.text).worked for line in kept):
        return found
    return _Sorter(kept, loose, reader, sparing=False).all()


class _Sorter:
    """Goes through the lines once, from part to part. Where it is `sparing`, only a round that
    has a number or is worked into a ring or chain begins a piece."""

    def __init__(
        self, lines: list[NoteLine], loose: list[Loose], reader: Reader, sparing: bool
    ) -> None:
        self.lines, self.loose, self.reader, self.sparing = lines, loose, reader, sparing
        self.read = [reader.read(line.text) for line in lines]
        letters = [c for line in lines for c in line.text if c.isalpha()]
        capitals = sum(c.isupper() for c in letters) > 0.7 * len(letters)
        self.heads = _heads(lines, self.read, reader, capitals)
        self.known: dict[tuple[str, bool], Materials] = {}
        self.part = "front"
        self.pieces: list[Piece] = []
        self.open: Piece | None = None
        self.rows: list[Placed] = []
        """The lines of the open piece, and whether there is a round among them."""
        self.begun = False
        self.materials = Materials()
        self.listed: list[NoteLine] = []
        self.assembly: list[NoteLine] = []
        self.front: list[NoteLine] = []

    def all(self) -> Sorted:
        at = 0
        while at < len(self.lines):
            at += self.take(at)
        self.close()
        title = self.title()
        loose = sorted(self.loose, key=lambda each: each.line.number)
        return Sorted(
            title,
            self.materials,
            tuple(self.listed),
            tuple(self.pieces),
            tuple(self.assembly),
            tuple(each for each in loose if each.line is not title),
        )

    def take(self, at: int) -> int:
        """Puts a line where it belongs; how many were taken."""
        line, read = self.lines[at], self.read[at]
        if at in self.heads:
            self.begin(self.heads[at], line)
        elif line.blank or line.mark == "crossed":
            self.put(line)
        elif not read.worked and (name := self.announced(line, at)):
            self.enter(name, line)
        elif self.open is not None:
            return self.in_piece(at)
        elif self.opens(read):
            self.begin(Heading(""), None)
            return self.in_piece(at)
        else:
            self.put(line)
        return 1

    # ---- pieces ----
    def begin(self, head: Heading, line: NoteLine | None) -> None:
        self.close()
        self.part = "piece"
        self.open = Piece(head, (line,) if line else (), ())
        self.rows, self.begun = [], False

    def in_piece(self, at: int) -> int:
        line = self.lines[at]
        if not self.begun and not self.read[at].worked and self.said_of_piece(line):
            return 1
        text, taken = line.text, 1
        if line.raw.startswith("#") and not self.read[at].worked:
            text = line.raw  # a private line, and no heading
        elif self.read[at].kind is Kind.WORDS and numbered(text) and not _is_note(text):
            text = f"Note: {text}"  # 'Round 11 is fiddly': it would be taken for a round
        if self.read[at].worked or self.read[at].kind is Kind.ACTION:
            reach = min([at + 4, *(i for i in range(at + 1, at + 4) if i in self.heads)])
            text, taken = self.reader.joined(self.lines[at:reach])
        self.begun = self.begun or self.read[at].worked
        self.rows.append(Placed(text, tuple(self.lines[at : at + taken])))
        return taken

    def said_of_piece(self, line: NoteLine) -> bool:
        """'Make 2.' and 'With sand:' before the first round belong to the heading."""
        assert self.open is not None
        head, number = self.open.head, made(line.text)
        yarn = re.fullmatch(
            r"(?i)(?:with|in|using|use) ([\w -]{1,25}?)(?: yarn)?\s*[:.,]?", line.text
        )
        if number and head.make is None:
            head = replace(head, make=number)
        elif yarn and not head.yarn and is_yarn(words := yarn[1].removesuffix(" yarn")):
            head = replace(head, yarn=words)
        else:
            return False
        self.open = replace(self.open, head=head, said=(*self.open.said, line))
        return True

    def opens(self, read: Reading) -> bool:
        """Whether a round without any heading begins a piece."""
        if self.part in ("assembly", "end"):
            return read.kind is Kind.ROUND and read.first == 1
        return read.worked and (read.starts or read.first > 0 or not self.sparing)

    def close(self) -> None:
        """Ends the open piece; what stands after its last round and is no work of it is taken
        out again."""
        if self.open is None:
            return
        texts = [each.text for each in self.rows]
        last = max((i for i, t in enumerate(texts) if self.works(t)), default=-1)
        names = [p.head.name for p in self.pieces if p.head.name]
        keep, sewn, stray = tail_of(texts, last, names)
        at = self.rows
        self.assembly += [line for i in sewn for line in at[i].made_of]
        self.loose += [Loose(line) for i in stray for line in at[i].made_of if not line.blank]
        if any(each.text for each in at[:keep]):
            self.pieces.append(replace(self.open, lines=tuple(at[:keep])))
        else:
            self.loose += [Loose(line, "heading") for line in self.open.said]
        self.open = None

    def works(self, text: str) -> bool:
        return self.reader.read(text).kind is not Kind.WORDS

    # ---- other parts ----
    def announced(self, line: NoteLine, at: int) -> str:
        """The part that a line announces by itself or before a colon; empty if none."""
        name = section(line.text)
        inline = re.match(r"^([^:]{3,40}):\s+\S", line.text)
        if not name and inline and not _is_note(line.text):
            name = section(inline[1])
            if name not in ("assembly", "abbreviations", "gauge", "materials"):
                name = ""
        if name == "about" and self.open is not None and self.goes_on(at):
            return ""
        return "" if _is_note(line.text) else name

    def goes_on(self, at: int) -> bool:
        """Whether the open piece has more rounds after a line, before the next heading."""
        for after in range(at + 1, len(self.lines)):
            if after in self.heads:
                return False
            if self.read[after].worked:
                return True
        return False

    def enter(self, name: str, line: NoteLine) -> None:
        self.close()
        self.part = name
        inline = line.text.partition(":")[2].strip()
        if name == "assembly":
            self.assembly.append(line)
        elif name in ("materials", "gauge"):
            if inline:
                self.materials = self.materials.plus(told(line.text, listed=True))
            self.listed.append(line)
        else:
            self.loose.append(
                Loose(line, "abbreviations" if name == "abbreviations" else "heading")
            )

    def put(self, line: NoteLine) -> None:
        """A line that is neither a heading nor a round, by the part it stands in."""
        if self.open is not None:
            self.rows.append(Placed(line.text, (line,)))
        elif not line.blank:
            self.put_words(line)

    def put_words(self, line: NoteLine) -> None:
        if self.part == "assembly" and not PARTS_WITH.match(line.text):
            self.assembly.append(line)
            return
        if self.part == "assembly":
            self.part = "end"
        found = self.materials_in(line)
        if found:
            self.materials = self.materials.plus(found)
            self.listed.append(line)
            return
        if self.part == "front":
            self.front.append(line)
        self.loose.append(Loose(line, "abbreviations" if self.part == "abbreviations" else ""))

    def materials_in(self, line: NoteLine) -> Materials:
        if self.part in ("abbreviations", "end") or MAIL.match(line.text) or line.mark == "crossed":
            return Materials()
        said = (line.text, self.part == "materials")
        if said not in self.known:
            self.known[said] = told(line.text, listed=said[1])
        return self.known[said]

    def title(self) -> NoteLine | None:
        """The line of the front that is plainly what the pattern is called."""
        first = next((line for line in self.lines if not line.blank), None)
        for line in self.front:
            if (line.mark == "title" or line is first) and _is_title(line):
                return line
        if len(self.pieces) == 1 and (said := self.pieces[0].said) and said[0] is first:
            head = self.pieces[0].head
            if not head.known and not first.text.endswith(":"):
                self.pieces[0] = replace(self.pieces[0], head=Heading(""), said=said[1:])
                return first
        return None


def _headings_apart(lines: Sequence[NoteLine], reader: Reader) -> list[NoteLine]:
    """The lines, with a heading that stands before a round on its line on one of its own."""
    found: list[NoteLine] = []
    for line in lines:
        match = _BEFORE.match(line.text) if len(line.text) < LONGEST else None
        if (
            match
            and (read := reader.read(match["work"])).worked
            and not reader.read(line.text).worked
        ):
            head = NoteLine(line.number, line.raw, f"{match['head'].strip()}:")
            named = heading(head, capitals=False)
            if named and (read.first == 1 or (named.known and read.starts)):
                found += [head, NoteLine(line.number, line.raw, match["work"])]
                continue
        found.append(line)
    return found


def _heads(
    lines: Sequence[NoteLine], read: Sequence[Reading], reader: Reader, capitals: bool
) -> dict[int, Heading]:
    """The lines that are headings of pieces. Of several that could be it, above the same round,
    the one most like a heading is; the nearest, if they are alike."""
    best: dict[int, tuple[int, int, Heading]] = {}
    near = _rounds_below(lines, read)
    listing = False
    last = through = 0
    for at, line in enumerate(lines):
        if read[at].worked:
            last = max(read[at].last, 1)
            through = at + reader.joined(lines[at : at + 4])[1]
            continue
        listing = not line.blank and (listing or section(line.text) == "materials")
        words = read[at].kind is Kind.WORDS and line.mark not in ("crossed", "rule")
        if at < through or listing or line.blank or not words:
            continue
        below = near[at]
        if not below or (found := heading(line, capitals)) is None:
            continue
        if _heads_it(found, lines, at, again(read[below], last)):
            rank = (found.rank, at)
            if below not in best or best[below][:2] <= rank:
                best[below] = (*rank, found)
    return {at: found for _, at, found in best.values()}


def _rounds_below(lines: Sequence[NoteLine], read: Sequence[Reading]) -> list[int]:
    """For each line the first round below it, if it is near enough and no other part begins
    before it; else 0."""
    found = [0] * len(lines)
    below = words = 0
    for at in range(len(lines) - 1, -1, -1):
        found[at] = below if words <= REACH else 0
        if read[at].worked and (read[at].first or read[at].starts):
            below, words = at, 0
        elif below and words <= REACH and section(lines[at].text) not in ("", "about"):
            below = 0
        words += not lines[at].blank and not read[at].worked
    return found


def _heads_it(found: Heading, lines: Sequence[NoteLine], at: int, anew: bool) -> bool:
    apart = at == 0 or lines[at - 1].blank
    few = len(found.name.split()) <= 3
    if found.known and (found.strong or (apart and few)):
        return anew or found.strong
    if found.known or apart or found.strong:
        return anew and (found.strong or few or (apart and at == 0))
    return False


def _is_note(text: str) -> bool:
    return bool(re.match(r"(?i)(?:note|tip|hint)\s*:", text))


def _is_title(line: NoteLine) -> bool:
    text = line.text
    if len(text) > 70 or len(text.split()) > 8 or not re.search(r"[^\W\d_]{3}", text):
        return False
    if (
        re.search(r"[.,;:?@]$|https?:|www\.|@|^\d+[./-]\d+|^(?!pattern)\w+: ", text.lower())
        or line.mark == "item"
    ):
        return False
    return not (JUNK.match(text) or MAIL.match(text) or GREETS.match(text) or _is_note(text))
