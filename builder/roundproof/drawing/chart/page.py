"""Blocks of a chart and its key on one sheet."""

from __future__ import annotations

from collections.abc import Sequence

from roundproof.drawing.chart.draw import UNIT, Block
from roundproof.drawing.chart.numbers import LETTER
from roundproof.drawing.shapes import Box, Group, Shape, Text
from roundproof.frozen import dataclass

WIDE = 33.0
"""How wide a sheet is, in stitch widths, unless one ring is wider."""
HEAD = 1.7
"""Room for the words over a block."""


@dataclass(frozen=True, slots=True)
class Sheeted:
    shapes: tuple[Shape, ...]
    wide: float
    high: float


def packed(blocks: Sequence[tuple[str, Block]]) -> Sheeted:
    """Blocks with the words over them, side by side as long as there is room. In pixels."""
    widest = max([WIDE, *(_wide(words, block) for words, block in blocks)])
    shapes: list[Shape] = []
    x = y = tall = 0.0
    for words, block in blocks:
        wide, high = _wide(words, block), block.bottom - block.top + HEAD
        if x and x + wide > widest:
            x, y, tall = 0.0, y + tall + 0.8, 0.0
        shapes.append(Text(round(x * UNIT), round((y + 1.0) * UNIT), words, "label"))
        left = x - block.left + max(0.0, (_wide(words, block) - (block.right - block.left)) / 2)
        top = y + HEAD - block.top
        shapes.append(Group(block.shapes, x=round(left * UNIT), y=round(top * UNIT)))
        x, tall = x + wide + 1.2, max(tall, high)
    return Sheeted(tuple(shapes), widest * UNIT, (y + tall) * UNIT)


def _wide(words: str, block: Block) -> float:
    return max(block.right - block.left, len(words) * LETTER)


def boxed(wide: float, high: float) -> Box:
    edge = 8.0
    return Box(-edge, -edge, round(wide + 2 * edge), round(high + 2 * edge))
