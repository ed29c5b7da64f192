"""What a pattern's page needs to reckon its figures in another gauge, as compact JSON.

Everything that follows from the counts is settled here; what is left are sums of stitches whose
size a maker's gauge gives. `theme/js/gauge.js` goes on from there and comes to the figures of
`measure/`; `tests/browser/test_in_your_yarn.py` holds the two together.
"""

from __future__ import annotations

import json
from typing import Any

from roundproof.fabric.model import Edge
from roundproof.fabric.places import site_of
from roundproof.frozen import replace
from roundproof.measure.finished import FIGURES, Stated, stated
from roundproof.measure.fit import fits
from roundproof.measure.gauge import yarn_stitch
from roundproof.measure.model import Fit
from roundproof.measure.reach import multiple_of
from roundproof.measure.regauge import placed
from roundproof.measure.shares import Sum, edge_sum, share_of, site_sum, unit_of
from roundproof.measure.spending import seams, spending
from roundproof.pages.yarn_data_numbers import Data, Numbers, short
from roundproof.pages.yarn_data_pieces import piece_data
from roundproof.pages.yarn_data_spent import Spent
from roundproof.pattern.model import Gauge, Pattern, Yarn
from roundproof.proof import Proof
from roundproof.reference import stitches


def gauge_lines(proof: Proof) -> tuple[Yarn, ...]:
    """The yarns whose gauge alters anything, in the order of the list."""
    pattern, found = proof.pattern, set[str]()
    for worked in proof.fabric.pieces.values():
        for key in spending(pattern, worked).rates:
            unit = unit_of(pattern, worked.piece, key)
            found |= {key, unit.yarn} if unit else {key}
    return tuple(yarn for yarn in pattern.yarns if yarn.key in found)


def in_script(told: Data) -> str:
    """JSON as it may stand in a page: no word of a designer's ends the element it is in."""
    text = json.dumps(told, ensure_ascii=False, separators=(",", ":"))
    return text.replace("<", "\\u003c")


def yarn_data(proof: Proof, lines: tuple[Yarn, ...]) -> Data:
    """The data of a page: `lines` are the yarns that a maker gives gauges for."""
    pattern, fabric, numbers = proof.pattern, proof.fabric, Numbers(y.key for y in lines)
    # A yarn of which nothing is known gets some gauge here: its counts are told all the same.
    known = _with_gauges(pattern)
    joins = fits(known, fabric)
    pieces = list(fabric.pieces)
    spent = Spent(
        pattern,
        (spending(known, worked) for worked in fabric.pieces.values()),
        seams(known, fabric, joins),
        joins,
        numbers,
    )
    needed = (pattern.yarn(key) for key in proof.measures.yarns)
    told: Data = {
        "lines": [_line(yarn) for yarn in lines],
        "units": [],
        "size": [_size(s, pieces) for s in stated(pattern, proof.measures.pieces)],
        "pieces": [piece_data(known, fabric, worked, numbers) for worked in fabric.pieces.values()],
        "fits": [_fit(proof, fit, numbers) for fit in joins],
        "yarns": [spent.yarn(yarn) for yarn in needed if yarn],
        "notions": _notions(proof, numbers),
    }
    return told | {"units": numbers.units()}


def _with_gauges(pattern: Pattern) -> Pattern:
    yarns = (
        yarn if yarn_stitch(yarn) else replace(yarn, gauge=Gauge(20, 20, 100, yarn.span))
        for yarn in pattern.yarns
    )
    return replace(pattern, yarns=tuple(yarns))


def stitch_height(yarn: Yarn) -> float:
    """The height of the stitch that a yarn's gauge counts, over that of a single crochet."""
    kind = stitches().get(yarn.gauge.stitch) if yarn.gauge else None
    return kind.height if kind and kind.height > 0 else 1.0


def _line(yarn: Yarn) -> list[Any]:
    """[width, height, height of the stitch it is counted in, guess] of a single crochet, in mm;
    empty where nothing is known."""
    size = yarn_stitch(yarn)
    if size is None:
        return []
    return [size.width_mm, size.height_mm, short(stitch_height(yarn)), int(size.guessed)]


def _size(each: Stated, pieces: list[str]) -> list[float]:
    """[mm, piece, figure], or [mm] for all pieces together."""
    if not each.piece:
        return [short(each.mm)]
    return [short(each.mm), pieces.index(each.piece), FIGURES.index(each.figure)]


def _notions(proof: Proof, numbers: Numbers) -> list[list[Any]]:
    """[mm, stitch that it sits on, ...] of each that is set on a piece."""
    found: dict[tuple[str, float], list[Any]] = {}
    for each in placed(proof.pattern, proof.fabric):
        piece = proof.fabric.pieces[each.piece].piece
        share = share_of(proof.pattern, piece, each.round)
        told = found.setdefault(each.name, [short(each.was_mm)])
        if share and (here := numbers.share(share)) not in told[1:]:
            told.append(here)
    return list(found.values())


def _fit(proof: Proof, fit: Fit, numbers: Numbers) -> Data:
    pattern, fabric = proof.pattern, proof.fabric
    one, two = fit.edges
    site = site_of(fabric, fit.join)
    place = site_sum(pattern, fabric, site) if site else edge_sum(pattern, fabric, two)
    sums = (edge_sum(pattern, fabric, one), place)
    said = {
        "halved": fit.halved,
        "eased": fit.eased,
        "gathered": fit.join.ease is not None and fit.join.ease.value.lower() == "gathered",
        "alike": one.yarn == two.yarn,
    }
    sides = [
        _side(proof, edge, found, folded, numbers)
        for edge, found, folded in zip(fit.edges, sums, fit.folded, strict=True)
    ]
    return {"sides": sides} | {name: 1 for name, true in said.items() if true}


def _side(proof: Proof, edge: Edge, found: Sum | None, folded: bool, numbers: Numbers) -> Data:
    told: Data = {"of": edge.text, "count": edge.count, "sum": numbers.sum(found)}
    if folded:
        told["layers"] = 2
    if not edge.per_row and edge.kind not in ("footprint", "between", "up"):
        told["plain"] = 1
    if edge.kind == "round" and edge.count:
        multiple = multiple_of(proof.fabric.pieces[edge.piece])
        if multiple > 1 and edge.count % multiple == 0:
            told["multiple"] = multiple
    return told
