"""What stands in a drawing, and all pieces that there are to draw."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path

from roundproof.drawing.shapes import Group, Shape, Text
from roundproof.drawing.sheet import Sheet
from roundproof.fabric.model import WorkedPiece
from roundproof.pipeline import prove
from roundproof.proof import Proof

ROOT = Path(__file__).parents[2]


def walk(shapes: Iterable[Shape]) -> Iterator[Shape]:
    """All shapes, those in groups too."""
    for shape in shapes:
        if isinstance(shape, Group):
            yield from walk(shape.shapes)
        else:
            yield shape


def texts(sheet: Sheet) -> list[str]:
    return [shape.words for shape in walk(sheet.drawing.shapes) if isinstance(shape, Text)]


@cache
def every_piece() -> tuple[tuple[str, Proof, WorkedPiece], ...]:
    """The pieces of the patterns of this site and of those that are kept as tests."""
    found = []
    for path in sorted([*ROOT.glob("patterns/*/*.yaml"), *ROOT.glob("tests/clean/*/*.yaml")]):
        proof = prove(str(path)).files[0].proof
        assert proof is not None
        found += [(path.parent.name, proof, piece) for piece in proof.fabric.pieces.values()]
    return tuple(found)
