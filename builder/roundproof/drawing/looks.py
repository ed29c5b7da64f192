"""How the classes of shapes look where no style sheet reaches: in a drawing that is a file.

A drawing within a page takes its look from the theme's drawings.css. One in a file of its own is
shown by programs that know nothing of that, and by pages whose policy lets no style through, so
each class is written out as attributes there; the style for dark grounds, which may be left out,
stands beside them.
"""

from __future__ import annotations

from collections.abc import Mapping

from roundproof.drawing.colour import GROUNDS, RGB, Ground, mix, on, pale, write_shade
from roundproof.frozen import dataclass

WHITE, _, DARK = GROUNDS
FONT = "Andika, Verdana, sans-serif"

Look = Mapping[str, str]
"""Attributes of SVG with their values."""


@dataclass(frozen=True, slots=True)
class Looks:
    """The look of each class on white, and what differs on a dark ground."""

    light: dict[str, Look]
    dark: Mapping[str, Look]


def without_ink(shades: Mapping[str, RGB]) -> Looks:
    """The same where ink is saved: yarns are white, and told by their letters alone."""
    found = looks(shades)
    white = {"fill": write_shade(WHITE.paper)}
    return Looks(found.light | dict.fromkeys(shades, white), {})


def looks(shades: Mapping[str, RGB]) -> Looks:
    """The classes of all drawings; `shades` are those of a pattern's yarns by class ("y1")."""
    light, dark = dict(_both(WHITE)), dict(_both(DARK))
    for css, shade in shades.items():
        light[css] = {"fill": write_shade(pale(shade, WHITE))}
        dark[css] = {"fill": write_shade(pale(shade, DARK))}
        light[f"{css}-full"] = dark[f"{css}-full"] = {"fill": write_shade(shade)}
        light[f"{css}-on"] = dark[f"{css}-on"] = {"fill": write_shade(on(shade))}
    changed = {
        css: {name: value for name, value in look.items() if light[css].get(name) != value}
        for css, look in dark.items()
        if light[css] != look
    }
    return Looks(light, changed)


def _both(ground: Ground) -> Mapping[str, Look]:
    """`line` is a hairline, `thin` finer, `edge` firm, `faint` what is there for help, `hatch` says
    that something does not lie flat, `dots` are strokes without length, `words` are letters, `here`
    is about the round in work, `set` is what is set on a piece: words are read on it."""
    line, half = write_shade(ground.ink), write_shade(mix(ground.ink, ground.paper, 0.45))
    lettered = {"fill": line, "stroke": "none", "font-family": FONT}
    drawn = {"fill": "none", "stroke-linecap": "round", "stroke-linejoin": "round"}
    return {
        "line": drawn | {"stroke": line, "stroke-width": "1"},
        "thin": drawn | {"stroke": line, "stroke-width": "0.5"},
        "edge": drawn | {"stroke": line, "stroke-width": "1.8"},
        "faint": drawn | {"stroke": half, "stroke-width": "0.8"},
        "dashed": drawn | {"stroke": line, "stroke-width": "1", "stroke-dasharray": "4 3"},
        "hatch": drawn | {"stroke": line, "stroke-width": "0.9"},
        "dots": drawn | {"stroke": line, "stroke-width": "3.6"},
        "set": {
            "fill": write_shade(mix(ground.ink, ground.paper, 0.2)),
            "stroke": line,
            "stroke-width": "1.4",
        },
        "yarn": {"stroke": line, "stroke-width": "0.8"},
        "inner": {"stroke": "none"},
        "seam": drawn | {"stroke": half, "stroke-width": "0.4"},
        "scale": drawn | {"stroke": line, "stroke-width": "1.2"},
        "eye": {"fill": line},
        "here": drawn | {"stroke": line, "stroke-width": "2.5", "visibility": "hidden"},
        "solid": {"fill": line},
        "paper": {"fill": write_shade(ground.paper)},
        "words": lettered | {"font-size": "12"},
        "strong": lettered | {"font-size": "12", "font-weight": "700"},
        "label": lettered | {"font-size": "24"},
        "letter": lettered | {"font-size": "13", "font-weight": "700"},
    }
