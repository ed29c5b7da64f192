"""Photos on a page in a real browser: the size that is loaded fits the column it stands in."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from roundproof.cli.main import main
from roundproof.pages.developing import WIDTHS
from sites import pebble, write_photo, write_site

pytestmark = pytest.mark.browser

PHOTOS = ", ".join(
    f"{{file: {name}.jpg, alt: A grey pebble {words}, by: Tideline, licence: CC0{after}}}"
    for name, words, after in (
        ("above", "from above", ""),
        ("round", "half made", ", after: body R4"),
        ("behind", "from behind", ""),
        ("later", "nearly closed", ", after: body R7"),
    )
)


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> str:
    site = write_site(tmp_path_factory.mktemp("photos") / "s", pebble=pebble(photos=PHOTOS))
    for name in ("above", "round", "behind", "later"):
        write_photo(site, "pebble", f"{name}.jpg")
    assert main(["build", str(site)]) == 0
    return (site / "site/patterns/pebble/index.html").as_uri()


@contextmanager
def opened(browser: Browser, address: str, width: int, density: float) -> Iterator[Page]:
    context = browser.new_context(
        viewport={"width": width, "height": 900}, device_scale_factor=density
    )
    page = context.new_page()
    page.goto(address)
    yield page
    context.close()


@pytest.mark.parametrize("width", [320, 390, 600, 768, 1280])
@pytest.mark.parametrize("density", [1.0, 2.0, 3.0])
def test_the_size_that_is_loaded_fits_the_column(
    browser: Browser, address: str, width: int, density: float
) -> None:
    with opened(browser, address, width, density) as page:
        for photo in page.locator(".photo img").all():
            photo.scroll_into_view_if_needed()
            photo.evaluate("e => e.complete || new Promise(done => { e.onload = done })")
            across = photo.evaluate("e => e.getBoundingClientRect().width") * density
            loaded = str(photo.evaluate("e => e.currentSrc"))
            found = re.search(r"-(\d+)\.webp$", loaded)
            assert found, loaded
            enough = next((w for w in WIDTHS if w >= 0.9 * across), WIDTHS[-1])
            largest = next((w for w in WIDTHS if w >= 1.15 * across), WIDTHS[-1])
            assert enough <= int(found[1]) <= largest, (loaded, across)


def test_only_the_first_photo_of_the_page_is_loaded_at_once(browser: Browser, address: str) -> None:
    with opened(browser, address, 1280, 1.0) as page:
        said = page.locator(".photo img").evaluate_all("all => all.map(e => [e.alt, e.loading])")
        assert [(alt, how) for alt, how in said] == [
            ("A grey pebble half made", "auto"),
            ("A grey pebble nearly closed", "lazy"),
            ("A grey pebble from above", "lazy"),
            ("A grey pebble from behind", "lazy"),
        ]


def test_a_browser_without_the_modern_form_shows_the_other(browser: Browser, address: str) -> None:
    with opened(browser, address, 1280, 1.0) as page:
        page.evaluate("document.querySelectorAll('source').forEach(each => each.remove())")
        first = page.locator(".photo img").first
        first.scroll_into_view_if_needed()
        assert str(first.evaluate("e => e.currentSrc")).endswith("-880.jpg")
        assert first.evaluate("e => e.decode().then(() => e.naturalWidth)") > 0


def test_no_photo_moves_the_page_when_it_comes(address: str) -> None:
    html = Path(address.removeprefix("file://")).read_text("utf-8")
    photos = re.findall(r"<picture>.*?</picture>", html)
    assert len(photos) == 4
    for photo in photos:
        assert re.search(r'<img src="photos/[a-z]+-880\.jpg" width="880" height="495"', photo)
        assert 'type="image/webp"' in photo and 'sizes="(min-width: ' in photo
