"""How large a model is against what it stands for, in words and as a ratio."""

from __future__ import annotations

from roundproof.frozen import dataclass
from roundproof.pages.figures import trimmed
from roundproof.pattern import model

DIMENSIONS = ("height", "width", "length", "depth", "span_", "around")
CALLED = {name: name for name in DIMENSIONS} | {"span_": "span", "around": "way round"}
LIFE = 0.05
"""How far from life size is still called so."""
APART = 1.1
"""How much two measures may differ in scale and be told as one."""

_FRACTIONS = {
    3 / 4: "three quarters of", 2 / 3: "two thirds of", 1 / 2: "half", 1 / 3: "one third of",
    1 / 4: "a quarter of", 1 / 5: "a fifth of", 1 / 10: "a tenth of", 2: "twice", 3: "three times",
    4: "four times", 5: "five times", 10: "ten times",
}  # fmt: skip
_NEAR = 0.03


@dataclass(frozen=True, slots=True)
class Scale:
    """Model over life by one measure, `dimension` as in the model; mm of both."""

    dimension: str
    made: float
    real: float

    @property
    def ratio(self) -> float:
        return self.made / self.real


def scales(size: model.Size | None, real: model.RealSize | None) -> tuple[Scale, ...]:
    """By every measure that both give, in the order in which sizes are told."""
    both = ((name, getattr(size, name, None), getattr(real, name, None)) for name in DIMENSIONS)
    return tuple(
        Scale(name, made.value, true.value)
        for name, made, true in both
        if made and true and made.value > 0 and true.value > 0
    )


def in_proportion(found: tuple[Scale, ...]) -> bool:
    """Whether all measures tell about the same scale."""
    ratios = [scale.ratio for scale in found]
    return not ratios or max(ratios) / min(ratios) <= APART


def scale_words(ratio: float) -> str:
    """Both ways: "about 1:3, one third of life size"; "about 2,000:1, 2,000 times life size"."""
    if abs(ratio - 1) < LIFE:
        return "1:1, life size"
    pair = f"about 1:{_two_figures(1 / ratio)}" if ratio < 1 else f"about {_two_figures(ratio)}:1"
    near = next((words for part, words in _FRACTIONS.items() if abs(ratio / part - 1) < _NEAR), "")
    if near:
        return f"{pair}, {near} life size"
    if ratio < 0.1:
        return f"{pair}, a {_ordinal(1 / ratio)} of life size"
    return f"{pair}, {_two_figures(ratio)} times life size"


def _two_figures(value: float) -> str:
    """To two figures: 1.3, 13, 130, 1,300."""
    decimals = 2 if value < 1 else 1 if value < 10 else 0
    step = 10 ** max(0, len(str(int(value))) - 2)
    return trimmed(round(value / step) * step if value >= 100 else value, decimals)


def _ordinal(value: float) -> str:
    """ "13th", "250th"."""
    words = _two_figures(value)
    last = {"1": "st", "2": "nd", "3": "rd"}.get(words[-1], "th")
    return words + ("th" if words[-2:-1] == "1" or "." in words else last)
