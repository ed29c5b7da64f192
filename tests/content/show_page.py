"""Takes the picture of a published page that stands in the README, from the built site.

Run by `make pictures` after `make site`; the file it writes is kept.
"""

from __future__ import annotations

from pathlib import Path

from PIL import Image
from playwright.sync_api import sync_playwright

ROOT = Path(__file__).parents[2]
PAGE = ROOT / "site" / "patterns" / "moon-jelly" / "index.html"
PICTURE = ROOT / "site_src" / "pictures" / "pattern-page.png"
DONE = 9
"""Rounds ticked off in the picture."""


def main() -> None:
    """Write the picture: the bell's rounds on a desktop, some of them worked."""
    PICTURE.parent.mkdir(exist_ok=True)
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path="/usr/bin/chromium", args=["--no-sandbox"])
        page = browser.new_page(viewport={"width": 1280, "height": 1180})
        page.goto(PAGE.as_uri())
        for box in page.locator(".round > .tick").all()[:DONE]:
            box.check()
        page.evaluate("scrollTo(0, document.querySelector('#bell').offsetTop - 60)")
        page.screenshot(path=PICTURE)
        browser.close()
    with Image.open(PICTURE) as shot:
        small = shot.convert("RGB").quantize(128, dither=Image.Dither.NONE)
    small.save(PICTURE, optimize=True)
    print(f"{PICTURE.relative_to(ROOT)}, {PICTURE.stat().st_size // 1000} kB")


if __name__ == "__main__":
    main()
