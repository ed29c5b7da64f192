"""Photos made ready for a page: turned upright, in two widths, and nothing in them but the picture.

What a camera writes beside the picture (place, time, maker, a small copy) does not come along: the
pixels alone are written anew.
"""

from __future__ import annotations

import io
import re
import warnings
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TYPE_CHECKING

from roundproof.frozen import dataclass
from roundproof.writing.slug import slug

if TYPE_CHECKING:
    from PIL.Image import Image

WIDTHS = (480, 1280)
"""Pixels: a phone's column, and the widest a page shows at two pixels a point."""
MOST_BYTES = 60_000_000
MOST_PIXELS = 80_000_000
"""Above these a file is no photo for a page: unpacking it could exhaust the memory."""
FORMATS = ("JPEG", "PNG", "WEBP")
FOLDER = "photos"
"""Where a pattern keeps its photos, and where its page finds them."""


@dataclass(frozen=True, slots=True)
class Rendition:
    """One size of a picture as a file: `address` is relative to the pattern's page."""

    address: str
    width: int
    height: int
    data: bytes


@dataclass(frozen=True, slots=True)
class Picture:
    """A photo in all its sizes, the smallest first."""

    renditions: tuple[Rendition, ...]

    @property
    def src(self) -> str:
        return self.renditions[-1].address

    @property
    def srcset(self) -> str:
        return ", ".join(f"{r.address} {r.width}w" for r in self.renditions)

    @property
    def width(self) -> int:
        return self.renditions[-1].width

    @property
    def height(self) -> int:
        return self.renditions[-1].height


@dataclass(frozen=True, slots=True)
class Unusable:
    """Why a file gives no picture: a sentence that names it."""

    why: str


Find = Callable[[str], Path | None]
"""From a photo's name to where it lies; None for a name that leads elsewhere."""


def pictures(files: Iterable[str], find: Find) -> dict[str, Picture | Unusable]:
    """Photos by the names that their pattern calls them."""
    made: dict[str, Picture | Unusable] = {}
    taken: set[str] = set()
    for file in dict.fromkeys(files):
        name = clean = slug(re.sub(r"\.[^./\\]*$", "", file)) or "photo"
        number = 1
        while name in taken:
            number += 1
            name = f"{clean}-{number}"
        taken.add(name)
        made[file] = _picture(find(file), file, name)
    return made


def _picture(path: Path | None, file: str, name: str) -> Picture | Unusable:
    from PIL import Image, UnidentifiedImageError

    if path is None:
        return Unusable(f"The photo {file!r} lies outside the pattern's folder {FOLDER}/.")
    if not path.is_file():
        return Unusable(f"The photo {file} is not in the pattern's folder {FOLDER}/.")
    if path.stat().st_size > MOST_BYTES:
        return Unusable(f"The photo {file} is larger than {MOST_BYTES // 1_000_000} MB.")
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            with Image.open(path, formats=FORMATS) as opened:
                if opened.width * opened.height > MOST_PIXELS:
                    return _too_many_pixels(file)
                return Picture(tuple(_renditions(opened, name)))
    except (Image.DecompressionBombError, Image.DecompressionBombWarning):
        return _too_many_pixels(file)
    except UnidentifiedImageError:
        return Unusable(f"The photo {file} is no JPEG, PNG or WebP file.")
    except (OSError, SyntaxError, ValueError, EOFError):
        return Unusable(f"The photo {file} is damaged.")


def _too_many_pixels(file: str) -> Unusable:
    return Unusable(f"The photo {file} has more than {MOST_PIXELS // 1_000_000} million pixels.")


def _renditions(opened: Image, name: str) -> list[Rendition]:
    upright = _upright(opened)
    kind = "png" if opened.format == "PNG" or "A" in upright.mode else "jpg"
    if kind == "jpg":
        upright = upright.convert("RGB")
    widths = [w for w in WIDTHS if w < upright.width]
    if len(widths) < len(WIDTHS):
        widths.append(upright.width)
    return [_rendition(upright, width, f"{name}-{width}.{kind}") for width in widths]


def _upright(opened: Image) -> Image:
    """Decoded, turned the way the camera was held, in the colours that screens expect."""
    from PIL import ImageOps

    # A JPEG can be decoded at a fraction of its size; twice the widest is sharp enough to reduce.
    opened.draft(None, (2 * WIDTHS[-1], 2 * WIDTHS[-1]))
    upright = ImageOps.exif_transpose(opened)
    see_through = "A" in upright.mode or "transparency" in upright.info
    return _standard_colours(upright).convert("RGBA" if see_through else "RGB")


def _standard_colours(image: Image) -> Image:
    from PIL import ImageCms

    profile = image.info.get("icc_profile")
    if not profile or image.mode not in ("RGB", "CMYK", "L"):
        return image
    try:
        own = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        changed = ImageCms.profileToProfile(
            image, own, ImageCms.createProfile("sRGB"), outputMode="RGB"
        )
        return changed or image
    except (ImageCms.PyCMSError, OSError):
        return image  # a broken profile: the colours as they are


def _rendition(image: Image, width: int, name: str) -> Rendition:
    from PIL import Image as Images

    height = max(1, round(image.height * width / image.width))
    small = image.resize((width, height), Images.Resampling.LANCZOS)
    small.info.clear()
    out = io.BytesIO()
    if name.endswith(".png"):
        small.save(out, "PNG", optimize=True)
    else:
        small.save(out, "JPEG", quality=82, progressive=True, optimize=True)
    return Rendition(f"{FOLDER}/{name}", width, height, out.getvalue())
