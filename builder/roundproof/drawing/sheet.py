"""A drawing that may stand alone, on a page or in a file, with words that say the same."""

from __future__ import annotations

from enum import StrEnum

from roundproof.drawing.shapes import Drawing
from roundproof.frozen import dataclass


class Kind(StrEnum):
    """What a sheet shows; the first part of its file's name."""

    CHART = "chart"
    OUTLINE = "outline"
    COLOURS = "colours"
    PLACES = "places"
    EDGES = "edges"


@dataclass(frozen=True, slots=True)
class Sheet:
    """`piece` is the key of the piece it is about, `part` tells apart several of a kind and piece.
    `caption` says what is seen; `words` are the same in lines, good enough to work from. The width
    of the drawing's box is its width in pixels at its natural size."""

    kind: Kind
    piece: str
    drawing: Drawing
    caption: str
    words: tuple[str, ...]
    part: str = ""


def sheet_id(kind: Kind, piece: str) -> str:
    """An id for the drawing of a piece: its key without the spaces that no id may have."""
    return "-".join([kind.value, *piece.split()])
