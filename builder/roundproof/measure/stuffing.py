"""How much filling the object takes."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum

from roundproof.fabric.model import Fabric
from roundproof.frozen import dataclass
from roundproof.measure.figures import number
from roundproof.measure.gauge import WIDTHS_OF_YARN, diameter, stitch_size, yarn_for
from roundproof.measure.model import PieceSize
from roundproof.notation.edges import piece_of
from roundproof.notation.tree import Act, Action
from roundproof.pattern.model import Join, Pattern, Piece, Stuff

STRAIN = 0.03
"""How much filling stretches the fabric each way. A default: no published figure was found. It
applies to what is filled, and enters its volume three times, once for each way."""
MORE = 0.10
"""Added for what is lost and pressed in: common practice, no source."""


class Firmness(StrEnum):
    SOFT = "soft"
    MEDIUM = "medium"
    FIRM = "firm"


GRAMS_A_LITRE = {Firmness.SOFT: 20.0, Firmness.MEDIUM: 35.0, Firmness.FIRM: 50.0}
"""Filling by firmness. Cushions take 12 to 21 g a litre (coziepillow.com); toys of 15 to 20 cm
take 30 to 50 g (woohobby.com), which is some 40 to 60 g a litre for a body of 0.65 to 1 litre."""

_NONE = ("not stuff", "without stuffing", "no stuffing", "unstuffed", "empty", "not at all")
_WORDS = ((("firm",), Firmness.FIRM), (("light", "soft", "loose"), Firmness.SOFT))


@dataclass(frozen=True, slots=True)
class Filling:
    """`grams` for all copies, None where a volume is not known; `working` how, or why not."""

    grams: float | None
    working: str


def filling(pattern: Pattern, fabric: Fabric, sizes: Mapping[str, PieceSize]) -> Filling:
    """The filling of all copies of what is stuffed (see `stuffed`)."""
    grams, volume = 0.0, 0.0
    for key, firmness in stuffed(pattern, fabric, sizes).items():
        size, piece = sizes[key], fabric.pieces[key].piece
        if size.volume is None:
            why = size.unreliable.get("volume", "its volume is not known")
            return Filling(None, f"{key}: {why}")
        inside = _inside(pattern, piece, size) * piece.make
        volume += inside
        grams += inside / 1000 * GRAMS_A_LITRE[firmness]
    if volume <= 0:
        return Filling(None, "nothing is stuffed")
    return Filling(
        grams * (1 + MORE),
        f"{number(volume, 0)} ml inside, stretched by {number(STRAIN * 100, 0)} %, at"
        f" {number(1000 * grams / volume, 0)} g a litre, and {number(MORE * 100, 0)} % more",
    )


def stuffed(
    pattern: Pattern, fabric: Fabric, sizes: Mapping[str, PieceSize]
) -> dict[str, Firmness]:
    """What is told to be stuffed, by the keys of the pieces; where nothing is told, every piece
    that encloses something and is not meant to stay open."""
    said = _said(pattern, fabric)
    told = {key: how for key, how in said.items() if how is not None and key in sizes}
    if told:
        return told
    return {
        key: Firmness.MEDIUM
        for key, size in sizes.items()
        if key not in said and _encloses(fabric.pieces[key].piece, size)
    }


def firmness_of(words: str) -> Firmness | None:
    """How firmly some words say to stuff; None where they say not to."""
    low = words.lower().strip()
    for parts, firmness in _WORDS:
        if any(part in low for part in parts):
            return firmness
    unstuffed = low == "no" or any(part in low for part in _NONE)
    return None if unstuffed and not low.startswith("stuff") else Firmness.MEDIUM


def _inside(pattern: Pattern, piece: Piece, size: PieceSize) -> float:
    """ml for filling: less the fabric, which is about two strands thick (common practice, no
    source) and half of which lies inside, more for the stretch."""
    yarn = yarn_for(pattern, piece, None)
    thick = diameter(yarn) if yarn else None
    if thick is None:
        stitch = stitch_size(pattern, piece, None)
        thick = stitch.width / WIDTHS_OF_YARN if stitch else 0.0
    across = (size.diameter or 0.0) / 2
    left = max(1 - thick / across, 0.0) if across else 1.0
    return (size.volume or 0.0) * left**3 * (1 + 3 * STRAIN)


def _said(pattern: Pattern, fabric: Fabric) -> dict[str, Firmness | None]:
    """What is told to be stuffed, and how: in the rounds, by `stuff`, by `stuffed` in a join. A
    join stuffs what it closes: both sides of an edge, the piece alone on the side of another."""
    said: dict[str, Firmness | None] = {}
    for key, worked in fabric.pieces.items():
        for entry in worked.entries:
            if isinstance(entry, Action) and entry.act is Act.STUFF:
                said[key] = firmness_of(entry.text)
    for step in pattern.assembly:
        words = step.step.value if step.step else ""
        if isinstance(step.verb, Stuff):
            key = piece_of(step.verb.piece.value, fabric.pieces) or step.verb.piece.value
            said[key] = firmness_of(step.verb.how.value if step.verb.how else words)
        elif isinstance(step.verb, Join) and step.verb.stuffed:
            for key in _joined(step.verb, fabric):
                said.setdefault(key, _by_join(step.verb.stuffed.value, words))
    return said


def _by_join(stuffed: str, words: str) -> Firmness | None:
    if stuffed == "no":
        return None
    return firmness_of(words) or Firmness.MEDIUM


def _joined(join: Join, fabric: Fabric) -> list[str]:
    on_a_side = join.at is not None or join.around is not None
    ends = [join.edge] if on_a_side or join.to is None else [join.edge, join.to]
    keys = (piece_of(end.value, fabric.pieces) for end in ends)
    return [key for key in keys if key]


def _encloses(piece: Piece, size: PieceSize) -> bool:
    open_ = piece.open_edge is not None and piece.open_edge.value
    return not open_ and bool(size.volume)
