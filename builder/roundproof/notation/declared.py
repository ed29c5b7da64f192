"""Short words that a piece declares in its own lines: 'X = sc, V = inc', 'g = green'."""

from __future__ import annotations

import re

from roundproof.notation.tokens import Lexicon, Own
from roundproof.source import Line

_PAIR = re.compile(
    r"(?:^|[,;.:(/|&]|\band\b)\s*(?P<word>[^\W\d_]{1,4})\s*=\s*(?P<means>[^=,;./|()]+)"
)
_LETTER = re.compile(r"\s*(?P<word>[A-Z])\s*[-:]\s*(?P<means>[^=,;./|()]+)[.]?\s*$")
_MEANS = frozenset({"stitch", "foreign", "inc", "dec", "inv dec", "tog", "hue", "colour", "skip"})
_MOST = 60
"""A letter by itself, 'X - single crochet', stands on a short line."""


def declared(line: Line, lexicon: Lexicon) -> dict[str, Own]:
    """What each short word stands for that a line explains by one that is known; none where the
    line is about something else."""
    text = line.text
    dressed = text.translate({ord(c): "-" for c in "–—−"})
    pairs = list(_PAIR.finditer(text)) if "=" in text else []
    if not pairs and len(text) < _MOST and (only := _LETTER.match(dressed)):
        pairs = [only]
    found: dict[str, Own] = {}
    for pair in pairs:
        word, own = pair["word"], _meaning(line, pair.span("means"), lexicon)
        if own is not None and not lexicon.knows(word):
            found[word] = own
    return found


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
