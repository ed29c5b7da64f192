"""How an edge longer than the circle it lies on waves (derived; the edge taken for a sine)."""

from __future__ import annotations

from math import cos, pi, sqrt

_STEPS = 256
_MOST = 1000.0


def fullness_of(wave: float) -> float:
    """Length of a sine wave over its base, for a wave so high, trough to crest, over its length."""
    slope = pi * wave
    turns = (2 * pi * i / _STEPS for i in range(_STEPS))
    return sum(sqrt(1 + (slope * cos(t)) ** 2) for t in turns) / _STEPS


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
