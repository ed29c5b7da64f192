"""Words of a pattern's own: the special stitches and the letters that it declares."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from roundproof.findings import Finding, Severity
from roundproof.notation.cursor import Unread
from roundproof.notation.parse import readings
from roundproof.notation.reader import Context
from roundproof.notation.tokens import Lexicon, Own
from roundproof.notation.tree import Stitches, Unit, Where
from roundproof.notation.units import one
from roundproof.pattern.model import Pattern, SpecialStitch, Terms
from roundproof.reference import stitches
from roundproof.source import Line, Located


def own_words(pattern: Pattern) -> tuple[Mapping[str, Own], list[Finding]]:
    """What each word of a pattern's own stands for, and the letters that stand for no stitch."""
    words = _special(pattern.stitches)
    letters, findings = _letters(pattern.letters or {}, pattern.written_in, words)
    return words | letters, findings


def context_of(pattern: Pattern, key: str, own: Mapping[str, Own]) -> Context:
    """What the reading of a piece needs to know of its pattern."""
    colours = {word: yarn.key for yarn in pattern.yarns for word in (yarn.key, *yarn.words)}
    pieces = {name: piece.key for piece in pattern.pieces for name in (piece.key, piece.name)}
    mine = pattern.piece(key)
    pieces |= dict.fromkeys((key, mine.name) if mine else (key,), "")
    return Context(pattern.written_in, colours, key, own, pieces)


def _special(declared: Iterable[SpecialStitch]) -> dict[str, Own]:
    """Declared stitches by their names, in the singular and the plural."""
    words: dict[str, Own] = {}
    for stitch in declared:
        entry = Own("own", stitch.key, 0, _unit(stitch))
        words |= {stitch.key: entry, f"{stitch.key}s": entry}
    return words


def _unit(stitch: SpecialStitch) -> Unit:
    row = stitches().get(stitch.key)
    if row is not None and (row.uses, row.makes) == (stitch.uses, stitch.makes):
        return one(stitch.key)
    plain = stitch.uses == stitch.makes == 1
    makes = ((stitch.key, stitch.makes),) if stitch.makes else ()
    return Unit(makes, stitch.uses, "" if plain else stitch.key)


def _letters(
    letters: Mapping[str, Located[str]], terms: Terms, words: Mapping[str, Own]
) -> tuple[dict[str, Own], list[Finding]]:
    lexicon = Lexicon(terms, {}, words)
    found: dict[str, Own] = {}
    findings: list[Finding] = []
    for letter, meant in letters.items():
        entry = _meaning(letter, meant, lexicon)
        if entry is not None:
            found[letter] = entry
            continue
        message = f"`{letter}` stands for `{meant.value}`, which is not one stitch."
        mend = "Write one stitch, like `sc`, `inc`, `dec` or `3 sc in next st`."
        findings.append(Finding("value-unknown", Severity.ERROR, meant.span, message, mend))
    return found, findings


def _meaning(letter: str, meant: Located[str], lexicon: Lexicon) -> Own | None:
    """What a letter stands for: a word of the trade, or several stitches in one place."""
    tokens = lexicon.tokens(Line(meant.value, meant.span))
    if len(tokens) == 1 and tokens[0].part not in ("word", "num"):
        only = tokens[0]
        return Own(only.part, only.value, only.number, only.unit)
    try:
        taken, rest = readings(tokens)
    except Unread:
        return None
    items = taken[0].items
    only_item = items[0] if len(items) == 1 and not rest else None
    if not isinstance(only_item, Stitches) or only_item.times != 1:
        return None
    return Own("own", letter, 0, only_item.unit) if only_item.where is Where.NEXT else None
