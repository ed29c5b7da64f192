"""Colours that can be told apart: contrast by the published formula, and tones made to meet it.

Relative luminance and contrast ratio are those of the Web Content Accessibility Guidelines 2.x
(W3C), which set 4.5 for text, 3 for large text and graphics, 7 for enhanced text.
"""

from __future__ import annotations

import re

from roundproof.frozen import dataclass

RGB = tuple[int, int, int]

BLACK: RGB = (0, 0, 0)
WHITE: RGB = (255, 255, 255)
TEXT, ENHANCED = 4.5, 7.0
STEPS = 100

_SHADE = re.compile(r"#(?:[0-9a-f]{3}|[0-9a-f]{6})", re.I)


def read_shade(text: str | None) -> RGB | None:
    """The colour of `#RGB` or `#RRGGBB`; None for anything else."""
    if text is None or not _SHADE.fullmatch(text.strip()):
        return None
    digits = text.strip()[1:]
    if len(digits) == 3:
        digits = "".join(2 * d for d in digits)
    return int(digits[0:2], 16), int(digits[2:4], 16), int(digits[4:6], 16)


def write_shade(colour: RGB) -> str:
    return "#{:02X}{:02X}{:02X}".format(*colour)


def luminance(colour: RGB) -> float:
    """Relative luminance, 0 for black to 1 for white."""
    red, green, blue = (_linear(channel / 255) for channel in colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(channel: float) -> float:
    return channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4


def contrast(one: RGB, other: RGB) -> float:
    """Contrast ratio, 1 to 21, whichever is the lighter."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def mix(colour: RGB, into: RGB, share: float) -> RGB:
    """So much of `colour` in `into`: 0 gives `into`, 1 gives `colour`."""
    red, green, blue = (round(b + (a - b) * share) for a, b in zip(colour, into, strict=True))
    return red, green, blue


@dataclass(frozen=True, slots=True)
class Ground:
    """What lies under a page's words: the paper, the strip of the drawings, the buff of a warning;
    `ink` writes on all of them. `share` is how much of a yarn's shade a pale bar has."""

    name: str
    paper: RGB
    strip: RGB
    buff: RGB
    ink: RGB
    share: float


def _ground(name: str, paper: str, strip: str, buff: str, ink: str, share: float) -> Ground:
    one, two, three, four = (read_shade(text) or BLACK for text in (paper, strip, buff, ink))
    return Ground(name, one, two, three, four, share)


# The same values as in the theme's tokens.css; a test holds them together.
GROUNDS = (
    _ground("white", "#FFFFFF", "#E3EDEB", "#F5ECCB", "#14212B", 0.38),
    _ground("cream", "#FCF6E4", "#EFE7CF", "#F3E3B4", "#1C1F1A", 0.38),
    _ground("dark", "#10191E", "#1B2A30", "#2F2C1A", "#E9EFEC", 0.42),
)


def on(shade: RGB) -> RGB:
    """Black or white, whichever reads better on the shade; one of them always has 4.5."""
    return max(BLACK, WHITE, key=lambda letter: contrast(letter, shade))


def pale(shade: RGB, ground: Ground) -> RGB:
    """The shade in the strip's tint, as much of it as lets the ink be read."""
    for step in range(STEPS, -1, -1):
        tone = mix(shade, ground.strip, ground.share * step / STEPS)
        if contrast(ground.ink, tone) >= TEXT:
            return tone
    return ground.strip


def accent(shade: RGB, ground: Ground) -> RGB:
    """The shade, darker or lighter until words in it can be read on all that lies under them."""
    under = (ground.paper, ground.strip, ground.buff)
    end = WHITE if luminance(ground.paper) < luminance(ground.ink) else BLACK
    for step in range(STEPS + 1):
        tone = mix(end, shade, step / STEPS)
        if all(contrast(tone, back) >= ENHANCED for back in under):
            return tone
    return end


def grey(shade: RGB) -> RGB:
    """The shade on black-and-white paper: light enough to write on, darker shades still darker."""
    level = round(0xB4 + (0xFF - 0xB4) * (contrast(shade, BLACK) - 1) / 20)
    return level, level, level
