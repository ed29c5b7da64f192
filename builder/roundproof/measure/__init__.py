"""Sizes, fits, yarn, filling and time, from the gauge and the worked pieces."""

from __future__ import annotations

from roundproof.fabric.model import Fabric
from roundproof.measure.fit import fits
from roundproof.measure.model import Measures
from roundproof.measure.sizes import piece_size
from roundproof.measure.stuffing import filling
from roundproof.measure.time import making_time
from roundproof.measure.yarn import yarn_needs
from roundproof.pattern.model import Pattern


def measured(pattern: Pattern, fabric: Fabric) -> Measures:
    """All measured figures of a pattern. Never raises for what users write: a figure that cannot
    be told is None, and named with the reason."""
    sizes = {key: piece_size(pattern, fabric, worked) for key, worked in fabric.pieces.items()}
    joins = fits(pattern, fabric)
    stuffing = filling(pattern, fabric, sizes)
    time = making_time(pattern, fabric, sizes, joins)
    return Measures(
        pieces=sizes,
        fits=joins,
        yarns=yarn_needs(pattern, fabric, joins),
        stuffing_g=stuffing.grams,
        hours=time.whole.hours,
        time=time.pieces,
        making_up=time.making_up,
        working={"stuffing": stuffing.working, "hours": time.whole.working},
    )
