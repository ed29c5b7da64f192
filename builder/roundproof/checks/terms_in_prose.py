"""A stitch name in running text, where it cannot follow the reader's terms."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from roundproof.checks.base import Check, Found
from roundproof.fabric.model import WorkedRound
from roundproof.findings import Edit, Severity
from roundproof.notation.tree import Action, Note
from roundproof.proof import Proof
from roundproof.reference import stitches
from roundproof.source import Line, Text

_BRACED = re.compile(r"\{[^{}\n]*\}")


def _run(proof: Proof) -> Found:
    for line in (*_prose(proof), *_notes(proof)):
        bare = _BRACED.sub(lambda m: " " * len(m.group()), line.text)
        match = _names().search(bare)
        if match is None:
            continue
        exact = line.span.text == line.text
        span = line.span.cut(*match.span()) if exact else line.span
        word = match.group()
        yield CHECK.finding(
            span,
            f"`{word}` in running text means another stitch to readers of the other terms.",
            f"Write `{{{word}}}`: what stands in braces follows the reader's terms.",
            edits=(Edit(span, f"{{{word}}}"),) if exact else (),
        )


def _prose(proof: Proof) -> Iterator[Line]:
    """Running text of the pattern, line by line where places in it are known."""
    pattern = proof.pattern
    texts: list[Text | None] = [pattern.summary, pattern.care, pattern.safety_note]
    texts += [step.step for step in pattern.assembly]
    for text in texts:
        if text is not None:
            yield from text.lines or (Line(" ".join(text.value.split()), text.span),)


def _notes(proof: Proof) -> Iterator[Line]:
    """Notes, actions and remarks between the rounds; not lines that read like lost rounds, which
    are told of as such."""
    lost = {f.span.start for f in proof.reading if f.check == "note-like-round"}
    for piece in proof.fabric.pieces.values():
        for entry in piece.entries:
            if isinstance(entry, Note | Action):
                if any(entry.span.start <= start < entry.span.end for start in lost):
                    continue
                start = max(0, entry.span.text.find(entry.text))
                yield Line(entry.text, entry.span.cut(start, start + len(entry.text)))
            elif isinstance(entry, WorkedRound) and entry.round.remark:
                words, span = entry.round.remark, entry.round.span
                start = max(0, span.text.find(words))
                yield Line(words, span.cut(start, start + len(words)))


@cache
def _names() -> re.Pattern[str]:
    """The names that stand for another stitch, or for none, in the other terms."""
    kinds = [k for k in stitches().values() if k.us_name != k.uk_name]
    words = {word for kind in kinds for word in (*kind.us, *kind.uk)}
    longest = sorted(words, key=lambda w: (-len(w), w))
    return re.compile(rf"(?<![\w{{])(?:{'|'.join(map(re.escape, longest))})(?![\w}}])")


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    Note: A {} that is too tight hides the next round.
"""

CHECK = Check(
    id="terms-in-prose",
    title="Stitch name in running text",
    why=(
        "Rounds are printed in the terms the reader chooses, US or UK. A stitch name in a note"
        " stays as it was typed, and then the round says `dc` and the note beside it says `sc`."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format("sc"),
    good=_PATTERN.format("{sc}"),
    source="US/UK term table: the same letters name different stitches",
    run=_run,
)
