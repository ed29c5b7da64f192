"""How much filling the object takes."""

from __future__ import annotations

from collections.abc import Mapping

from roundproof.fabric.model import Fabric
from roundproof.frozen import dataclass
from roundproof.measure.cushion import Cushion, cushions
from roundproof.measure.figures import cm, number
from roundproof.measure.firmness import (
    Firmness,
    Parts,
    firmness_of,
    is_filled,
    parts_of,
    shares,
    whole,
)
from roundproof.measure.gauge import WIDTHS_OF_YARN, diameter, stitch_size, yarn_for
from roundproof.measure.model import PieceSize
from roundproof.notation.edges import piece_of
from roundproof.pattern.model import Join, Pattern, Piece, Stuff

STRAIN = 0.03
"""How much filling stretches the fabric each way where the pattern does not say (`stretch`). A
default: no published figure was found. It applies to what is filled, and enters its volume three
times, once for each way."""
MORE = 0.10
"""Added for what is lost and pressed in: common practice, no source."""
GRAMS_A_LITRE = {Firmness.SOFT: 20.0, Firmness.MEDIUM: 35.0, Firmness.FIRM: 50.0}
"""Filling by firmness. Cushions take 12 to 21 g a litre (coziepillow.com); toys of 15 to 20 cm
take 30 to 50 g (woohobby.com), which is some 40 to 60 g a litre for a body of 0.65 to 1 litre."""


@dataclass(frozen=True, slots=True)
class Filling:
    """`grams` for all copies, None where a volume is not known; `working` how, or why not."""

    grams: float | None
    working: str


def filling(pattern: Pattern, fabric: Fabric, sizes: Mapping[str, PieceSize]) -> Filling:
    """The filling of all copies of what is stuffed (see `stuffed`). Two flat rounds joined at
    their edges count with the cushion they make, where that is more than their own outlines."""
    grams, volume, said = 0.0, 0.0, ""
    made = {key: each for each in cushions(pattern, fabric, sizes) for key in each.keys}
    for key, parts in stuffed(pattern, fabric, sizes).items():
        size, piece = sizes[key], fabric.pieces[key].piece
        if size.volume_ml is None:
            why = size.unreliable.get("volume", "its volume is not known")
            return Filling(None, f"{key}: {why}")
        inside = _inside(pattern, piece, size)
        how = shares(parts, size)
        density = sum(GRAMS_A_LITRE[firmness] * share for firmness, share in how.items())
        cushion = made.get(key)
        if cushion and (held := _cushion_half(pattern, piece, cushion)) > inside:
            inside, said = held, _cushion_said(cushion)
            density = _cushion_density(cushion, held, how) or density
        filled = inside * sum(how.values()) * piece.make
        volume += filled
        grams += inside * piece.make / 1000 * density
    if volume <= 0:
        return Filling(None, "nothing is stuffed")
    return Filling(
        grams * (1 + MORE),
        f"{said}{number(volume, 0)} ml inside, stretched by {number(strain(pattern) * 100, 1)} %,"
        f" at {number(1000 * grams / volume, 0)} g a litre, and {number(MORE * 100, 0)} % more",
    )


def strain(pattern: Pattern) -> float:
    """How much filling stretches the fabric each way, as a share."""
    return pattern.stretch.value if pattern.stretch else STRAIN


def stuffed(pattern: Pattern, fabric: Fabric, sizes: Mapping[str, PieceSize]) -> dict[str, Parts]:
    """What is told to be stuffed, by the keys of the pieces; where nothing is told, every piece
    that encloses something and is not meant to stay open."""
    said = _said(pattern, fabric)
    told = {key: parts for key, parts in said.items() if is_filled(parts) and key in sizes}
    if told:
        return told
    return {
        key: whole(Firmness.MEDIUM)
        for key, size in sizes.items()
        if key not in said and _encloses(fabric.pieces[key].piece, size)
    }


def _inside(pattern: Pattern, piece: Piece, size: PieceSize) -> float:
    """ml for filling: less the fabric, which is about two strands thick (common practice, no
    source) and half of which lies inside, more for the stretch."""
    across = (size.diameter_mm or 0.0) / 2
    left = max(1 - _thick(pattern, piece) / across, 0.0) if across else 1.0
    return (size.volume_ml or 0.0) * left**3 * (1 + 3 * strain(pattern))


def _thick(pattern: Pattern, piece: Piece) -> float:
    """How thick half the fabric is, in mm."""
    yarn = yarn_for(pattern, piece, None)
    thick = diameter(yarn) if yarn else None
    if thick is not None:
        return thick
    stitch = stitch_size(pattern, piece, None)
    return stitch.width_mm / WIDTHS_OF_YARN if stitch else 0.0


def _cushion_half(pattern: Pattern, piece: Piece, cushion: Cushion) -> float:
    """ml inside one of the two sheets of a cushion."""
    held = cushion.volume - cushion.fabric * _thick(pattern, piece)
    return max(held, 0.0) / 2 / 1000 * (1 + 3 * strain(pattern))


def _cushion_density(cushion: Cushion, held: float, how: Mapping[Firmness, float]) -> float | None:
    """g a litre in a large cushion, by the rule for its area; firm and soft in the same
    proportions as elsewhere. None for a small one."""
    medium = cushion.grams_by_area
    if medium is None or held <= 0:
        return None
    firm = sum(GRAMS_A_LITRE[f] * share for f, share in how.items())
    return medium / 2 / held * 1000 * firm / GRAMS_A_LITRE[Firmness.MEDIUM]


def _cushion_said(cushion: Cushion) -> str:
    one, two = cushion.keys
    both = f"two of {one}" if one == two else f"{one} and {two}"
    return (
        f"{both} make a cushion {cm(cushion.width)} across and {cm(cushion.thickness)} thick at"
        " most; "
    )


def _said(pattern: Pattern, fabric: Fabric) -> dict[str, Parts]:
    """What is told to be stuffed, and how: in the rounds, by `stuff`, by `stuffed` in a join. A
    join stuffs what it closes: both sides of an edge, the piece alone on the side of another."""
    said = {key: parts for key, w in fabric.pieces.items() if (parts := parts_of(w))}
    for step in pattern.assembly:
        words = step.step.value if step.step else ""
        if isinstance(step.verb, Stuff):
            key = piece_of(step.verb.piece.value, fabric.pieces) or step.verb.piece.value
            said[key] = whole(firmness_of(step.verb.how.value if step.verb.how else words))
        elif isinstance(step.verb, Join) and step.verb.stuffed:
            for key in _joined(step.verb, fabric):
                said.setdefault(key, whole(_by_join(step.verb.stuffed.value, words)))
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
    return not open_ and bool(size.volume_ml)
