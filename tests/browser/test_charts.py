"""Charts on a pattern's page: seen, enlarged, mirrored, the round in work marked."""

from __future__ import annotations

import io
from collections.abc import Iterator
from pathlib import Path

import pytest
from PIL import Image, ImageChops
from playwright.sync_api import Browser, ConsoleMessage, Page, expect

pytestmark = pytest.mark.browser


@pytest.fixture(params=["disk", "host"])
def page(
    request: pytest.FixtureRequest, browser: Browser, built_site: Path, served_site: str
) -> Iterator[Page]:
    root = built_site.as_uri() if request.param == "disk" else served_site
    page = browser.new_page(viewport={"width": 390, "height": 844}, reduced_motion="reduce")
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on("console", lambda m: wrong.append(m.text) if is_wrong(m) else None)
    page.goto(f"{root}/patterns/shore-crab/index.html")
    yield page
    page.close()
    assert wrong == []


def is_wrong(message: ConsoleMessage) -> bool:
    """A picture alone has no icon of its own, and browsers ask for one at the root of the host."""
    return message.type == "error" and not message.location["url"].endswith("/favicon.ico")


CLAW = ".drawing[data-piece='claw'] [data-kind='chart'] .rh img"


def picture(page: Page, of: str) -> Image.Image:
    page.locator(of).scroll_into_view_if_needed()
    page.wait_for_function(
        "of => { const i = document.querySelector(of); return i.complete && i.naturalWidth > 0 }",
        arg=of,
    )
    shot = page.locator(of).screenshot()
    return Image.open(io.BytesIO(shot)).convert("L")


def opened(page: Page) -> None:
    page.locator(".drawing[data-piece='claw'] > summary").click()


def test_a_chart_is_fetched_only_when_it_is_opened(page: Page) -> None:
    loaded = "of => document.querySelector(of).complete && document.querySelector(of).naturalWidth"
    assert not page.evaluate(loaded, CLAW)
    opened(page)
    assert picture(page, CLAW).getextrema()[0] < 100


def test_the_round_in_work_is_marked_in_it(page: Page) -> None:
    opened(page)
    bare = picture(page, CLAW)
    page.locator("#claw-r1-done").click()
    expect(page.locator(CLAW)).to_have_attribute("src", "chart-claw.svg#r2")
    second = picture(page, CLAW)
    page.locator("#claw-r2-done").click()
    expect(page.locator(CLAW)).to_have_attribute("src", "chart-claw.svg#r3")
    third = picture(page, CLAW)
    for one, other in ((bare, second), (second, third)):
        assert ImageChops.difference(one, other).getbbox()
    body = page.locator(".drawing[data-piece='body'] .rh img")
    expect(body).to_have_attribute("src", "chart-body.svg")


def test_left_handed_makers_see_the_mirror_image(page: Page) -> None:
    opened(page)
    right = picture(page, CLAW)
    page.evaluate("document.documentElement.dataset.hand = 'left'")
    left = picture(page, CLAW.replace(".rh", ".lh"))
    expect(page.locator(CLAW)).to_be_hidden()
    left = left.resize(right.size)  # half a pixel may be rounded either way
    assert ImageChops.difference(right, left).getbbox()
    caption = page.locator(".drawing[data-piece='claw'] figcaption").first.inner_text()
    assert "clockwise" in caption and "anticlockwise" not in caption


def test_it_opens_alone_with_a_round_named_in_its_address(page: Page) -> None:
    opened(page)
    link = page.locator(".drawing[data-piece='claw'] .rh a").first
    address = link.evaluate("link => link.href")
    page.goto(address)
    plain = page.screenshot()
    page.goto("about:blank")
    page.goto(f"{address}#r4")
    assert page.screenshot() != plain
    assert page.evaluate("document.documentElement.tagName") == "svg"


def test_a_dark_ground_is_answered(page: Page) -> None:
    opened(page)
    light = picture(page, CLAW)
    page.evaluate("document.documentElement.dataset.ground = 'dark'")
    dark = picture(page, CLAW)
    assert light.getpixel((2, light.height - 3)) > 200
    assert dark.getpixel((2, dark.height - 3)) < 60
    assert dark.getextrema()[1] > 200  # the signs are light
