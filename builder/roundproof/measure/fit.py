"""Whether the two edges of a join fit, each measured in its own yarn.

The mismatch is longer / shorter - 1. How much can be eased in: 3 to 4.5 % and 6 to 9 % are the
eases of sleeve heads in knits and in books (madalynne.com, "Sleeve cap ease", on an armhole of
17 in), 10 % is the teaching case (seweverythingblog.com, March 2014), 12.5 % was declared
unworkable (pinktoesandpowertools.com). That a stuffed piece sewn flat on a body hides half as
much is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping

from roundproof.fabric.edges import find_edge, in_rows
from roundproof.fabric.model import Edge, Fabric
from roundproof.fabric.places import Site, site_of
from roundproof.frozen import dataclass, replace
from roundproof.measure.figures import cm, several, stitches
from roundproof.measure.flatness import frill
from roundproof.measure.lengths import Length, edge_length, site_length
from roundproof.measure.model import Fit, Verdict
from roundproof.measure.reach import Reach, kept, multiple_of, reach
from roundproof.measure.spacing import plan
from roundproof.pattern.model import Join, Pattern

_LIMITS: Mapping[Verdict, float] = {
    Verdict.FITS: 0.03,
    Verdict.EASE: 0.06,
    Verdict.CARE: 0.10,
}
_ORDER = tuple(Verdict)
_GATHERS = 1.25
"""Fullness from which an edge counts as gathered (see flatness.py)."""
_NEARLY = 1e-9


@dataclass(frozen=True, slots=True)
class _Side:
    """One of two edges, as it lies: `mm` is half the edge where it is folded flat."""

    edge: Edge
    length: Length | None
    folded: bool = False

    @property
    def mm(self) -> float | None:
        return self.length.mm / self.layers if self.length else None

    @property
    def layers(self) -> int:
        return 2 if self.folded else 1

    @property
    def lying(self) -> int | None:
        """Its stitches as it lies: pairs of them where it is folded flat."""
        return self.edge.count // self.layers if self.edge.count else None

    def exactly(self, mm: float) -> float | None:
        """How many of its stitches would be so long, layer upon layer where it is folded."""
        if not self.length or not self.edge.count or self.length.mm <= 0:
            return None
        return mm * self.edge.count / self.length.mm * self.layers

    def suited_to(self, mm: float) -> int | None:
        """The count at which this edge would be so long; even where it is folded flat."""
        if (exact := self.exactly(mm)) is None:
            return None
        return max(1, round(exact / self.layers + _NEARLY)) * self.layers


def fits(pattern: Pattern, fabric: Fabric) -> tuple[Fit, ...]:
    """The fit of every join whose two sides exist, in working order."""
    found = (
        _fit(pattern, fabric, step.verb)
        for step in pattern.assembly
        if isinstance(step.verb, Join) and step.verb.to is not None
    )
    return tuple(fit for fit in found if fit is not None)


def verdict(mismatch: float, *, halved: bool = False) -> Verdict:
    """What a mismatch comes to; each limit belongs to the milder verdict."""
    for kind, limit in _LIMITS.items():
        if mismatch <= limit / (2 if halved else 1) + _NEARLY:
            return kind
    return Verdict.MISFIT


def _fit(pattern: Pattern, fabric: Fabric, join: Join) -> Fit | None:
    guest = find_edge(fabric, join.edge.value)
    if not isinstance(guest, Edge) or join.to is None:
        return None
    site = site_of(fabric, join)
    if site is None and (join.at is not None or join.around is not None):
        return None
    host = _site_edge(fabric, site) if site else find_edge(fabric, join.to.value)
    if not isinstance(host, Edge):
        return None
    first = _Side(guest, edge_length(pattern, fabric, guest), _lies_folded(fabric, join, site))
    length = site_length(pattern, fabric, site) if site else edge_length(pattern, fabric, host)
    second = _Side(host, length)
    found = _judged(_compared(pattern, join, first, second, site))
    return _with_mends(fabric, found, first, second)


def _site_edge(fabric: Fabric, site: Site) -> Edge | None:
    worked = fabric.pieces[site.piece].at(site.first)
    if worked is None:
        return None
    yarn, per_row = worked.yarn, site.kind == "up"
    return Edge(site.piece, site.text, site.kind, site.count, yarn, site.first, per_row)


def _lies_folded(fabric: Fabric, join: Join, site: Site | None) -> bool:
    """Whether an edge closes to half its length: told to be folded, or a round edge sewn along a
    line. One already worked through both layers lies flat as it is."""
    edge = find_edge(fabric, join.edge.value)
    if not isinstance(edge, Edge) or edge.kind != "round":
        return False
    worked = fabric.pieces[edge.piece]
    here = worked.at(edge.round) if edge.round is not None else None
    if in_rows(worked) or (here is not None and here.folded):
        return False
    if site is not None:
        return site.kind != "footprint"
    return join.fold is not None


def _compared(pattern: Pattern, join: Join, a: _Side, b: _Side, site: Site | None) -> Fit:
    """A fit without its verdict."""
    one, two = a.mm, b.mm
    fit = one / two if one and two else None
    mismatch = max(fit, 1 / fit) - 1 if fit else _by_counts(a, b)
    return Fit(
        join=join,
        span=join.edge.span,
        edges=(a.edge, b.edge),
        counts=(a.edge.count, b.edge.count),
        lengths_mm=(one, two),
        fit=fit,
        mismatch=mismatch,
        suggest=_suggested(a, b),
        verdict=None,
        halved=site is not None,
        eased=join.ease is not None and join.ease.value.lower() in ("yes", "true"),
        folded=(a.folded, b.folded),
        by_count=_one_gauge(a, b),
        guessed=any(side.length is not None and side.length.guessed for side in (a, b)),
        working=_said(pattern, a, b),
    )


def _judged(fit: Fit) -> Fit:
    """The same with its verdict: limits, easing and gathering as asked for."""
    if fit.mismatch is None:
        return fit
    if fit.join.ease is not None and fit.join.ease.value.lower() == "gathered":
        return _gathered(fit, 1 + fit.mismatch)
    found = verdict(fit.mismatch, halved=fit.halved)
    if fit.eased:
        found = _ORDER[max(_ORDER.index(found) - 1, 0)]
    if fit.suggest[0] is not None and fit.suggest[0] == fit.counts[0]:
        found = min(found, Verdict.EASE, key=_ORDER.index)
    if fit.guessed or fit.fit is None:
        found = min(found, Verdict.CARE if not fit.by_count else found, key=_ORDER.index)
    return replace(fit, verdict=found)


def _gathered(fit: Fit, fullness: float) -> Fit:
    """An edge gathered on purpose fits when it is full enough to gather at all."""
    found = Verdict.FITS if fullness >= _GATHERS - _NEARLY else Verdict.EASE
    return replace(fit, verdict=found, fullness=fullness, frill=frill(fullness))


def _with_mends(fabric: Fabric, fit: Fit, a: _Side, b: _Side) -> Fit:
    """The same with how the edges meet as they are, and how each would come to the other's
    length."""
    meet = fit.verdict is not Verdict.MISFIT and not _round_a_place(b)
    apart = plan(a.lying or 0, b.lying or 0) if meet else None
    if fit.verdict in (None, Verdict.FITS):
        return replace(fit, plan=apart)
    kept = (_kept(fabric, a, b, fit), _kept(fabric, b, a, fit))
    reaches = (
        _reach(fabric, a, kept[0], fit.suggest[0]),
        _reach(fabric, b, kept[1], fit.suggest[1]),
    )
    return replace(fit, plan=apart, kept=kept, reach=reaches)


def _round_a_place(side: _Side) -> bool:
    """Whether an edge runs round a place in stitches and rows both, which no count shares out."""
    return side.edge.kind in ("footprint", "up")


def _kept(fabric: Fabric, side: _Side, other: _Side, fit: Fit) -> int | None:
    """The count that keeps the multiple of a piece and still fits, or can be eased in."""
    if side.edge.kind != "round" or not side.edge.count:
        return None
    exact = side.exactly(other.mm) if other.mm else None
    exact = exact or float(other.lying or 0) * side.layers
    multiple = multiple_of(fabric.pieces[side.edge.piece])
    found = kept(side.edge.count, exact, multiple, side.layers) if exact else None
    if found in (None, side.edge.count):
        return None
    limit = Verdict.FITS, Verdict.EASE
    apart = max(found / exact, exact / found) - 1
    return found if verdict(apart, halved=fit.halved) in limit else None


def _reach(fabric: Fabric, side: _Side, kept: int | None, suited: int | None) -> Reach | None:
    """How the piece comes to a count that fits: in its multiple, if that can be reached."""
    worked = fabric.pieces[side.edge.piece]
    counts = (count for count in (kept, suited) if count and count != side.edge.count)
    ways = (reach(worked, side.edge, count) for count in counts)
    return next((way for way in ways if way is not None), None)


def _plain(side: _Side) -> bool:
    return not side.edge.per_row and side.edge.kind not in ("footprint", "between", "up")


def _one_gauge(a: _Side, b: _Side) -> bool:
    """Whether counts alone tell: stitches side by side in both, equally wide."""
    if not _plain(a) or not _plain(b):
        return False
    if a.length is None or b.length is None:
        return a.edge.yarn == b.edge.yarn
    return abs((a.length.width or 0.0) - (b.length.width or 0.0)) <= _NEARLY


def _by_counts(a: _Side, b: _Side) -> float | None:
    """The mismatch of two edges without a gauge: told by the counts where the yarn is one. In two
    yarns unequal counts are still worth a word, equal ones tell nothing."""
    one, two = a.edge.count, b.edge.count
    if not one or not two or not _plain(a) or not _plain(b):
        return None
    ratio = one / a.layers / (two / b.layers)
    if a.edge.yarn != b.edge.yarn and ratio == 1:
        return None
    return max(ratio, 1 / ratio) - 1


def _suggested(a: _Side, b: _Side) -> tuple[int | None, int | None]:
    if a.mm and b.mm:
        return a.suited_to(b.mm), b.suited_to(a.mm)
    if _by_counts(a, b) is None or a.edge.count is None or b.edge.count is None:
        return None, None
    return b.edge.count * a.layers, max(1, round(a.edge.count / a.layers))


def _said(pattern: Pattern, a: _Side, b: _Side) -> str:
    """The two lengths in words, or nothing where one is not known."""
    if a.mm is None or b.mm is None:
        return ""
    one, two = a.edge.yarn, b.edge.yarn
    by_yarn = one and two and one != two and _plain(a) and _plain(b)
    names = [yarn_word(pattern, s.edge.yarn) if by_yarn else s.edge.piece for s in (a, b)]
    return f"{_long(a, names[0])} and {_long(b, names[1])}"


def _long(side: _Side, name: str) -> str:
    count, mm, edge = side.edge.count or 0, side.mm or 0.0, side.edge
    if edge.kind == "footprint":
        return f"the place on {edge.text} ({count} rounds and stitches round) is {cm(mm)}"
    if edge.kind == "between":
        return f"{stitches(count)} of {edge.text} are {cm(mm)}"
    if edge.per_row:
        what = "row" if edge.kind == "row ends" else "round"
        return f"{several(count, what)} of {name} are {cm(mm)}"
    flat = " folded flat" if side.folded else ""
    return f"{stitches(count)} of {name}{flat} are {cm(mm)}"


def yarn_word(pattern: Pattern, key: str | None) -> str:
    """What a yarn is called in a sentence: its key, or its colour's where it has several."""
    yarn = pattern.yarn(key) if key else None
    return (yarn.key if yarn else key or "").rpartition("/")[2]
