"""The two edges of a join as strips: how long each lies, its cells, and which go to which."""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.drawing.labels import cut
from roundproof.fabric.model import Edge
from roundproof.fabric.places import Site, site_of
from roundproof.frozen import dataclass
from roundproof.measure.lengths import site_length
from roundproof.measure.model import Fit, Verdict
from roundproof.measure.spacing import partner
from roundproof.proof import Proof

FULLEST = 6.0
"""An edge more than so many times as long as the other cannot be laid beside it."""
MOST_CELLS = 100_000_000
_LOOSE = frozenset({"knot", "glue"})
"""Ways of joining that take no stitch to another."""


@dataclass(frozen=True, slots=True)
class Section:
    """Cells of one kind in a row: `count` of them, `long` in all, in mm or in stitch widths."""

    count: int
    long: float
    what: str


@dataclass(frozen=True, slots=True)
class Strip:
    """An edge as it lies: `count` the whole edge's stitches, `lying` those beside each other,
    `mm` 0 where no gauge tells."""

    name: str
    count: int
    lying: int
    folded: bool
    what: str
    mm: float
    sections: tuple[Section, ...]

    @property
    def long(self) -> float:
        return sum(section.long for section in self.sections)

    def edge_of(self, cell: int) -> float:
        """Where the first so many cells end."""
        at = 0.0
        for section in self.sections:
            if cell <= section.count:
                return at + section.long * cell / max(section.count, 1)
            at, cell = at + section.long, cell - section.count
        return at

    def middle(self, cell: int) -> float:
        """The middle of a cell, counted from 1."""
        return (self.edge_of(cell - 1) + self.edge_of(cell)) / 2


@dataclass(frozen=True, slots=True)
class Pair:
    """Both edges. `matched` where every stitch of one goes to one of the other; `corners` where
    one runs round a place on the other and the stitches come out at its corners."""

    fit: Fit
    strips: tuple[Strip, Strip]
    matched: bool
    corners: bool

    @property
    def short(self) -> int:
        """The place in the pair of the edge with fewer stitches side by side."""
        return 0 if self.strips[0].lying <= self.strips[1].lying else 1

    def doubles(self) -> Iterator[tuple[int, int]]:
        """The stitches of the edge with fewer that take more than the others do, with how many:
        each stitch goes to the one that lies against it."""
        few, many = self.strips[self.short].lying, self.strips[1 - self.short].lying
        if not self.matched or few == many:
            return
        each = many // few
        last, taken = 1, 0
        for cell in range(1, many + 1):
            goes = partner(cell, many, few)
            if goes != last:
                if taken > each:
                    yield last, taken
                last, taken = goes, 0
            taken += 1
        if taken > each:
            yield last, taken


def pairs(proof: Proof) -> Iterator[Pair]:
    """The joins whose two edges can be laid side by side and told apart, in working order."""
    for fit in proof.measures.fits:
        if (found := _pair(proof, fit)) is not None:
            yield found


def _pair(proof: Proof, fit: Fit) -> Pair | None:
    by = fit.join.by.value.lower() if fit.join.by else ""
    if by == "knot" or fit.verdict is None or not fit.counts[0] or not fit.counts[1]:
        return None
    measured = fit.lengths_mm[0] is not None and fit.lengths_mm[1] is not None
    same = fit.edges[0].yarn == fit.edges[1].yarn and not _odd(fit.edges[0]) | _odd(fit.edges[1])
    if not measured and not same:
        return None
    one, two = (_strip(proof, fit, place, measured) for place in (0, 1))
    if min(one.long, two.long) <= 0 or max(one.long, two.long) > FULLEST * min(one.long, two.long):
        return None
    place = fit.edges[1].kind in ("footprint", "up")
    alike = one.lying == two.lying or fit.plan is not None
    sewn = by not in _LOOSE and not place and fit.verdict is not Verdict.MISFIT
    return Pair(
        fit, (one, two), sewn and alike, fit.edges[1].kind == "footprint" and one.count == two.count
    )


def _odd(edge: Edge) -> bool:
    """Whether its cells are not stitches side by side."""
    return edge.per_row or edge.kind in ("footprint", "up")


def _strip(proof: Proof, fit: Fit, place: int, measured: bool) -> Strip:
    edge, count, folded = fit.edges[place], fit.counts[place] or 0, fit.folded[place]
    lying = count // 2 if folded else count
    long = (fit.lengths_mm[place] or 0.0) if measured else float(lying)
    what = "row end" if edge.kind == "row ends" else "round" if edge.kind == "up" else "stitch"
    sections: tuple[Section, ...] = (Section(lying, long, what),)
    if edge.kind == "footprint" and (round_it := _round_it(proof, fit, long)):
        sections = round_it
    return Strip(
        _name(proof, edge), count, lying, folded, what, long if measured else 0.0, sections
    )


def _name(proof: Proof, edge: Edge) -> str:
    """The piece with what of it: "Barnacle foundation", "Body R8-R11"."""
    piece = proof.fabric.pieces[edge.piece].piece
    rest = " ".join(edge.text.split())[len(edge.piece) :].strip()
    return cut(" ".join(f"{piece.name} {rest}".split()), 250.0)


def _round_it(proof: Proof, fit: Fit, long: float) -> tuple[Section, ...]:
    """The four sides of a place, brought to its length."""
    site = site_of(proof.fabric, fit.join)
    if site is None or site.stitches is None or not site.stitches:
        return ()
    wide = Site(site.piece, "between", site.first, site.last, site.stitches)
    along = site_length(proof.pattern, proof.fabric, wide)
    up = site_length(proof.pattern, proof.fabric, Site(site.piece, "up", site.first, site.last))
    if along is None or up is None or along.mm + up.mm <= 0:
        return ()
    share = long / (2 * (along.mm + up.mm))
    across = Section(site.stitches, along.mm * share, "stitch")
    side = Section(site.rounds, up.mm * share, "round")
    return across, side, across, side
