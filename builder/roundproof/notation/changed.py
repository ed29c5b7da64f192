"""Rounds told by the change from an earlier one: 'same again but 2 sc, dec', 'as Rnd 16 but 24
sc'. What follows the change is the whole work of the round."""

from __future__ import annotations

import re

from roundproof.frozen import replace
from roundproof.notation.tokens import plain
from roundproof.notation.tree import Fill, Instruction, Repeat, Stitches
from roundproof.source import Line

_BUT = re.compile(
    r"\s*(?:rep(?:eat)?\s+|work\s+)?(?:(?:the |exactly the )?same|as|like)\b[^,;:()\[\]*]{0,30}?"
    r",?\s*\b(?:but|except)\s+(?:(?:with|this time|now|it's)\s+)*"
)


def changed(line: Line) -> Line | None:
    """The work behind the words of a change; None where there are none."""
    match = _BUT.match(plain(line.text))
    if match is None:
        return None
    return Line(line.text[match.end() :], line.span.cut(match.end(), len(line.text)))


def all_round(work: Instruction) -> Instruction:
    """'2 sc, dec' instead of what was repeated before is repeated too; '24 sc' is all."""
    items = work.items
    once = [i for i in items if isinstance(i, Stitches) and isinstance(i.times, int)]
    if len(items) < 2 or len(once) < len(items):
        return work
    span = items[0].span.to(items[-1].span)
    return replace(work, items=(Repeat(items, Fill(), span),))
