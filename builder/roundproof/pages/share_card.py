"""The picture that stands beside a link to a pattern: its drawing, its title, the site's name.

1200 by 630 pixels, as readers of the Open Graph protocol (ogp.me) show it whole. The shapes are
drawn by resvg from the same SVG as the page's; the words by Pillow in the theme's own fonts. The
same pattern gives the same bytes.
"""

from __future__ import annotations

import io
import re
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING

from roundproof.drawing.colour import GROUNDS, RGB, Ground, mix, on, write_shade
from roundproof.drawing.yarns import shades_of
from roundproof.frozen import dataclass
from roundproof.pages.plate import plate
from roundproof.pages.values import PatternPage
from roundproof.proof import Proof

if TYPE_CHECKING:
    from PIL.ImageDraw import ImageDraw
    from PIL.ImageFont import FreeTypeFont

WIDTH, HEIGHT = 1200, 630
CARD = "share.png"
"""Its name in the folder of a pattern, and in that of the site."""
STRIP = 520
"""Pixels of the tinted strip, in whose middle the axis runs."""
MARGIN, LEFT = 56, STRIP + 60
LARGEST, SMALLEST, LINES = 104, 44, 4
"""Pixels of the title's letters, and the lines that it may have."""
SEAL = (
    "M0 -3.2L0 -7.6M2.77 -1.6L6.58 -3.8M2.77 1.6L6.58 3.8M0 3.2L0 7.6M-2.77 1.6L-6.58 3.8"
    "M-2.77 -1.6L-6.58 -3.8M2.95 -11.01L4.5 -16.81M8.06 -8.06L12.3 -12.3M11.01 -2.95L16.81 -4.5"
    "M11.01 2.95L16.81 4.5M8.06 8.06L12.3 12.3M2.95 11.01L4.5 16.81M-2.95 11.01L-4.5 16.81"
    "M-8.06 8.06L-12.3 12.3M-11.01 2.95L-16.81 4.5M-11.01 -2.95L-16.81 -4.5"
    "M-8.06 -8.06L-12.3 -12.3M-2.95 -11.01L-4.5 -16.81"
)
"""The theme's seal; a test holds it to the one in parts/signs.html."""
_BOX = re.compile(r'<svg[^>]* viewBox="([-\d. ]+)"')
DISPLAY, TEXT = "old-standard-tt-latin-400-normal", "andika-latin-400-normal"


@dataclass(frozen=True, slots=True)
class Card:
    """`drawing` is the pattern's plate as SVG, of `box` (x, y, width, height), with its yarns'
    shades by their classes; empty for a pattern whose rounds are not shown."""

    title: str
    name: str = ""
    site: str = ""
    drawing: str = ""
    box: tuple[float, float, float, float] = (0, 0, 1, 1)
    shades: tuple[tuple[str, RGB], ...] = ()


def card_of(proof: Proof, page: PatternPage) -> Card:
    """Of a pattern; the site's name comes with the site. The drawing is that of its page: of a
    pattern whose rounds are sold elsewhere, rough outlines."""
    specimen = proof.pattern.specimen
    told = specimen.scientific.value if specimen and specimen.scientific else ""
    # The species alone; who described it and when would not fit.
    name = " ".join(told.partition("(")[0].split()[:2])
    drawn = plate(proof)
    box = _BOX.search(drawn.svg) if drawn else None
    if drawn is None or box is None:
        return Card(page.title, name)
    x, y, width, height = map(float, box[1].split())
    shades = tuple(shades_of(proof.pattern).items())
    return Card(page.title, name, "", str(drawn.svg), (x, y, width, height), shades)


def site_card(name: str) -> Card:
    """Of a site, for pages that have no drawing of their own."""
    return Card(name)


def share_card(card: Card, ground: Ground = GROUNDS[0]) -> bytes:
    """The picture as a PNG file."""
    from PIL import Image, ImageDraw

    image = Image.open(io.BytesIO(_shapes(card, ground))).convert("RGB")
    draw = ImageDraw.Draw(image)
    _words(draw, card, ground)
    out = io.BytesIO()
    # Flat shapes and soft edges: 128 tones show no difference, and a third of the bytes.
    image.quantize(128, method=Image.Quantize.MEDIANCUT, dither=Image.Dither.NONE).save(
        out, "PNG", optimize=True
    )
    return out.getvalue()


# ---- shapes ----
def _shapes(card: Card, ground: Ground) -> bytes:
    import resvg_py

    ink, strip = write_shade(ground.ink), write_shade(ground.strip)
    middle = STRIP / 2
    axis = write_shade(mix(ground.ink, ground.strip, 0.3))
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH}" height="{HEIGHT}">'
        f'<rect width="{WIDTH}" height="{HEIGHT}" fill="{write_shade(ground.paper)}"/>'
        f'<rect width="{STRIP}" height="{HEIGHT}" fill="{strip}"/>'
        f'<path d="M{middle} 0V{HEIGHT}" stroke="{axis}"/>'
        f"{_drawing(card, strip, ink)}"
        f'<g transform="translate({LEFT + 22} {HEIGHT - MARGIN - 22}) scale(1.3)">'
        f'<path d="{SEAL}" fill="none" stroke="{ink}" stroke-width="2.6"/></g></svg>'
    )
    drawn: bytes = bytes(
        resvg_py.svg_to_bytes(
            svg_string=svg, style_sheet=_sheet(card, ground), skip_system_fonts=True
        )
    )
    return drawn


