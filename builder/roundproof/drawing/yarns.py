"""How a yarn is shown: a class that carries its shade, the letter that stands for it, its name."""

from __future__ import annotations

from collections.abc import Mapping

from roundproof.drawing.colour import RGB, read_shade
from roundproof.frozen import dataclass
from roundproof.pattern.model import Pattern


@dataclass(frozen=True, slots=True)
class YarnMark:
    """`css` is "y1", "y2" … in the order of the file, whatever a designer's letters are."""

    css: str
    letter: str
    name: str


BARE = YarnMark("y0", "", "")
"""Where no yarn is known."""

Marks = Mapping[str, YarnMark]


def yarn_marks(pattern: Pattern) -> Marks:
    """The marks of a pattern's yarns, by key."""
    return {
        yarn.key: YarnMark(f"y{place}", yarn.letter, yarn.name)
        for place, yarn in enumerate(pattern.yarns, 1)
    }


def mark_of(marks: Marks, key: str | None) -> YarnMark:
    return marks.get(key, BARE) if key is not None else BARE


BARE_SHADE: RGB = (0x7C, 0x8B, 0x8F)
"""A yarn whose shade is not told: the theme's grey."""


def shades_of(pattern: Pattern) -> dict[str, RGB]:
    """The shade of each yarn by its class."""
    marks = yarn_marks(pattern)
    read = {
        marks[yarn.key].css: read_shade(yarn.shade.value if yarn.shade else None)
        for yarn in pattern.yarns
    }
    return {css: shade or BARE_SHADE for css, shade in read.items()}
