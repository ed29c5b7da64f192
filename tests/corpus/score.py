"""How much of the corpus is read, and how much of it rightly.

`lines/*.txt` hold rounds as some hundred and forty invented writers write them, each with what a
person would use and make. Every piece is put into a draft of the least kind and run through
`check --format json`. Run by hand (`python tests/corpus/score.py`, `-v` for every failure) this
prints figures by writer's file and failures by kind.
"""

from __future__ import annotations

import json
import re
import sys
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from roundproof.pipeline import prove
from roundproof.telling.json_ import told

LINES = Path(__file__).with_name("lines")
_NUMBERS = re.compile(r"(\?|\d+)/(\?|\d+)")


@dataclass(frozen=True)
class Expected:
    """What a person uses and makes in a round; None where it is a matter of convention."""

    line: int
    used: int | None
    made: int | None
    mistake: bool


@dataclass
class Piece:
    file: str
    writer: str
    terms: str
    name: str
    lines: list[str] = field(default_factory=list)
    rounds: list[Expected] = field(default_factory=list)

    @property
    def right(self) -> bool:
        """Whether nothing is wrong with the piece as its writer published it."""
        return not any(r.mistake for r in self.rounds)

    def draft(self) -> str:
        body = "\n".join(f"    {line}".rstrip() for line in self.lines)
        return f"terms: {self.terms}\npieces:\n  piece: |\n{body}\n"


@dataclass(frozen=True)
class Failure:
    """`kind`: "unread", "wrong", "error in a right piece" or "mistake not reported"."""

    kind: str
    piece: Piece
    text: str
    says: str


@dataclass
class Score:
    lines: Counter[str] = field(default_factory=Counter)
    read: Counter[str] = field(default_factory=Counter)
    right: Counter[str] = field(default_factory=Counter)
    pieces: Counter[str] = field(default_factory=Counter)
    clean: Counter[str] = field(default_factory=Counter)
    mistakes: Counter[str] = field(default_factory=Counter)
    reported: Counter[str] = field(default_factory=Counter)
    failures: list[Failure] = field(default_factory=list)


def pieces() -> Iterator[Piece]:
    """Every piece of the corpus."""
    for path in sorted(LINES.glob("*.txt")):
        yield from _pieces(path)


def _pieces(path: Path) -> Iterator[Piece]:
    writer, terms, piece = "", "US", None
    for typed in path.read_text("utf-8").split("\n"):
        if typed.startswith("@ "):
            writer, terms, *_ = (part.strip() for part in typed[2:].split("|"))
        elif typed.startswith("= "):
            if piece:
                yield piece
            piece = Piece(path.stem, writer, terms, typed[2:].strip())
        elif " | " in typed and piece:
            mark, text = typed.split(" | ", 1)
            piece.lines.append(text)
            for used, made in _NUMBERS.findall(mark):
                piece.rounds.append(
                    Expected(len(piece.lines), _number(used), _number(made), "!" in mark)
                )
    if piece:
        yield piece


def _number(text: str) -> int | None:
    return None if text == "?" else int(text)


def score(corpus: Iterable[Piece]) -> Score:
    """Run all pieces through the check and compare."""
    found, corpus = Score(), list(corpus)
    with TemporaryDirectory() as folder:
        for number, piece in enumerate(corpus):
            (Path(folder) / f"{number:04}.yaml").write_text(piece.draft(), "utf-8")
        files = [Path(folder) / f"{number:04}.yaml" for number in range(len(corpus))]
        results = json.loads(told(prove(*files)))["patterns"]
    for piece, result in zip(corpus, results, strict=True):
        _compare(piece, result, found)
    return found


def _compare(piece: Piece, result: dict[str, Any], found: Score) -> None:
    rounds: dict[int, list[dict[str, Any]]] = {}
    for piece_result in result["pieces"]:
        for round_ in piece_result["rounds"]:
            rounds.setdefault(round_["line"] - 3, []).append(round_)
    errors = [f for f in result["findings"] if f["severity"] == "error"]
    by_line: dict[int, int] = Counter()
    for expected in piece.rounds:
        found.lines[piece.file] += 1
        there = rounds.get(expected.line, [])
        at = by_line[expected.line]
        by_line[expected.line] += 1
        got = there[at] if at < len(there) else None
        _line(piece, expected, got, found)
    if piece.right:
        found.pieces[piece.file] += 1
        found.clean[piece.file] += not errors
        for error in errors:
            text = piece.lines[max(0, min(error["line"] - 4, len(piece.lines) - 1))]
            found.failures.append(Failure("error in a right piece", piece, text, error["message"]))
    else:
        found.mistakes[piece.file] += 1
        found.reported[piece.file] += bool(errors)
        if not errors:
            found.failures.append(Failure("mistake not reported", piece, piece.name, ""))


def _line(piece: Piece, expected: Expected, got: dict[str, Any] | None, found: Score) -> None:
    text = piece.lines[expected.line - 1]
    if got is None or got["made"] is None or got["used"] is None:
        found.failures.append(Failure("unread", piece, text, "not a round" if got is None else ""))
        return
    found.read[piece.file] += 1
    same = expected.used in (None, got["used"]) and expected.made in (None, got["made"])
    found.right[piece.file] += same
    if not same:
        says = f"{got['used']}/{got['made']}, not {expected.used}/{expected.made}"
        found.failures.append(Failure("wrong", piece, text, says))


def report(found: Score) -> str:
    """The figures by file, in percent, and how many failures of each kind."""
    rows = ["file   lines   read   right  | right pieces  no error | mistakes  reported"]
    for file in [*sorted(found.lines), ""]:
        lines, read, right = (_of(c, file) for c in (found.lines, found.read, found.right))
        whole, clean = _of(found.pieces, file), _of(found.clean, file)
        bad, told_ = _of(found.mistakes, file), _of(found.reported, file)
        rows.append(
            f"{file or 'all':5} {lines:6} {read / lines:7.1%} {right / lines:7.1%} | "
            f"{whole:6} {clean / max(1, whole):14.1%} | {bad:6} {told_:6}"
        )
    kinds = Counter(f.kind for f in found.failures)
    return "\n".join([*rows, *(f"{n:5} {kind}" for kind, n in kinds.most_common())])


def _of(counter: Counter[str], file: str) -> int:
    return counter[file] if file else sum(counter.values())


if __name__ == "__main__":
    scored = score(pieces())
    if "-v" in sys.argv:
        for failure in scored.failures:
            where = f"{failure.piece.file} {failure.piece.writer}/{failure.piece.name}"
            print(f"{failure.kind:22} {where:28} {failure.text!r}  {failure.says}")
    print(report(scored))
