"""The signs of stitches in charts, each as tall as its stitch.

The shapes are those of JIS L 0201:1995 and of the Craft Yarn Council's crochet chart symbols
(2018): an open oval, a filled one, a cross, and a T with a slash for each yarn over of the taller
stitches. Those on which published charts disagree are left away.
"""

from __future__ import annotations

from math import cos, pi, sin

from roundproof.drawing.shapes import Path, Shape, polygon

SLASHES = {"hdc": 0, "dc": 1, "tr": 2, "dtr": 3}
"""How many slashes go through the stem of a T."""
KNOWN = ("ch", "sl st", "sc", *SLASHES)


def symbol(stitch: str, width: float, height: float) -> list[Shape]:
    """The sign in a box from (0, 0), the top of the stitch at y = 0; nothing for one unknown."""
    middle = width / 2
    match stitch:
        case "ch":
            return [_oval(middle, height / 2, 0.45 * width, 0.25 * width, "sign")]
        case "sl st":
            return [_oval(middle, height / 2, 0.3 * width, 0.15 * width, "sign solid")]
        case "sc":
            reach = 0.32 * width
            return [
                _line(middle - reach, height / 2 - reach, middle + reach, height / 2 + reach),
                _line(middle - reach, height / 2 + reach, middle + reach, height / 2 - reach),
            ]
    return _stem(SLASHES[stitch], middle, width, height) if stitch in SLASHES else []


def _stem(slashes: int, middle: float, width: float, height: float) -> list[Shape]:
    inset, reach = 0.12 * width, 0.32 * width
    bar = _line(middle - reach, inset, middle + reach, inset)
    stem = _line(middle, inset, middle, height - inset)
    first = height / 2 - 0.11 * width * (slashes - 1)
    across = (first + 0.22 * width * place for place in range(slashes))
    cuts = [
        _line(middle - 0.2 * width, y - 0.12 * width, middle + 0.2 * width, y + 0.12 * width)
        for y in across
    ]
    return [bar, stem, *cuts]


def _line(x1: float, y1: float, x2: float, y2: float) -> Path:
    return Path((("M", x1, y1), ("L", x2, y2)), "sign")


def _oval(x: float, y: float, across: float, down: float, css: str) -> Path:
    turns = [2 * pi * step / 24 for step in range(24)]
    return polygon([(x + across * cos(turn), y + down * sin(turn)) for turn in turns], css)
