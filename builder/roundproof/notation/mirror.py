"""A piece worked as the mirror image of another: each round runs the other way about.

The maker still works from right to left: what is turned round is the order of the stitches. How a
round begins (a ring, a foundation chain, the chain that lifts it) and how it ends stay where they
are, and so does a round that begins on a foundation chain, which is the same both ways about.
"""

from __future__ import annotations

from collections.abc import Sequence

from roundproof.frozen import replace
from roundproof.notation.tree import (
    Act,
    Action,
    Chain,
    Colour,
    Entry,
    FarSide,
    Instruction,
    Item,
    JoinRound,
    Leave,
    Repeat,
    Round,
    Script,
    Stitches,
    Turn,
    Where,
)
from roundproof.notation.units import every_stitch

_ENDS = (JoinRound, Turn)


def mirrored(script: Script, yarn: str | None) -> Script:
    """All rounds turned about; `yarn` is the one the piece begins in. A yarn runs on from round to
    round, so a round that now ends in another yarn than before has the next one say its own."""
    found: list[Entry] = []
    there = mine = yarn
    for entry in script.entries:
        if isinstance(entry, Round) and entry.readings:
            turned = tuple(turned_about(reading, there, mine) for reading in entry.readings)
            there = _ends_in(entry.readings[0].items, there)
            mine = _ends_in(turned[0].items, mine)
            entry = replace(entry, readings=turned)
        elif isinstance(entry, Action) and entry.act in (Act.CHANGE_YARN, Act.JOIN_YARN):
            there = mine = entry.yarn or entry.name
        found.append(entry)
    return Script(tuple(found))


def turned_about(
    work: Instruction, there: str | None = None, mine: str | None = None
) -> Instruction:
    """The work of one round the other way about. `there` is the yarn in hand where the round
    begins, `mine` the one in hand where its mirror image does."""
    if not turns(work):
        return work
    items = list(work.items)
    lead: list[Item] = []
    while items and isinstance(items[0], Chain) and len(items) > 1:
        lead.append(items.pop(0))
    tail: list[Item] = []
    while items and isinstance(items[-1], (*_ENDS, Chain, Leave)) and _closing(items):
        tail.insert(0, items.pop())
    return replace(work, items=(*lead, *_turned(items, there, mine), *tail))


def _ends_in(items: Sequence[Item], yarn: str | None) -> str | None:
    """The yarn in hand behind these items."""
    for item in items:
        if isinstance(item, Colour):
            yarn = item.yarn
        elif isinstance(item, Repeat):
            yarn = _ends_in(item.body, yarn)
    return yarn


def turns(work: Instruction) -> bool:
    """Whether a round can be turned about: not one that begins on a foundation chain."""
    stitches = list(every_stitch(work.items))
    return not any(isinstance(item, FarSide) for item in work.items) and not any(
        stitch.where is Where.HOOK for stitch in stitches
    )


def _closing(items: Sequence[Item]) -> bool:
    """Whether the last item closes the round: a chain does behind a join or before a turn."""
    last = items[-1]
    if not isinstance(last, Chain):
        return True
    return len(items) > 1 and isinstance(items[-2], _ENDS)


def _turned(items: Sequence[Item], there: str | None, mine: str | None) -> list[Item]:
    """Items in the other order, each turned about itself; stitches in the same place as those
    before them stay with those, and every yarn goes with its stitches."""
    groups: list[tuple[list[Item], Colour | None]] = []
    changed: Colour | None = None
    for item in items:
        if isinstance(item, Colour):
            changed = item
            continue
        in_yarn = changed or (Colour(there, item.span) if there else None)
        shares = isinstance(item, Stitches) and item.where is Where.SAME
        if shares and groups and groups[-1][1] == in_yarn and _stitch_last(groups[-1][0]):
            groups[-1][0].append(item)
        else:
            groups.append(([item], in_yarn))
        if isinstance(item, Repeat) and (ends := _last_colour(item.body)):
            changed = ends
    found: list[Item] = []
    for group, in_yarn in reversed(groups):
        if in_yarn is not None and in_yarn.yarn != mine and not _says_its_yarn(group[0]):
            found.append(in_yarn)
            mine = in_yarn.yarn
        found += _together(group, in_yarn.yarn if in_yarn else None)
        mine = _ends_in(found[-1:], mine)
    return found


def _stitch_last(group: Sequence[Item]) -> bool:
    return isinstance(group[-1], Stitches)


def _last_colour(body: Sequence[Item]) -> Colour | None:
    found = None
    for item in body:
        if isinstance(item, Colour):
            found = item
        elif isinstance(item, Repeat):
            found = _last_colour(item.body) or found
    return found


def _says_its_yarn(item: Item) -> bool:
    """Whether a group names a yarn within, which it does before its first stitch."""
    return isinstance(item, Repeat) and _last_colour(item.body) is not None


def _together(group: Sequence[Item], yarn: str | None) -> list[Item]:
    """Stitches that share a place, the other way about: the last comes first, into the next one."""
    found: list[Item] = []
    for item in reversed(group):
        turned = _item(item, yarn)
        if len(group) > 1 and isinstance(turned, Stitches):
            turned = replace(turned, where=Where.SAME if found else Where.NEXT)
        found.append(turned)
    return found


def _item(item: Item, yarn: str | None) -> Item:
    if isinstance(item, Repeat):
        # within a group that changes yarns each time begins as the one before it ended
        within = _last_colour(item.body)
        mine = None if within else yarn
        return replace(item, body=tuple(_turned(item.body, (within and within.yarn) or yarn, mine)))
    if isinstance(item, Stitches):
        unit = replace(item.unit, makes=tuple(reversed(item.unit.makes)))
        where = Where.NEXT if item.where in (Where.FIRST, Where.LAST) else item.where
        return replace(item, unit=unit, where=where)
    return item
