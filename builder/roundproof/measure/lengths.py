"""How long an edge is, in mm, in its own yarn."""

from __future__ import annotations

from roundproof.fabric.model import Edge, Fabric, WorkedPiece, WorkedRound
from roundproof.fabric.places import Site
from roundproof.frozen import dataclass
from roundproof.measure.bands import MOST_ROUNDS, MOST_STITCHES, round_size
from roundproof.pattern.model import Pattern


@dataclass(frozen=True, slots=True)
class Length:
    """`mm` in all, `width` of one stitch where the edge is stitches side by side, `guessed` where
    a gauge was."""

    mm: float
    width: float | None
    guessed: bool


def edge_length(pattern: Pattern, fabric: Fabric, edge: Edge) -> Length | None:
    """Stitches x stitch width, or rows x row height for row ends. None where the count or the
    gauge is not known."""
    worked = fabric.pieces[edge.piece]
    if edge.count is None or edge.count > MOST_STITCHES or not worked.rounds:
        return None
    if edge.per_row:
        last = worked.rounds[-1].round.label.last
        return _up(pattern, worked, worked.rounds[0].round.label.first, last)
    here = worked.at(edge.round) if edge.round is not None else worked.rounds[0]
    size = round_size(pattern, worked.piece, here) if here else None
    return Length(edge.count * size.width, size.width, size.guessed) if size else None


def site_length(pattern: Pattern, fabric: Fabric, site: Site) -> Length | None:
    """The length of a place on a piece: of the line, or all round a footprint."""
    worked = fabric.pieces[site.piece]
    if not worked.rounds or site.last > worked.rounds[-1].round.label.last:
        return None
    if site.kind == "up":
        return _up(pattern, worked, site.first, site.last)
    here = [r for r in worked.rounds if _meets(r, site.first, site.last)]
    sizes = [round_size(pattern, worked.piece, r) for r in here]
    known = [size for size in sizes if size is not None]
    if site.stitches is None or not known or len(known) < len(sizes):
        return None
    width = sum(size.width for size in known) / len(known)
    guessed = any(size.guessed for size in known)
    if site.kind == "between":
        return Length(site.stitches * width, width, guessed)
    up = _up(pattern, worked, site.first, site.last)
    return Length(2 * (site.stitches * width + up.mm), None, guessed) if up else None


def _meets(worked: WorkedRound, first: int, last: int) -> bool:
    label = worked.round.label
    return label.first <= last and label.last >= first


def _up(pattern: Pattern, worked: WorkedPiece, first: int, last: int) -> Length | None:
    """Along the fabric from the lower edge of one round to the upper edge of another."""
    total, guessed = 0.0, False
    if last - first >= MOST_ROUNDS:
        return None
    for entry in worked.rounds:
        label = entry.round.label
        rounds = min(label.last, last) - max(label.first, first) + 1
        if rounds <= 0:
            continue
        if (size := round_size(pattern, worked.piece, entry)) is None:
            return None
        total += rounds * size.height * entry.height
        guessed = guessed or size.guessed
    return Length(total, None, guessed)
