"""What a pattern's rounds and assembly take from its list of materials."""

from __future__ import annotations

import re
from collections.abc import Iterator

from roundproof.fabric.model import WorkedPiece, WorkedRound
from roundproof.frozen import dataclass
from roundproof.notation.tree import Act, Action, Colour, Item, Note, Repeat
from roundproof.pattern.model import (
    Close,
    Embroider,
    Insert,
    Join,
    Joint,
    Notion,
    Pattern,
    Place,
    Stuff,
    Yarn,
)
from roundproof.pattern.near import nearest
from roundproof.pattern.notions import notion_for, stems
from roundproof.proof import Proof
from roundproof.source import Span

FILLINGS = (
    "fill",
    "fibrefill",
    "fiberfill",
    "stuffing",
    "wadding",
    "batting",
    "kapok",
    "fleece",
    "roving",
    "foam",
    "scraps",
)
"""Beginnings of words by which a filling is known: common practice, no source."""
TOOLS = frozenset(
    ("needle", "hook", "pin", "marker", "scissor", "ruler", "tape", "gun", "cutter", "plier", "awl")
)
"""Words for what is needed and stays outside the object: common practice, no source."""
_TAKES_YARN = (Act.CHANGE_YARN, Act.JOIN_YARN)
SEWN_BY = ("whipstitch", "mattress stitch", "backstitch", "running stitch", "gather")


@dataclass(frozen=True, slots=True)
class Use:
    """Where something is taken from the list: the word for it, its place, piece and round, and
    how many are taken in all."""

    word: str
    span: Span
    piece: str | None = None
    round: str | None = None
    count: int = 1


def yarn_uses(proof: Proof) -> Iterator[Use]:
    """Every yarn that pieces, rounds and joins name, by key or as written."""
    for piece in proof.pattern.pieces:
        if piece.yarn:
            yield Use(piece.yarn.value, piece.yarn.span, piece.key)
    for worked in proof.fabric.pieces.values():
        yield from _in_rounds(worked)
    for step in proof.pattern.assembly:
        if isinstance(step.verb, Join) and step.verb.with_:
            yield Use(step.verb.with_.value, step.verb.with_.span)


def own_yarns(proof: Proof) -> Iterator[Yarn]:
    """The yarns of the list but for those of the defaults that nothing is worked in."""
    for yarn in proof.pattern.yarns:
        if not yarn.shared or yarn.key in proof.measures.yarns:
            yield yarn


def thread_uses(pattern: Pattern) -> Iterator[Use]:
    """What is embroidered or jointed with: a yarn, or a thread among the notions."""
    for step in pattern.assembly:
        if isinstance(step.verb, Embroider | Joint) and step.verb.with_:
            yield Use(step.verb.with_.value, step.verb.with_.span)


def item_uses(pattern: Pattern) -> Iterator[Use]:
    """Every item placed or inserted, with how many all copies of the piece take."""
    for step in pattern.assembly:
        match step.verb:
            case Place(item=item, piece=piece) | Insert(item=item, piece=piece):
                host = pattern.piece(piece.value) if piece else None
                count = _placed(step.verb) * (host.make if host else 1)
                yield Use(item.value, item.span, host.key if host else None, count=count)


def placed(pattern: Pattern, notion: Notion) -> int:
    """How many of a notion the assembly places in all, under its name or a misspelling."""
    return sum(use.count for use in item_uses(pattern) if _is(pattern, use.word, notion))


def _is(pattern: Pattern, word: str, notion: Notion) -> bool:
    found = notion_for(pattern, word)
    return found is notion if found else meant_notion(pattern, word) == notion.item.value


def meant_yarn(pattern: Pattern, word: str) -> str | None:
    """The key of the yarn that a word not on the list most likely misspells."""
    return nearest(word, [yarn.key for yarn in pattern.yarns])


def meant_notion(pattern: Pattern, word: str) -> str | None:
    """The listed item that a word not on the list most likely misspells."""
    return nearest(word, [notion.item.value for notion in pattern.notions])


def is_filling(notion: Notion) -> bool:
    return any(word.startswith(FILLINGS) for word in stems(notion.item.value))


def is_part(notion: Notion) -> bool:
    """Whether a notion has to be placed: it is told with a size, a count or a hazard."""
    told = notion.size or notion.count or notion.hazard
    return bool(told) and not stems(notion.item.value) & TOOLS


def stuffings(proof: Proof) -> Iterator[Span]:
    """Where stuffing is told: in the rounds and in the assembly."""
    for worked in proof.fabric.pieces.values():
        for entry in worked.entries:
            if isinstance(entry, Action) and entry.act is Act.STUFF:
                yield entry.span
    for step in proof.pattern.assembly:
        match step.verb:
            case Stuff():
                yield step.verb.span
            case Join(stuffed=stuffed) if stuffed and stuffed.value != "no":
                yield stuffed.span


def sewing(pattern: Pattern) -> Iterator[Span]:
    """Where something is sewn."""
    for step in pattern.assembly:
        match step.verb:
            case Embroider():
                yield step.verb.span
            case Join(by=by) | Close(by=by) if by and by.value in SEWN_BY:
                yield by.span


def is_said(name: str, said: str) -> bool:
    """Whether a text of `words_of` speaks of a thing by its name, or by the noun in it."""
    noun = name.lower().partition(",")[0].split()[-1:]
    return any(re.search(rf"\b{re.escape(n)}\b", said) for n in (name.lower(), *noun) if len(n) > 2)


def words_of(proof: Proof) -> str:
    """All that is said in words: steps, notes, actions, and rounds that could not be read."""
    said = [step.step.value for step in proof.pattern.assembly if step.step]
    for worked in proof.fabric.pieces.values():
        for entry in worked.entries:
            if isinstance(entry, Note | Action):
                said.append(entry.text)
            elif isinstance(entry, WorkedRound) and not entry.round.readings:
                said.append(entry.round.span.text)
    return "\n".join(said).lower()


def _placed(verb: Place | Insert) -> int:
    """How many items one step places on one copy of a piece."""
    around = verb.around if isinstance(verb, Place) else None
    if around is None:
        return 1
    if around.evenly:
        return around.evenly.value
    return len(around.free) or (2 if around.apart else 1)


def _in_rounds(worked: WorkedPiece) -> Iterator[Use]:
    key = worked.piece.key
    for entry in worked.entries:
        if isinstance(entry, Action) and (entry.yarn or entry.act in _TAKES_YARN):
            word = entry.yarn or entry.name or ""
            yield Use(word, _word_in(entry.span, entry.name), key)
        elif isinstance(entry, WorkedRound):
            for reading in entry.round.readings:
                for colour in _colours(reading.items):
                    yield Use(colour.yarn, colour.span, key, entry.label)
            for yarn in dict.fromkeys(stretch.yarn for stretch in entry.stretches):
                if yarn:
                    yield Use(yarn, entry.round.span, key, entry.label)


def _word_in(span: Span, word: str | None) -> Span:
    """The place of a word within a line, or the line where it is not found."""
    at = span.text.lower().find(word.lower()) if word else -1
    return span.cut(at, at + len(word or "")) if at >= 0 else span


def _colours(items: tuple[Item, ...]) -> Iterator[Colour]:
    for item in items:
        if isinstance(item, Colour):
            yield item
        elif isinstance(item, Repeat):
            yield from _colours(item.body)
