"""What a page weighs over the wire, and that nothing of it comes from anywhere else.

Measured as a browser receives it from a host that compresses with gzip, its cache empty. The most
that is allowed is the project's own; there is no outside standard for it.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, Page, Request, Route

from quality.host import hosted
from quality.opening import opened, unfold

pytestmark = pytest.mark.browser

KB = 1_000
PAGE, FONTS, FIRST_VIEW = 100 * KB, 80 * KB, 50 * KB
TEXT_ONLY = "patterns/hundred-rounds/index.html"


@contextmanager
def weighed(page: Page) -> Iterator[dict[str, int]]:
    """Bytes as they came, heads of the answers with them, by kind of resource."""
    finished: list[Request] = []
    page.on("requestfinished", lambda request: finished.append(request))
    sums: dict[str, int] = defaultdict(int)
    yield sums
    page.evaluate("document.fonts.ready.then(() => true)")
    for request in finished:
        sizes = request.sizes()
        sums[request.resource_type] += sizes["responseBodySize"] + sizes["responseHeadersSize"]


def test_a_pattern_of_a_hundred_rounds_is_light(browser: Browser, host: str) -> None:
    with opened(browser, "phone") as page, weighed(page) as sums:
        page.goto(f"{host}/{TEXT_ONLY}")
        assert page.locator("li.round").count() == 100
        assert (
            page.locator("img:not(.sheet img)").count() == 0
        )  # drawings come when they are asked for
    fonts = sums.pop("font")
    assert 0 < fonts <= FONTS
    assert sums["stylesheet"] > 0 and sums["document"] > 0
    assert sum(sums.values()) <= PAGE, dict(sums)


def test_script_and_style_of_a_first_view_are_light(
    browser: Browser, host: str, looked_at: tuple[str, ...]
) -> None:
    heavy = {}
    for address in looked_at:
        with opened(browser, "phone") as page:  # anew, so that nothing is kept from the page before
            with weighed(page) as sums:
                page.goto(f"{host}/{address}")
            both = sums["script"] + sums["stylesheet"]
            assert both > 0, address
            assert sums["font"] <= FONTS, address
            if both > FIRST_VIEW:
                heavy[address] = dict(sums)
    assert heavy == {}


def test_the_text_is_there_before_the_fonts(browser: Browser, every_kind: Path) -> None:
    """With fonts that never come, words are drawn in one that the device has: by the fonts' own
    account (`font-display: swap`, CSS Fonts Module Level 4, 11.1) and in the picture."""
    with hosted(every_kind / "site") as host, opened(browser, "phone") as page:
        held: list[Route] = []
        page.route("**/*.woff2", lambda route: held.append(route))  # neither answered nor refused
        page.goto(f"{host}/{TEXT_ONLY}", wait_until="domcontentloaded")
        faces = page.evaluate("[...document.fonts].map(f => [f.family, f.display, f.status])")
        # Those that stand in for them are the device's own.
        displays = [face for face in faces if not face[0].endswith((" letters", " serifs"))]
        assert displays and {display for _, display, _ in displays} == {"swap"}
        assert "loaded" not in {status for _, _, status in displays}
        seen = _picture(page)
        page.evaluate("document.querySelector('h1').hidden = true")
        assert seen != _picture(page)
        assert held
        for route in held:
            route.abort()


def _picture(page: Page) -> str:
    """What is on the screen now; Playwright's own picture would wait for the fonts."""
    taken = page.context.new_cdp_session(page).send("Page.captureScreenshot")
    return str(taken["data"])


def test_no_page_asks_another_host(browser: Browser, host: str, looked_at: tuple[str, ...]) -> None:
    """Every kind of page, unfolded and scrolled through."""
    asked: list[str] = []
    with opened(browser) as page:
        page.on("request", lambda request: asked.append(request.url))
        page.on("websocket", lambda socket: asked.append(socket.url))
        for address in looked_at:
            page.goto(f"{host}/{address}")
            unfold(page)
            page.evaluate("scrollTo(0, document.body.scrollHeight)")
        page.wait_for_load_state("networkidle")
    own = urlsplit(host).netloc
    assert len(asked) > 5 * len(looked_at)
    assert {url for url in asked if urlsplit(url).netloc != own} == set()
