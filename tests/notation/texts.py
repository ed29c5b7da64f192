"""Round text as the reader gets it, from plain strings."""

from __future__ import annotations

from collections.abc import Mapping

from roundproof.findings import Finding
from roundproof.notation.cursor import Unread
from roundproof.notation.onto import names_of, placed
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
    return placed(Lexicon(terms, COLOURS).tokens(lines[0]), names_of({}))


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


SNIPPETS = tuple(
    """sc|inc|dec|sc2tog|around|FLO|MR|join|tog|twice|turn|(|(|)|)|[|]|*|*|,|,|,|,|;|.|x|2|3
2 sc|inv dec|hdc inc|(sc, hdc) in next st|3 dc in next st|sc in next 3 sts|sc in each st|inc x 2
(2 sc, inc) x 3|*sc, inc; rep from * 3 more times|*dec* x 3|(sc, inc)|in BLO|in each st around
to last 3 sts|in same st|in first st|in last st|in magic ring|ch 2|in 2nd ch from hook|with A
sl st in first st|change to slate|with mauve|sk 1|sk next st|3 times|leave 3 sts unworked
through both layers|on the other side|repeat around|in the free front loops of R6
(ch 2) in next st|(sc, ch 2, sc) in same st|(sc, dc) in each st|sc in every 3rd st|inc in 2nd st
starting in 2nd ch from hook, sc 3|do the following 3 times:|end of the repeat
do this 4 times in all|work the following in the next stitch:|end of the group
pairs of stitches""".replace("\n", "|").split("|")
)
"""Bits of rounds, for putting together by chance."""


def taken(written: str) -> tuple[Instruction, ...]:
    """The readings of a round's work, whatever stands behind it; none where it is not read."""
    try:
        return readings(tokens(written))[0]
    except Unread:
        return ()
