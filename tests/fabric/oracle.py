"""A second opinion on what a round uses and makes: every stitch worked one by one, in the dullest
way there is. Shares nothing with the tool but the instruction tree."""

from __future__ import annotations

from collections.abc import Sequence

from roundproof.notation.tree import Chain, Fill, Item, Leave, Repeat, Stitches, Where


class Ran(Exception):
    """The stitches ran out."""


def by_hand(items: Sequence[Item], available: int) -> tuple[int, int, int]:
    """(used, left, made) of a round worked into `available` stitches."""
    below = list(range(available))
    used: list[int] = []
    left: list[int] = []
    made: list[str] = []

    def unit(item: Stitches) -> None:
        for _ in range(item.unit.uses * item.layers if item.where is not Where.RING else 0):
            if not below:
                raise Ran
            used.append(below.pop(0))
        for kind, count in item.unit.makes:
            made.extend([kind] * count)

    def one(item: Item, kept: int) -> None:
        if isinstance(item, Stitches):
            if isinstance(item.times, Fill):
                while len(below) > max(item.times.before, kept):
                    unit(item)
            else:
                for _ in range(item.times):
                    unit(item)
        elif isinstance(item, Repeat):
            if isinstance(item.times, Fill):
                while len(below) > max(item.times.before, kept):
                    for inner in item.body:
                        one(inner, 0)
            else:
                for _ in range(item.times):
                    for inner in item.body:
                        one(inner, 0)
        elif isinstance(item, Chain):
            made.extend(["ch"] * item.count)
        elif isinstance(item, Leave):
            for _ in range(item.count):
                left.append(below.pop(0))

    for item in items:
        one(item, 0)
    return len(used), len(left), len(made)
