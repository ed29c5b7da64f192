"""Short words that a piece declares in its own lines: 'X = sc, V = inc', 'g = green'."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from roundproof.expressions import expression
from roundproof.notation.cursor import Unread
from roundproof.notation.parse import work_of_round
from roundproof.notation.tokens import Lexicon, Own, Token
from roundproof.notation.units import SINGLE
from roundproof.source import Line

_PAIR = expression(
    r"(?:^|[,;.:(/|&]|\band\b)\s*(?P<word>[^\W\d_]{1,4})\s*=\s*(?P<means>[^=,;./|()]+)"
)
_LETTER = expression(r"(?:^|[,;.:(/|])\s*(?P<word>[A-Z])\s*[-:]\s*(?P<means>[^=,;./|()]+)")
_MEANS = frozenset({"stitch", "foreign", "inc", "dec", "inv dec", "tog", "hue", "colour", "skip"})


def declared(line: Line, lexicon: Lexicon) -> dict[str, Own]:
    """What each short word stands for that a line explains by one that is known; none where the
    line is about something else."""
    text = line.text
    dressed = text.translate({ord(c): "-" for c in "–—−"})
    pairs = list(_PAIR.finditer(text)) if "=" in text else list(_LETTER.finditer(dressed))
    found: dict[str, Own] = {}
    for pair in pairs:
        word, own = pair["word"], _meaning(line, pair.span("means"), lexicon)
        if own is not None and not lexicon.knows(word):
            found[word] = own
    return found


def undeclared(tokens: Sequence[Token]) -> list[Token]:
    """Letters that stand for stitches without a line that explains them: with a stitch for each
    of them the round would read. None where something else is wrong too."""
    letters = [t for before, t in pairwise((None, *tokens)) if t and _stands_for(t, before)]
    if not letters:
        return []
    known = [t._replace(part="stitch", value=SINGLE) if t in letters else t for t in tokens]
    try:
        stray = work_of_round(known).stray
    except Unread:
        return []
    return [] if stray else letters


def _stands_for(token: Token, before: Token | None) -> bool:
    """Whether a letter may stand for a stitch; an X behind a bracket says how often."""
    if token.part == "times" and token.span.text == "X":
        return before is None or before.part not in (")", "]", "}", "*")
    return token.part == "word" and len(token.value) == 1 and token.span.text.isupper()


def _meaning(line: Line, at: tuple[int, int], lexicon: Lexicon) -> Own | None:
    """The one thing that some words name."""
    tokens = lexicon.tokens(Line(line.text[at[0] : at[1]], line.span.cut(*at)))
    if len(tokens) > 1 and tokens[-1].part == "st" and tokens[0].part != "hue":
        tokens = tokens[:-1]  # 'increase stitch'
    while len(tokens) > 1 and tokens[0].part == tokens[1].part == "hue":
        tokens = tokens[1:]  # 'light blue'
    first = tokens[0] if len(tokens) == 1 else None
    if first is None or first.part not in _MEANS:
        return None
    return Own(first.part, first.value, first.number, first.unit)
