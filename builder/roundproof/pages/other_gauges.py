"""A few other gauges of a pattern and what it comes to in them, for who reads without script."""

from __future__ import annotations

from markupsafe import Markup

from roundproof.fabric.model import Fabric
from roundproof.frozen import replace
from roundproof.measure.finished import largest
from roundproof.measure.fit import fits
from roundproof.measure.gauge import yarn_stitch
from roundproof.measure.model import YarnNeed
from roundproof.measure.regauge import in_another_gauge, notion_sizes
from roundproof.measure.yarn import yarn_needs
from roundproof.pages.figures import NBSP, metres, millimetres, trimmed
from roundproof.pages.specimen import SAID
from roundproof.pages.values import OtherGauge
from roundproof.pages.wording import measure
from roundproof.pattern.model import Gauge, Pattern, Yarn
from roundproof.proof import Proof

FACTORS = (0.75, 1.25, 1.5, 2.0)


def other_gauges(proof: Proof, lines: tuple[Yarn, ...]) -> tuple[OtherGauge, ...]:
    """The pattern in yarns whose stitches are so many times as large; none where a gauge is not
    known."""
    if any(yarn_stitch(yarn) is None for yarn in lines):
        return ()
    return tuple(_other(proof, lines, factor) for factor in FACTORS)


def _other(proof: Proof, lines: tuple[Yarn, ...], factor: float) -> OtherGauge:
    pattern = in_another_gauge(proof.pattern, {y.key: _gauge(y, factor) for y in lines})
    fabric = _in(pattern, proof.fabric)
    needs = yarn_needs(pattern, fabric, fits(pattern, fabric))
    sizes = notion_sizes(proof.pattern, proof.fabric, pattern, fabric)
    first = yarn_stitch(lines[0])
    return OtherGauge(
        trimmed(factor, 2),
        trimmed(100 / first.width_mm / factor) if first else "",
        _size(proof, factor),
        tuple(_metres(proof, need) for need in needs.values()),
        tuple(dict.fromkeys(millimetres(n.size_mm) for n in sizes)),
    )


def _gauge(yarn: Yarn, factor: float) -> Gauge:
    size = yarn_stitch(yarn)
    wide, tall = (size.width_mm, size.height_mm) if size else (1.0, 1.0)
    return Gauge(100 / wide / factor, 100 / tall / factor, 100, yarn.span)


def _in(pattern: Pattern, fabric: Fabric) -> Fabric:
    """The pieces as they were worked: another gauge alters no stitch of them."""
    pieces = {
        key: replace(worked, piece=pattern.piece(key) or worked.piece)
        for key, worked in fabric.pieces.items()
    }
    return replace(fabric, pieces=pieces)


def _metres(proof: Proof, need: YarnNeed) -> str:
    """ "A 33 m": one yarn alone needs no letter."""
    amount = metres(need.metres) if need.metres is not None else "–"
    letter = proof.letter(need.yarn) if len(proof.measures.yarns) > 1 else ""
    return f"{letter}{NBSP}{amount}" if letter else amount


def _size(proof: Proof, factor: float) -> Markup:
    """The stated measures, or those of the largest piece."""
    said = [(getattr(proof.pattern.size, name, None), word) for name, word in SAID.items()]
    parts = [
        Markup("{} {}").format(measure(value.value * factor), word) for value, word in said if value
    ]
    if parts:
        return Markup(", ").join(parts)
    sizes = proof.measures.pieces
    key = max(sizes, key=lambda each: largest(sizes[each]))
    if not largest(sizes[key]):
        return Markup("–")
    name = proof.fabric.pieces[key].piece.name
    return Markup("{}: {}").format(name, measure(largest(sizes[key]) * factor))
