"""Loops named by a word that stands by itself, put on the stitches they hold for."""

from __future__ import annotations

from collections.abc import Sequence
from typing import cast

from roundproof.frozen import dataclass, replace
from roundproof.notation.tree import FreeLoops, Instruction, Item, Loop
from roundproof.notation.units import every_loop, in_loop, joined, without_loop
from roundproof.source import Span


@dataclass(frozen=True, slots=True)
class LoopMark:
    """'In BLO' standing by itself: holds for what follows, or, at the end, for all before."""

    loop: Loop
    span: Span


Part = Item | LoopMark | FreeLoops
SAID = (LoopMark, FreeLoops)
"""What a word about loops that stands by itself is read as."""


def unmarked(parts: Sequence[Part]) -> list[Part]:
    """The work itself, without words about loops that stand by themselves."""
    return [part for part in parts if not isinstance(part, SAID)]


def settled(parts: Sequence[Part]) -> list[Item]:
    """Loops named by a mark put on the stitches they hold for; equal stitches joined."""
    if not any(isinstance(part, SAID) for part in parts):
        return joined(cast(Sequence[Item], parts))
    found: list[Item] = []
    loop: Loop | None = None
    for index, part in enumerate(parts):
        if isinstance(part, LoopMark):
            loop = part.loop
            if index == len(parts) - 1 and found:
                found = [in_loop(item, loop) for item in found]
        elif not isinstance(part, FreeLoops):
            found.append(in_loop(part, loop) if loop else part)
    return joined(found)


def instruction_of(parts: Sequence[Part]) -> Instruction:
    """The instruction of a round; a loop that all its stitches share is named once."""
    items = settled(parts)
    into = None
    if len(items) < len(parts):
        into = next((p for p in parts if isinstance(p, FreeLoops)), None)
    loops = every_loop(items)
    shared = loops.pop() if len(loops) == 1 else None
    if shared is not None:
        items = [without_loop(item) for item in items]
        shared = None if shared is Loop.BOTH else shared
    return Instruction(tuple(items), shared, into)


def in_one_loop(instruction: Instruction, loop: Loop) -> Instruction:
    """The instruction with all its stitches in one loop, as a remark behind it says."""
    if not every_loop(instruction.items):
        return instruction
    items = joined([without_loop(item) for item in instruction.items])
    return replace(instruction, items=tuple(items), loop=loop)
