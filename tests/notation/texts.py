"""Round text as the reader gets it, from plain strings."""

from __future__ import annotations

from collections.abc import Mapping

from roundproof.findings import Finding
from roundproof.notation.parse import readings
from roundproof.notation.reader import Context, read_script
from roundproof.notation.tokens import Lexicon, Token
from roundproof.notation.tree import Instruction, Round, Script
from roundproof.pattern.model import Terms
from roundproof.source import Line, Source, Text

COLOURS = {"slate": "slate", "a": "slate", "chalk": "chalk", "b": "chalk", "sea green": "sea"}


def as_text(written: str) -> Text:
    source = Source("pattern.yaml", written)
    lines, at = [], 0
    for line in written.split("\n"):
        lines.append(Line(line, source.span(at, at + len(line))))
        at += len(line) + 1
    return Text(written, source.span(0, len(written)), tuple(lines))


def tokens(written: str, terms: Terms = Terms.US) -> list[Token]:
    lines = as_text(written).lines
    assert lines is not None
    return Lexicon(terms, COLOURS).tokens(lines[0])


def read_work(written: str, terms: Terms = Terms.US) -> tuple[Instruction, ...]:
    """The readings of a round's work; nothing may be left over."""
    found, rest = readings(tokens(written, terms))
    assert not rest, rest
    return found


def read(
    written: str, terms: Terms = Terms.US, colours: Mapping[str, str] = COLOURS
) -> tuple[Script, list[Finding]]:
    return read_script(as_text(written), Context(terms, colours, "body"))


def only_round(written: str, terms: Terms = Terms.US) -> Round:
    script, findings = read(written, terms)
    assert not findings, findings
    (found,) = script.rounds
    return found
