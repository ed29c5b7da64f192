"""How an edge longer than the circle it lies on waves (derived; the edge taken for a sine)."""

from __future__ import annotations

from math import pi, sqrt

_MOST = 1000.0


def fullness_of(wave: float) -> float:
    """Length of a sine wave over its base, for a wave so high, trough to crest, over its length:
    for the slope b where it is steepest, (2/pi) sqrt(1 + b²) E(b² / (1 + b²)), the complete
    elliptic integral E by the arithmetic-geometric mean."""
    steepest = sqrt(1 + (pi * wave) ** 2)
    mean, geometric = 1.0, 1 / steepest
    weight, lost = 0.5, (1 - geometric * geometric) / 2
    while mean - geometric > 1e-9:
        apart = (mean - geometric) / 2
        mean, geometric = (mean + geometric) / 2, sqrt(mean * geometric)
        weight *= 2
        lost += weight * apart * apart
    return steepest / mean * (1 - lost)


def wave_height(fullness: float) -> float:
    """Height of the waves, trough to crest, over their length, in an edge so many times as long as
    its base; 0 for one that lies plain. Found by halving, since the sine's arc has no closed
    inverse."""
    low, high = 0.0, _MOST
    if fullness <= 1:
        return low
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if fullness_of(middle) < fullness else (low, middle)
    return low
