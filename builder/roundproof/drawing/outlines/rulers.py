"""Graduated edges: a ruler in centimetres and inches below a drawing, a measure beside a tall one.

Both begin at one place, so that the two systems can be compared on them. Whatever a piece
measures, a ruler has few divisions.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from roundproof.drawing.lengths import INCH, NBSP, inches, length
from roundproof.drawing.shapes import Group, Path, Shape, Text, compact

RULES = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 100_000)
"""Divisions a ruler may have, in mm."""
INCH_RULES = tuple(n * INCH for n in (1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2, 5, 10, 20, 50, 100, 1000))
MOST = 12
LONG, SHORT = 7.0, 4.0
"""How far the strokes of a ruler reach out, at its ends and between."""

Steps = list[tuple[str | float, ...]]


def division(room: float, rules: Sequence[float]) -> tuple[float, int]:
    """The divisions, in mm, of a ruler of at most `room` mm, and how many whole ones it has; one in
    inches ends at a quarter."""
    step = next((rule for rule in rules if rule >= room / MOST), rules[-1])
    count = max(1, int(room / step + 1e-9))
    quarters = max(1, round(INCH / 4 / step)) if rules is INCH_RULES else 1
    return step, count // quarters * quarters or count


def ruler(scale: float, half: float, y: float) -> list[Shape]:
    """Centred below a drawing of `scale` units a mm that is 2 `half` wide: centimetres above the
    line, inches below it, each as long as whole divisions reach."""
    room = 2 * half / scale
    step, count = division(room, RULES)
    inch, inched = division(room, INCH_RULES)
    left = -max(step * count, inch * inched) * scale / 2
    way: Steps = [("M", left, y), ("H", -left)]
    way += _strokes(left, y, step * scale, count, -1) + _strokes(left, y, inch * scale, inched, 1)
    above, below = y - LONG - 4, y + LONG + 12
    words = [
        Text(left, above, "0", "", "middle"),
        Text(left + step * count * scale, above, length(step * count), "", "middle"),
        Text(left, below, "0", "", "middle"),
        Text(left + inch * inched * scale, below, inch_words(inch * inched), "", "middle"),
    ]
    return [compact(Path(tuple(way), "line")), Group(tuple(words), "words")]


def _strokes(x: float, y: float, width: float, count: int, side: int) -> Steps:
    way: Steps = []
    for place in range(count + 1):
        reach = LONG if place in (0, count) else SHORT
        way += [("M", x + place * width, y), ("v", side * reach)]
    return way


def inch_words(millimetres: float) -> str:
    """Whole divisions of an inch as they are: "4 in", "2½ in", "3/8 in"."""
    exact = Fraction(round(16 * millimetres / INCH), 16)
    if exact >= 1 or exact.denominator <= 4:
        whole, part = divmod(exact, 1)
        signs = {Fraction(1, 4): "¼", Fraction(1, 2): "½", Fraction(3, 4): "¾"}
        return f"{whole or ''}{signs.get(part, '')}{NBSP}in"
    return f"{exact}{NBSP}in"


def measure(scale: float, height: float, x: float) -> list[Shape]:
    """A line as long as a piece of `height` mm is tall, with strokes for centimetres at its left
    and inches at its right, counted from the start; both lengths stand below it."""
    end = height * scale
    way: Steps = [("M", x, 0), ("V", end)]
    way += [("M", x - LONG, 0), ("h", 2 * LONG), ("M", x - LONG, end), ("h", 2 * LONG)]
    for rules, side in ((RULES, -1), (INCH_RULES, 1)):
        step, count = division(height, rules)
        for place in range(1, count + 1):
            if place * step < height - 1e-9:
                way += [("M", x, place * step * scale), ("h", side * SHORT)]
    words = (
        Text(x, end + 15, length(height), "", "middle"),
        Text(x, end + 29, inches(height), "", "middle"),
    )
    return [compact(Path(tuple(way), "line")), Group(words, "words")]
