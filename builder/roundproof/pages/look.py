"""A site's own colours, as its mkdocs.yml tells them, held to the contrasts of the theme's.

`accent` is the colour of links, boxes and ticks; `strip` the tint behind the drawings. One shade is
made darker or lighter for the other grounds; shades told ground by ground are taken as they are, or
refused with what would do.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import partial

from roundproof.drawing.colour import (
    ENHANCED,
    GROUNDS,
    RGB,
    STEPS,
    Ground,
    accent,
    contrast,
    mix,
    pale,
    read_shade,
    write_shade,
)
from roundproof.drawing.yarns import BARE_SHADE
from roundproof.frozen import dataclass, replace
from roundproof.pages.yarns import by_ground

GRAPHICS = 3.0
"""What the same guidelines (WCAG 2.x) set for the edges of boxes."""

OWN_SHEET = "css/own.css"
"""Where the style sheet of a site's own colours stands."""
_ACCENT: RGB = (0x1F, 0x4C, 0x58)
"""The theme's own, on white."""

# Of each ground the colours of captions and of boxes, as in the theme's tokens.css; a test holds
# them together.
LABELS: dict[str, tuple[RGB, RGB]] = {
    "white": ((0x3C, 0x4C, 0x56), (0x56, 0x69, 0x70)),
    "cream": ((0x47, 0x46, 0x39), (0x66, 0x5F, 0x47)),
    "dark": ((0xB7, 0xC4, 0xC5), (0x85, 0x9A, 0xA1)),
}


SHARES = {"cream": 0.4, "dark": 0.12}
"""How much of a strip's shade the tints of the other grounds take."""


@dataclass(frozen=True, slots=True)
class Look:
    """The grounds with the site's own strips, and the style sheet that says so; empty for the
    theme's colours. `accent` is that of the white ground."""

    grounds: tuple[Ground, ...] = GROUNDS
    sheet: str = ""
    accent: RGB = _ACCENT


THEME = Look()


def look(accent_told: object, strip_told: object) -> tuple[Look, tuple[str, ...]]:
    """The look that `accent` and `strip` tell, and in sentences what is wrong with them; what is
    wrong is left as the theme has it."""
    if accent_told is None and strip_told is None:
        return THEME, ()
    troubles: list[str] = []
    strips = _told("strip", strip_told, troubles)
    grounds = tuple(
        replace(ground, strip=shade)
        for ground, shade in zip(GROUNDS, _strips(strips, troubles), strict=True)
    )
    accents = tuple(_accents(_told("accent", accent_told, troubles), grounds, troubles))
    rules = [_rules(ground, shade) for ground, shade in zip(grounds, accents, strict=True)]
    return Look(grounds, by_ground(*rules), accents[0]), tuple(troubles)


Told = Mapping[str, RGB]
"""Shades by ground; one that is told for all stands under "all"."""


def _told(key: str, told: object, troubles: list[str]) -> Told:
    given = told if isinstance(told, dict) else {} if told is None else {"all": told}
    shades: dict[str, RGB] = {}
    for ground, text in given.items():
        where = f"theme: {key}:" + ("" if ground == "all" else f" {ground}:")
        shade = read_shade(text) if isinstance(text, str) else None
        if ground not in LABELS and ground != "all":
            troubles.append(f"{where} there is no such ground; there are white, cream and dark.")
        elif shade is None:
            said = "is empty" if text is None else f"{text!r} is no colour code"
            troubles.append(f'{where} {said}: write one in quotes, as "#8a2f4e".')
        else:
            shades[ground] = shade
    return shades


def _strips(told: Told, troubles: list[str]) -> Iterator[RGB]:
    """The white ground shows one shade for all as it is; the others have a share of it in their
    own tint, as much of it as does."""
    for ground in GROUNDS:
        shade, does = told.get(ground.name), partial(_does, ground)
        if shade is None and "all" in told and ground.name != "white":
            tint = mix(told["all"], ground.strip, SHARES[ground.name])
            yield _nearest(tint, ground.strip, does)
            continue
        shade = shade or told.get("all", ground.strip)
        if fault := _strip_fault(shade, ground):
            better = _nearest(shade, ground.paper, does)
            troubles.append(_refused("strip", ground, shade, fault, better))
        yield ground.strip if fault else shade


def _does(ground: Ground, shade: RGB) -> bool:
    return not _strip_fault(shade, ground)


def _strip_fault(shade: RGB, ground: Ground) -> str:
    """Why a tint cannot lie under the words; empty if it can."""
    caption, box = LABELS[ground.name]
    for what, colour, needed in (
        ("words", ground.ink, ENHANCED),
        ("captions", caption, ENHANCED),
        ("the edges of boxes", box, GRAPHICS),
    ):
        if (there := contrast(colour, shade)) < needed:
            return f"{what} on it have a contrast of {_down(there)}, and {needed:g} is needed"
    return ""


def _accents(told: Told, grounds: tuple[Ground, ...], troubles: list[str]) -> Iterator[RGB]:
    for ground in grounds:
        shade = told.get(ground.name)
        if shade is None:
            yield accent(told.get("all", _ACCENT), ground)
            continue
        there = min(contrast(shade, under) for under in (ground.paper, ground.strip, ground.buff))
        if there < ENHANCED:
            fault = f"links in it have a contrast of {_down(there)}, and {ENHANCED:g} is needed"
            troubles.append(_refused("accent", ground, shade, fault, accent(shade, ground)))
        yield accent(shade, ground)


def _down(value: float) -> str:
    """To one decimal, never rounded up to what is needed."""
    return f"{int(value * 10) / 10:g}"


def _refused(key: str, ground: Ground, shade: RGB, fault: str, better: RGB) -> str:
    return (
        f'theme: {key}: "{write_shade(shade).lower()}" does not do on the {ground.name} ground:'
        f' {fault}. "{write_shade(better).lower()}" would do.'
    )


def _nearest(shade: RGB, end: RGB, good: Callable[[RGB], bool]) -> RGB:
    """The shade, with as much of `end` in it as makes it good."""
    tones = (mix(end, shade, step / STEPS) for step in range(STEPS + 1))
    return next((tone for tone in tones if good(tone)), end)


def _rules(ground: Ground, shade: RGB) -> str:
    axis = mix(ground.ink, ground.strip, 0.26)
    bare = pale(BARE_SHADE, ground)
    named = {"strip-tint": ground.strip, "axis": axis, "accent": shade, "bare-pale": bare}
    return "; ".join(f"--{name}: {write_shade(colour)}" for name, colour in named.items())
