"""The abbreviations that a pattern's rounds are printed with, in both terms."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from markupsafe import Markup, escape

from roundproof.fabric.model import Fabric
from roundproof.notation.tree import (
    Chain,
    FarSide,
    Instruction,
    Item,
    Loop,
    Repeat,
    Stitches,
    Where,
)
from roundproof.pages.prose import inline
from roundproof.pages.values import Word
from roundproof.pages.wording import in_both, plain, unbroken
from roundproof.pattern.model import Pattern, SpecialStitch, Terms
from roundproof.reference import StitchKind, Term, stitches, terms

_LOOP_TERMS = {Loop.FRONT: "FLO", Loop.BACK: "BLO"}


def words_used(pattern: Pattern, fabric: Fabric, *, named_only: bool = False) -> tuple[Word, ...]:
    """Stitches in order of height, then the other words, then the pattern's own stitches, which
    are told of or `named_only`."""
    said = set(_said(_instructions(fabric)))
    own = pattern.written_in
    told = {special.key for special in pattern.stitches if special.how}  # in the designer's words
    kinds = [_stitch(kind) for key, kind in stitches().items() if key in said - told]
    togethers = sorted(word for word in said if word.startswith("tog "))
    others = [_term(term, own) for key, term in terms().items() if key in said and term.means]
    invented = [
        Word(special.key, "", _own(special, pattern, named_only))
        for special in pattern.stitches
        if special.key in said and (special.how or special.key not in stitches())
    ]
    together = (_together(word, own) for word in togethers)
    return (*kinds, *together, *others, *_change(fabric), *invented)


def _own(special: SpecialStitch, pattern: Pattern, named_only: bool) -> Markup:
    if named_only:
        return Markup("A stitch of this pattern's own.")
    return inline(special.how, pattern) if special.how else Markup("")


def _change(fabric: Fabric) -> tuple[Word, ...]:
    """At which step a colour changes, where one does within a round."""
    rounds = (worked for piece in fabric.pieces.values() for worked in piece.rounds)
    if not any(len({stretch.yarn for stretch in w.stretches}) > 1 for w in rounds):
        return ()
    return (Word("with A, with B", "", plain(_CHANGE)),)


_CHANGE = (
    "Another yarn for the stitches named behind it: pull it through on the last step of the stitch"
    " before."
)


def _instructions(fabric: Fabric) -> Iterator[Instruction]:
    for piece in fabric.pieces.values():
        for worked in piece.rounds:
            found = worked.instruction or next(iter(worked.round.readings), None)
            if found is not None:
                yield found


def _said(instructions: Iterable[Instruction]) -> Iterator[str]:
    """Ids of stitches and terms, and "tog 2 sc" for two worked together."""
    for instruction in instructions:
        yield "st"
        if instruction.loop in _LOOP_TERMS:
            yield _LOOP_TERMS[instruction.loop]
        yield from _items(instruction.items)


def _items(items: Iterable[Item]) -> Iterator[str]:
    for item in items:
        match item:
            case Repeat(body=body):
                yield from _items(body)
            case Stitches():
                yield from _stitches(item)
            case Chain():
                yield "ch"
            case FarSide():
                yield "far side"


def _stitches(item: Stitches) -> Iterator[str]:
    unit = item.unit
    if unit.skips:
        yield "sk"
    yield from (kind for kind, _ in unit.makes)
    if unit.word:
        yield unit.word
    elif unit.uses > 1 and unit.makes:
        yield f"tog {unit.uses} {unit.makes[0][0]}"
    if item.where in (Where.RING, Where.HOOK):
        yield "ring" if item.where is Where.RING else "ch"
    if item.loop in _LOOP_TERMS:
        yield _LOOP_TERMS[item.loop]


def _stitch(kind: StitchKind) -> Word:
    us, uk = (f"{kind.short(side)}, {kind.name(side)}" for side in (False, True))
    return Word(us, "" if us == uk else uk, Markup(escape(unbroken(" ".join(kind.steps)))))


def _term(term: Term, own: Terms) -> Word:
    us, uk = (_named(short, term.name) for short in (term.us_short, term.uk_short))
    means = in_both(_means(term.means, uk=False), _means(term.means, uk=True), own)
    return Word(us, "" if us == uk else uk, means)


def _named(short: str, name: str) -> str:
    return short if short == name or not name else f"{short}, {name}"


def _means(means: str, *, uk: bool) -> Markup:
    text = means.replace("{sc}", stitches()["sc"].short(uk))
    return Markup(escape(unbroken(text[:1].upper() + text[1:] + ".")))


def _together(word: str, own: Terms) -> Word:
    _, count, key = word.split(" ", 2)
    kind = stitches().get(key)
    if kind is None:
        return Word(f"{key}{count}tog", "", Markup(""))
    us, uk = (f"{kind.short(side)}{count}tog" for side in (False, True))
    first, second = (
        plain(f"{count} {kind.short(side)} worked together as one.") for side in (False, True)
    )
    means = in_both(first, second, own)
    return Word(us, "" if us == uk else uk, means)
