"""How each round lies: cone, cupped, flat, wavy or ruffled."""

from __future__ import annotations

from collections.abc import Sequence
from math import pi

from roundproof.measure.model import Flatness, Frill

_SCALE = tuple(Flatness)
_FLAT = _SCALE.index(Flatness.FLAT)
# Growth of a round over the growth that lies flat, less 1, up to which a class goes. From the
# samples of revedreams.com, "Single Crochet Shaping 1: cones to ruffles": with a fabric that lay
# flat at 7 increases a round, 1 to 4 were cones, 5 and 6 cupped, 7 and 8 flat, 9 crowded, 10
# ruffled. A tube and a round that closes in count as cones.
_LIMITS = (-0.40, -0.07, 0.15, 0.35)
# Fullness from which a frill is gentle, full, tight: dressmakers' gathering of 1.5, 2 and 2.5 to 3
# (stitchcoach.blogspot.com, January 2017), limits set between them.
FRILL = 1.25
_FRILLS = ((2.4, Frill.TIGHT), (1.6, Frill.FULL), (FRILL, Frill.GENTLE))


def flat_increases(width: float, height: float) -> float:
    """Increases a round that lie flat, for a stitch so wide and so tall (derived: each round adds
    2 pi times its height to the circle)."""
    return 2 * pi * height / width


def flatness(slopes: Sequence[float], fullness: Sequence[float]) -> tuple[Flatness, ...]:
    """The class of every round of a piece.

    `slopes`: how far each round's own circle goes out, over its height (1 lies flat, 0 is a tube);
    `fullness`: its length over the circle it lies on. One round matters little, so the slope is
    the mean of the last three, unless a round alone makes a frill. Crowding shows by the fullness
    reached: a steep slope counts one class more than that at most, since on a wide rim a few
    stitches more hardly show."""
    classes = []
    for i, full in enumerate(fullness):
        last = slopes[max(0, i - 2) : i + 1]
        mean = sum(last) / len(last)
        by_slope = _class((max(mean, slopes[i]) if full >= FRILL else mean) - 1)
        by_fullness = _class(full - 1)
        reached = min(by_slope, max(by_fullness, _FLAT) + 1)
        classes.append(_SCALE[max(reached, by_fullness) if by_fullness > _FLAT else reached])
    return tuple(classes)


def frill(fullness: float) -> Frill | None:
    """How full a frill of this fullness is; None where it hardly waves."""
    return next((kind for limit, kind in _FRILLS if fullness >= limit), None)


def _class(excess: float) -> int:
    """Index in the scale; the limits belong to the lower class."""
    return sum(excess > limit + 1e-9 for limit in _LIMITS)
