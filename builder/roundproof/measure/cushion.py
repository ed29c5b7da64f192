"""Two flat rounds joined at their edges and filled: a cushion, whose inside no single piece tells.

Fabric that does not stretch but may crimp round its edge takes the shape of two foil sheets blown
up (Wikipedia, "Mylar balloon (geometry)"). How densely large cushions are filled: ounces are 5 % of
length times width in inches (quiltcraft.com, "Pillow fullness"); medium is 12 to 16 ounces a cubic
foot, extra firm a fifth to three tenths more (coziepillow.com).
"""

from __future__ import annotations

from collections.abc import Mapping
from math import hypot, pi

from roundproof.fabric.edges import find_edge
from roundproof.fabric.model import Base, Edge, Fabric, WorkedPiece
from roundproof.frozen import dataclass
from roundproof.measure.model import Flatness, Form, PieceSize
from roundproof.pattern.model import Join, Pattern

RADIUS, THICKNESS, VOLUME = 0.7627, 0.9139, 1.2185
"""Of the cushion, for sheets of radius 1: half its width, its thickness, what it holds."""
INCH = 25.4
OUNCE = 28.3495
LARGE = 12 * INCH
"""mm: the smallest square the cushion rule is given for. Smaller ones are filled like toys."""


@dataclass(frozen=True, slots=True)
class Cushion:
    """Two discs of the radius `sheet` (mm) as joined and filled: mm and mm³."""

    keys: tuple[str, str]
    sheet: float

    @property
    def width(self) -> float:
        return 2 * RADIUS * self.sheet

    @property
    def thickness(self) -> float:
        return THICKNESS * self.sheet

    @property
    def volume(self) -> float:
        return VOLUME * self.sheet**3

    @property
    def fabric(self) -> float:
        """mm² of both sheets."""
        return 2 * pi * self.sheet**2

    @property
    def grams_by_area(self) -> float | None:
        """Medium filling by the rule for cushions, for both sheets; None for a small one."""
        return cushion_grams(self.fabric / 2) if 2 * self.sheet >= LARGE else None


def cushion_grams(area: float) -> float:
    """Grams for a cushion whose cover measures so many mm² on one side as it lies flat."""
    return 0.05 * area / INCH**2 * OUNCE


def grams_a_litre(ounces_a_cubic_foot: float) -> float:
    """A density of filling as shops give it, in g a litre."""
    return ounces_a_cubic_foot * OUNCE / (12 * INCH / 100) ** 3


def cushions(
    pattern: Pattern, fabric: Fabric, sizes: Mapping[str, PieceSize]
) -> tuple[Cushion, ...]:
    """Every pair of flat rounds that a join closes along their last rounds."""
    found = (
        _cushion(fabric, sizes, step.verb)
        for step in pattern.assembly
        if isinstance(step.verb, Join) and step.verb.at is None and step.verb.around is None
    )
    return tuple(cushion for cushion in found if cushion is not None)


def _cushion(fabric: Fabric, sizes: Mapping[str, PieceSize], join: Join) -> Cushion | None:
    one = find_edge(fabric, join.edge.value)
    two = find_edge(fabric, join.to.value) if join.to else None
    if not isinstance(one, Edge) or not isinstance(two, Edge):
        return None
    if one.piece == two.piece and fabric.pieces[one.piece].piece.make < 2:
        return None
    sheets = [_sheet(fabric.pieces[e.piece], sizes[e.piece], e) for e in (one, two)]
    if sheets[0] is None or sheets[1] is None:
        return None
    return Cushion((one.piece, two.piece), (sheets[0] + sheets[1]) / 2)


def _sheet(worked: WorkedPiece, size: PieceSize, edge: Edge) -> float | None:
    """The way from the middle of a flat round to its edge in mm; None for any other piece."""
    last = worked.rounds[-1].round.label.last if worked.rounds else None
    if size.form is not Form.TURNED or edge.kind != "round" or edge.round != last:
        return None
    if size.height_mm is None or worked.rounds[0].base is Base.EDGE or worked.gathered:
        return None
    if not size.outline or any(each.flatness is not Flatness.FLAT for each in size.outline):
        return None
    way, radius, height = 0.0, 0.0, 0.0
    for each in size.outline:
        way += hypot(each.radius_mm - radius, each.height_mm - height)
        radius, height = each.radius_mm, each.height_mm
    return way
