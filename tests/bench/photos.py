"""How long a photo takes to be made ready for its page, and how large it comes out.

The photos are made here: soft shapes in many colours with the noise of a camera over them. Measured
is the processor time of one process, the least of several: what else the machine does adds to a run
and never takes from it.
"""

from __future__ import annotations

import io
import random
import time
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory

from PIL import Image, ImageChops, features

from roundproof.pages.developing import WIDTHS, developed
from roundproof.pages.photos import pictures
from roundproof.store import Store

LIMIT = 0.4
PHOTOS = {
    "12 megapixels": (4000, 3000, 6.0),
    "24 megapixels": (6000, 4000, 6.0),
    "24 megapixels at dusk": (6000, 4000, 30.0),
}
"""Width, height, and how strong the noise is (standard deviation, of 255)."""
TIMES = 5
SEED = 20260504


def main(times: int = TIMES) -> list[str]:
    """Rows of a table: seconds for a photo, made and kept, its files and their bytes; then what
    other forms would take."""
    with TemporaryDirectory() as name:
        folder = Path(name)
        rows = [
            row for title, photo in PHOTOS.items() for row in _rows(folder, title, photo, times)
        ]
        forms = _forms(folder / "24 megapixels at dusk.jpg", times)
    return [*HEAD, *rows, "", *FORMS, *forms]


HEAD = [
    "| photo | its file | made | taken from the store | at most | files made of it |",
    "|---|---|---|---|---|---|",
]
FORMS = [
    f"The last one at {WIDTHS[-1]} pixels across, in the forms that there are:",
    "",
    "| form | seconds | kB |",
    "|---|---|---|",
]


def camera_photo(width: int, height: int, noisy: float) -> Image.Image:
    """The same at every run."""
    rand = random.Random(SEED)
    shapes = Image.frombytes("RGB", (40, 30), rand.randbytes(40 * 30 * 3))
    soft = shapes.resize((width, height), Image.Resampling.BICUBIC)
    tile = Image.frombytes(
        "RGB",
        (512, 512),
        bytes(min(max(round(rand.gauss(128, noisy)), 0), 255) for _ in range(512 * 512 * 3)),
    )
    noise = Image.new("RGB", (width, height))
    for left in range(0, width, 512):
        for top in range(0, height, 512):
            noise.paste(tile, (left, top))
    return ImageChops.add(soft, noise, 1.0, -128)


def least(run: Callable[[], object], times: int) -> float:
    """Processor seconds, the least of some runs."""
    taken = []
    for _ in range(times):
        start = time.process_time()
        run()
        taken.append(time.process_time() - start)
    return min(taken)


def _rows(folder: Path, title: str, photo: tuple[int, int, float], times: int) -> list[str]:
    path = folder / f"{title}.jpg"
    camera_photo(*photo).save(path, "JPEG", quality=90)
    store = Store(folder / "kept")
    made = least(lambda: developed(path), times)
    pictures([path.name], lambda _: path, store)
    kept = least(lambda: pictures([path.name], lambda _: path, store), times)
    done = developed(path)
    files = ", ".join(
        f"{each.width} {each.ending} {len(each.data) / 1000:.0f} kB"
        for each in (*done.sizes, done.fallback)
    )
    megabytes = path.stat().st_size / 1e6
    return [f"| {title} | {megabytes:.1f} MB | {made:.2f} | {kept:.2f} | {LIMIT} | {files} |"]


def _forms(path: Path, times: int) -> list[str]:
    with Image.open(path) as opened:
        opened.draft(None, (WIDTHS[-1], 853))
        image = opened.convert("RGB").resize((WIDTHS[-1], 853))
    forms: dict[str, tuple[str, dict[str, object]]] = {
        "JPEG": ("JPEG", {"quality": 80, "progressive": True, "optimize": True}),
        "WebP, as pages have it": ("WEBP", {"quality": 80, "method": 2}),
        "WebP, slower": ("WEBP", {"quality": 80, "method": 4}),
    }
    if features.check("avif"):
        forms["AVIF, fastest"] = ("AVIF", {"quality": 62, "speed": 10, "max_threads": 1})
        forms["AVIF, usual"] = ("AVIF", {"quality": 62, "speed": 6, "max_threads": 1})
    rows = []
    for name, (kind, how) in forms.items():
        out = io.BytesIO()

        def write(kind: str = kind, how: dict[str, object] = how, out: io.BytesIO = out) -> None:
            out.seek(0)
            out.truncate()
            image.save(out, kind, **how)

        seconds = least(write, times)
        rows.append(f"| {name} | {seconds:.2f} | {len(out.getvalue()) / 1000:.0f} |")
    return rows


if __name__ == "__main__":
    print("\n".join(main()))
