"""How wide and how tall a single crochet is in a piece and a yarn."""

from __future__ import annotations

from math import sqrt

from roundproof.frozen import dataclass
from roundproof.measure.figures import number
from roundproof.pattern.model import Gauge, Pattern, Piece, Yarn
from roundproof.reference import stitches
from roundproof.reference.yarn_weights import yarn_weight

WIDTHS_OF_YARN = 2.5
"""Stitch width over yarn diameter in stuffed work. Derived: 2.6 from a gauge circle in worsted
(shinyhappyworld.com, "How to measure gauge for amigurumi", 2019: 6.65 mm, at 10 wraps per inch),
2.3 from the usual 22 stitches to 10 cm in DK (common practice, no source)."""
HEIGHT_TO_WIDTH = 0.95
"""Height over width of a single crochet worked in the round: 6 increases a round lie flat
(common practice, no source); 0.955 from the same gauge circle."""
YARN_OF_ONE_METRE_A_GRAM = 2.91
"""Diameter in mm of a yarn of 1 m a gram, for a bulk density of 0.15 g/cm³. Derived: a yarn of
225 m in 100 g then has 13 wraps per inch, as yarn shops publish for DK."""
INCH = 25.4


@dataclass(frozen=True, slots=True)
class StitchSize:
    """Width and height of one single crochet in mm; `guessed` where no gauge is given for it;
    `working` says where it is from."""

    width_mm: float
    height_mm: float
    guessed: bool
    working: str


def stitch_size(pattern: Pattern, piece: Piece, yarn_key: str | None) -> StitchSize | None:
    """The size of a single crochet: by the piece's own gauge, else the yarn's, else guessed from
    the yarn's thickness. None where nothing is known."""
    if piece.gauge is not None:
        return _given(piece.gauge, f"gauge of {piece.key}")
    yarn = yarn_for(pattern, piece, yarn_key)
    if yarn is None:
        return None
    size = yarn_stitch(yarn)
    return _altered(size, strands_of(piece)) if size and is_altered(piece, yarn) else size


def yarn_for(pattern: Pattern, piece: Piece, yarn_key: str | None) -> Yarn | None:
    """The yarn of a key; without one the piece's own, or the only one there is."""
    word = yarn_key or (piece.yarn.value if piece.yarn else None)
    if word is not None:
        return pattern.yarn(word)
    return pattern.yarns[0] if len(pattern.yarns) == 1 else None


def diameter(yarn: Yarn) -> float | None:
    """The diameter of a yarn in mm: from the metres in its ball, else from the wraps per inch of
    its weight category. None where neither is known."""
    if yarn.stands_in is not None:
        return yarn.stands_in.thickness
    if yarn.ball is not None and yarn.ball.grams > 0 and yarn.ball.metres > 0:
        return YARN_OF_ONE_METRE_A_GRAM / sqrt(yarn.ball.metres / yarn.ball.grams)
    category = yarn_weight(yarn.weight.value) if yarn.weight else None
    return INCH / category.wraps.middle if category else None


def yarn_stitch(yarn: Yarn) -> StitchSize | None:
    """The size of a single crochet in a yarn and its own hook."""
    if yarn.gauge is not None:
        return _given(yarn.gauge, f"gauge of {yarn.key}")
    thick = _thickness(yarn)
    if thick is None:
        return None
    width = WIDTHS_OF_YARN * thick
    working = (
        f"guessed from how thick {yarn.key} is: {number(thick)} mm, so a stitch about"
        f" {number(width)} mm wide"
    )
    return StitchSize(width, HEIGHT_TO_WIDTH * width, True, working)


def _thickness(yarn: Yarn) -> float | None:
    """For a guessed gauge the category goes first: two yarns of one category guess alike."""
    category = yarn_weight(yarn.weight.value) if yarn.weight else None
    return INCH / category.wraps.middle if category else diameter(yarn)


def _given(gauge: Gauge, name: str) -> StitchSize | None:
    """The heights of all stitches go by their ratio to a single crochet, so a gauge taken in
    another stitch is brought back to it."""
    if not (gauge.stitches > 0 and gauge.rounds > 0 and gauge.over > 0):
        return None
    kind = stitches().get(gauge.stitch) if gauge.stitch != "sc" else None
    ratio = kind.height if kind and kind.height > 0 else 1.0
    in_stitch = f" in {gauge.stitch}" if kind else ""
    working = (
        f"{name}: {number(gauge.stitches)} stitches and {number(gauge.rounds)} rounds{in_stitch}"
        f" to {number(gauge.over / 10)} cm, so a single crochet is"
        f" {number(gauge.stitch_width)} mm wide and {number(gauge.round_height / ratio)} mm tall"
    )
    return StitchSize(gauge.stitch_width, gauge.round_height / ratio, False, working)


def strands_of(piece: Piece) -> int:
    """How many strands of its yarn a piece is worked with."""
    return max(piece.strands.value, 1) if piece.strands else 1


def is_altered(piece: Piece, yarn: Yarn) -> bool:
    """Whether a piece is worked otherwise than the gauge of its yarn was taken."""
    return strands_of(piece) > 1 or _other_hook(piece, yarn)


def _other_hook(piece: Piece, yarn: Yarn) -> bool:
    hook = piece.hook.value if piece.hook else None
    return hook is not None and yarn.hook is not None and abs(hook - yarn.hook.value) > 1e-9


def _altered(size: StitchSize, strands: int) -> StitchSize:
    """A gauge used with more strands or another hook than it was taken with. Strands side by side
    are as thick as one of as many times the area (derived); another hook only makes it a guess."""
    factor = sqrt(strands)
    how = f"{strands} strands together" if strands > 1 else "worked with another hook"
    return StitchSize(
        size.width_mm * factor, size.height_mm * factor, True, f"{size.working}; {how}, so a guess"
    )