def _drawing(card: Card, strip: str, ink: str) -> str:
    """The plate in the middle of the strip; without one, the seal stands there, large."""
    room = STRIP - 2 * MARGIN
    if not card.drawing:
        middle = f"translate({STRIP / 2} {HEIGHT / 2}) scale(7)"
        return (
            f'<g transform="{middle}"><circle r="20" fill="{strip}"/>'
            f'<path d="{SEAL}" fill="none" stroke="{ink}" stroke-width="2"/></g>'
        )
    x, y, width, height = card.box
    return (
        f'<svg x="{MARGIN}" y="{MARGIN}" width="{room}" height="{HEIGHT - 2 * MARGIN}"'
        f' viewBox="{x} {y} {width} {height}">{_inside(card.drawing)}</svg>'
    )


def _inside(svg: str) -> str:
    """What stands between the tags of the whole drawing, without its title."""
    body = svg[svg.index(">") + 1 : svg.rindex("</svg>")]
    return body.partition("</title>")[2] if body.startswith("<title") else body


def _sheet(card: Card, ground: Ground) -> str:
    """The theme's drawings.css for this one picture; lines keep their width at any scale."""
    room, height = STRIP - 2 * MARGIN, HEIGHT - 2 * MARGIN
    scale = min(room / card.box[2], height / card.box[3]) if card.drawing else 1.0
    ink, line = write_shade(ground.ink), 1 / scale
    rules = [
        ".axis { display: none }",  # the strip has one, from edge to edge
        f".yarn {{ stroke: {ink}; stroke-width: {2 * line:.4f} }}",
        f".seam {{ fill: none; stroke-width: {1.1 * line:.4f}; opacity: .6 }}",
        ".scale { display: none }",  # its length is told in the caption on the page
        f".eye {{ fill: #0E171D; stroke: #FFFFFF; stroke-width: {1.6 * line:.4f} }}",
    ]
    for css, shade in card.shades:
        rules.append(f".yarn.{css} {{ fill: {write_shade(shade)} }}")
        rules.append(f".seam.{css} {{ stroke: {write_shade(on(shade))} }}")
    return "\n".join([*rules, ".inner { stroke: none }"])


# ---- words ----
def _words(draw: ImageDraw, card: Card, ground: Ground) -> None:
    room, ink = WIDTH - LEFT - MARGIN, ground.ink
    soft = mix(ground.ink, ground.paper, 0.82)
    font, lines = _set(card.title, room)
    step = round(font.size * 1.08)
    name = _shown(card.name, DISPLAY, 40)
    tall = step * len(lines) + (64 if name else 0)
    top = max(MARGIN, (HEIGHT - 2 * MARGIN - tall) / 2 + MARGIN / 2)
    for number, line in enumerate(lines):
        draw.text((LEFT, top + number * step), line, ink, font)
    if name:
        draw.text(
            (LEFT, top + step * len(lines) + 16), _cut(name, 40, room), soft, _font(DISPLAY, 40)
        )
    site = _shown(card.site, TEXT, 30)
    draw.text(
        (LEFT + 62, HEIGHT - MARGIN - 22),
        _cut(site, 30, room - 62, TEXT),
        ink,
        _font(TEXT, 30),
        "lm",
    )


def _set(title: str, room: int) -> tuple[FreeTypeFont, list[str]]:
    """The largest letters in which the title fits; what fits in none is cut."""
    words = _shown(title, DISPLAY, LARGEST).split()
    for size in range(LARGEST, SMALLEST - 1, -4):
        font = _font(DISPLAY, size)
        lines = _lines(words, font, room)
        fits = all(font.getlength(line) <= room for line in lines)
        if fits and len(lines) * size * 1.08 <= HEIGHT - 4 * MARGIN:
            return font, lines
    font = _font(DISPLAY, SMALLEST)
    lines = [_cut(line, SMALLEST, room) for line in _lines(words, font, room)]
    return font, lines[:LINES]


def _lines(words: list[str], font: FreeTypeFont, room: int) -> list[str]:
    lines: list[str] = []
    for word in words:
        if lines and font.getlength(f"{lines[-1]} {word}") <= room:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines


def _cut(text: str, size: int, room: float, face: str = DISPLAY) -> str:
    font = _font(face, size)
    if font.getlength(text) <= room:
        return text
    while text and font.getlength(text + "…") > room:
        text = text[:-1]
    return text + "…"


def _shown(text: str, face: str, size: int) -> str:
    """The text, if the font has a letter for each of its characters; a row of empty boxes says
    less than nothing."""
    font = _font(face, size)
    plain = " ".join(text.split())[:200]
    return plain if all(c == " " or _has(font, c) for c in plain) else ""


def _has(font: FreeTypeFont, character: str) -> bool:
    missing = font.getmask("\ufffe")
    mask = font.getmask(character)
    return not (mask.size == missing.size and bytes(mask) == bytes(missing))


@cache
def _font(face: str, size: int) -> FreeTypeFont:
    from PIL import ImageFont

    path = files("roundproof.theme") / "fonts" / f"{face}.woff2"
    # The plain layout is the same everywhere; another one may be there or not.
    opened = io.BytesIO(path.read_bytes())
    return ImageFont.truetype(opened, size, layout_engine=ImageFont.Layout.BASIC)
