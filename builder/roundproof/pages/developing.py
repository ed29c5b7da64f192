"""A photo in the sizes and forms that a page shows: upright, in the colours of screens, and with
nothing in it but the picture.

What a camera writes beside the picture (place, time, maker, a small copy) does not come along: the
pixels alone are written anew. Sizes are WebP; a browser that does not know it gets one JPEG, or a
PNG of what is drawn or see-through. AVIF as quick as it can be written is hardly smaller, and would
take a noisy photo over the time that it may take (`tests/bench/photos.py`).
"""

from __future__ import annotations

import io
import warnings
from pathlib import Path
from typing import TYPE_CHECKING

from roundproof.checks._pictures import MOST_PIXELS
from roundproof.frozen import dataclass

if TYPE_CHECKING:
    from PIL.Image import Image

WIDTHS = (480, 880, 1280)
"""Pixels: a column at one and at two pixels a point, and a phone's at three."""
FALLBACK = 880
APART = 1.25
"""A size that is hardly larger than the next is not worth a file."""
FORMATS = ("JPEG", "PNG", "WEBP")
FEW_COLOURS = 4096
"""Up to which a picture counts as drawn: it keeps its sharp edges."""
RECIPE = "1"
"""A new number wherever the same photo would come out otherwise."""

_TURNS = (
    None, None, "FLIP_LEFT_RIGHT", "ROTATE_180", "FLIP_TOP_BOTTOM",
    "TRANSPOSE", "ROTATE_270", "TRANSVERSE", "ROTATE_90",
)  # fmt: skip
"""What turns a picture upright, by the orientation that it tells (Exif 2.32, tag 0x0112)."""
_ORIENTATION = 0x0112


@dataclass(frozen=True, slots=True)
class Rendition:
    """One size of a picture as a file; `ending` is that of its name."""

    width: int
    height: int
    ending: str
    data: bytes


@dataclass(frozen=True, slots=True)
class Developed:
    """All sizes of a photo in the modern form, the smallest first, and the one for all others."""

    sizes: tuple[Rendition, ...]
    fallback: Rendition


class Unfit(Exception):
    """Why a photo cannot be shown: words that follow its name."""


def developed(path: Path) -> Developed:
    """All files made of a photo. Raises Unfit."""
    from PIL import Image, UnidentifiedImageError

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            with Image.open(path, formats=FORMATS) as opened:
                if opened.width * opened.height > MOST_PIXELS:
                    raise Unfit(_too_many_pixels())
                return _developed(opened)
    except (Image.DecompressionBombError, Image.DecompressionBombWarning):
        raise Unfit(_too_many_pixels()) from None
    except UnidentifiedImageError:
        raise Unfit("is no JPEG, PNG or WebP file") from None
    except (OSError, SyntaxError, ValueError, EOFError):
        raise Unfit("is damaged") from None


def _too_many_pixels() -> str:
    return f"has more than {MOST_PIXELS // 1_000_000} million pixels"


def _developed(opened: Image) -> Developed:
    widest, drawn = _upright(opened)
    widths = [w for w in WIDTHS[:-1] if w * APART <= widest.width] + [widest.width]
    shrunk = {width: _shrunk(widest, width) for width in widths}
    sizes = tuple(_webp(image, lossless=drawn) for image in shrunk.values())
    plain = shrunk.get(FALLBACK, widest)
    as_png = drawn or "A" in widest.mode
    return Developed(sizes, _png(plain) if as_png else _jpeg(plain))


def _upright(opened: Image) -> tuple[Image, bool]:
    """The picture at the widest that a page shows, upright, in the colours that screens expect; and
    whether it is drawn."""
    from PIL import Image as Images

    turn = _turn(opened)
    across, down = opened.size
    lies = turn in ("TRANSPOSE", "ROTATE_270", "TRANSVERSE", "ROTATE_90")
    scale = min(WIDTHS[-1] / (down if lies else across), 1.0)
    size = (max(1, round(across * scale)), max(1, round(down * scale)))
    # A JPEG can be decoded at a fraction of its size, which is quick and as sharp.
    opened.draft(None, size)
    plain = _plain(opened)
    drawn = opened.format in ("PNG", "WEBP") and plain.getcolors(FEW_COLOURS) is not None
    small = plain
    if plain.size != size:
        small = plain.resize(size, Images.Resampling.LANCZOS, reducing_gap=3.0)
    coloured = _standard_colours(small, opened.info.get("icc_profile"))
    method = getattr(Images.Transpose, turn) if turn else None
    return (coloured if method is None else coloured.transpose(method)), drawn


def _turn(opened: Image) -> str | None:
    told = opened.getexif().get(_ORIENTATION)
    return _TURNS[told] if isinstance(told, int) and 0 < told < len(_TURNS) else None


def _plain(opened: Image) -> Image:
    """Decoded, one channel a colour and eight bits a channel."""
    if opened.mode.startswith("I;16"):
        return opened.convert("I").point(lambda value: value * (1 / 256)).convert("L")
    if opened.mode == "I":
        return opened.point(lambda value: value * (1 / 256)).convert("L")
    if "transparency" in opened.info:
        return opened.convert("RGBA")
    if opened.mode in ("P", "1"):
        return opened.convert("RGB" if opened.mode == "P" else "L")
    opened.load()
    return opened


def _standard_colours(image: Image, profile: bytes | None) -> Image:
    """As RGB or RGBA of screens (sRGB). A broken profile leaves the colours as they are."""
    from PIL import ImageCms

    see_through = image.getchannel("A") if "A" in image.getbands() else None
    base = image.convert({"LA": "L", "RGBA": "RGB"}.get(image.mode, image.mode))
    changed: Image | None = None
    if profile and base.mode in ("RGB", "CMYK", "L"):
        try:
            own = ImageCms.ImageCmsProfile(io.BytesIO(profile))
            screen = ImageCms.createProfile("sRGB")
            changed = ImageCms.profileToProfile(base, own, screen, outputMode="RGB")
        except (ImageCms.PyCMSError, OSError):
            changed = None
    made = changed or base.convert("RGB")
    if see_through is not None:
        made.putalpha(see_through)
    made.info.clear()
    return made


def _shrunk(image: Image, width: int) -> Image:
    from PIL import Image as Images

    if width == image.width:
        return image
    height = max(1, round(image.height * width / image.width))
    return image.resize((width, height), Images.Resampling.LANCZOS)


def _webp(image: Image, *, lossless: bool) -> Rendition:
    return _written(image, "webp", "WEBP", quality=80, method=2, lossless=lossless)


def _jpeg(image: Image) -> Rendition:
    return _written(image, "jpg", "JPEG", quality=80, progressive=True, optimize=True)


def _png(image: Image) -> Rendition:
    return _written(image, "png", "PNG", optimize=True)


def _written(image: Image, ending: str, kind: str, **how: object) -> Rendition:
    out = io.BytesIO()
    image.save(out, kind, **how)
    return Rendition(image.width, image.height, ending, out.getvalue())
