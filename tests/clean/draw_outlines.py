"""Draws the pictures of the patterns in this folder from their own rounds.

Each shows the pieces side by side to one scale, every round a stroke as wide as it is measured and
in its yarn; a piece that lies flat is seen from above. They are drawings, and their words say so.

Run by hand, `python tests/clean/draw_outlines.py`; the files it writes are kept with the patterns.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from PIL import Image, ImageDraw

from roundproof.fabric.edges import yarn_of
from roundproof.measure.model import Form, PieceSize
from roundproof.pipeline import prove
from roundproof.proof import Proof

HERE = Path(__file__).parent
GROUND, EDGE = "#FCF6E4", "#6A665A"
WIDE, HIGH, MARGIN = 480, 240, 12
FLAT = 0.5
"""A piece that rises less than this share of its radius is shown from above."""


def slugs() -> list[str]:
    return sorted(path.parent.name for path in HERE.glob("*/pattern.yaml"))


def file_of(slug: str) -> Path:
    return HERE / slug / "photos" / "outlines.png"


def picture(slug: str) -> Image.Image:
    """The pieces of one pattern, in the order in which they are made."""
    (result,) = prove(HERE / slug).files
    assert result.proof is not None
    sizes = [s for s in result.proof.measures.pieces.values() if s.outline]
    room = sum(_width(s) for s in sizes), max(map(_height, sizes))
    across = WIDE - MARGIN * (len(sizes) + 1)
    scale = min(across / room[0], (HIGH - 2 * MARGIN) / room[1])
    sheet = Image.new("RGB", (WIDE, HIGH), GROUND)
    pen = ImageDraw.Draw(sheet)
    gap = (WIDE - room[0] * scale) / (len(sizes) + 1)
    left = gap
    for size in sizes:
        shades = list(_shades(result.proof, size))
        middle = left + _width(size) * scale / 2
        draw = _from_above if _lies(size) else _from_the_side
        draw(pen, size, shades, middle, scale)
        left += _width(size) * scale + gap
    return sheet.quantize(32, dither=Image.Dither.NONE)


def _from_the_side(
    pen: ImageDraw.ImageDraw,
    piece: PieceSize,
    shades: list[str],
    middle: float,
    scale: float,
) -> None:
    lower = 0.0
    reach = piece.outline[-1].height_mm * scale
    foot = (HIGH + reach) / 2
    for size, shade in zip(piece.outline, shades, strict=True):
        half = max((size.radius_mm + _straight(piece) / 2) * scale, 1)
        top, base = foot - size.height_mm * scale, foot - lower * scale
        pen.rectangle((middle - half, min(top, base), middle + half, base), shade, EDGE)
        lower = size.height_mm


def _from_above(
    pen: ImageDraw.ImageDraw,
    piece: PieceSize,
    shades: list[str],
    middle: float,
    scale: float,
) -> None:
    rounds = sorted(zip(piece.outline, shades, strict=True), key=lambda pair: -pair[0].radius_mm)
    for size, shade in rounds:
        high = size.radius_mm * scale
        wide = high + _straight(piece) / 2 * scale
        box = (middle - wide, HIGH / 2 - high, middle + wide, HIGH / 2 + high)
        pen.rounded_rectangle(box, high, shade, EDGE)


def _lies(size: PieceSize) -> bool:
    return size.form is not Form.ROWS and size.outline[-1].height_mm < FLAT * _radius(size)


def _radius(size: PieceSize) -> float:
    return max(r.radius_mm for r in size.outline)


def _straight(size: PieceSize) -> float:
    """The straight side of an oval."""
    if size.form is not Form.OVAL or size.length_mm is None or size.diameter_mm is None:
        return 0.0
    return size.length_mm - size.diameter_mm


def _width(size: PieceSize) -> float:
    return 2 * _radius(size) + _straight(size)


def _height(size: PieceSize) -> float:
    return 2 * _radius(size) if _lies(size) else max(r.height_mm for r in size.outline)


def _shades(proof: Proof, size: PieceSize) -> Iterator[str]:
    """The colour of every round, that of most of its stitches."""
    for worked in proof.fabric.pieces[size.piece].rounds:
        yarn = proof.pattern.yarn(yarn_of(worked) or "")
        shade = yarn.shade.value if yarn and yarn.shade else GROUND
        yield from [shade] * worked.rounds


def main() -> None:
    """Write every picture."""
    for slug in slugs():
        file = file_of(slug)
        file.parent.mkdir(exist_ok=True)
        picture(slug).save(file, optimize=True)
        print(f"{slug}, {file.stat().st_size} bytes")


if __name__ == "__main__":
    main()
