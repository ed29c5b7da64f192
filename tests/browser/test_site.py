"""The whole site in a real browser: from a host below a sub-path, and from disk."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, Request

from conftest import ROOT

pytestmark = pytest.mark.browser

PATTERNS = sorted(path.parent.name for path in ROOT.glob("patterns/*/pattern.yaml"))


PAGES = (
    "glossary.html",
    "how-to-read.html",
    "how-to-write.html",
    "for-designers.html",
    "credits.html",
    "search.html",
    "patterns/shore-crab/label.html",
)


@pytest.fixture(params=["host", "disk"])
def root(request: pytest.FixtureRequest, built_site: Path) -> str:
    """Where the site starts."""
    if request.param == "disk":
        return built_site.as_uri()
    address: str = request.getfixturevalue("served_site")
    return address


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """A page on which nothing may go wrong: no error in the console, no file that is missing."""
    with browser.new_context() as context:
        opened = context.new_page()
        wrong: list[str] = []
        opened.on("console", lambda message: wrong.append(f"console: {message.text}"))
        opened.on("pageerror", lambda error: wrong.append(f"error: {error}"))
        opened.on("requestfailed", lambda request: _is_there(request, wrong))
        opened.on(
            "response", lambda answer: wrong.append(answer.url) if answer.status >= 400 else None
        )
        opened.on("request", lambda request: _stays_here(request.url, wrong))
        yield opened
        assert wrong == []


def _is_there(request: Request, wrong: list[str]) -> None:
    if request.failure != "net::ERR_ABORTED":  # the page was left before its icon came
        wrong.append(f"not there: {request.url}")


def _stays_here(url: str, wrong: list[str]) -> None:
    if not url.startswith(("http://127.0.0.1:", "file:", "data:")):
        wrong.append(f"asked elsewhere: {url}")


def is_styled(page: Page) -> bool:
    """The look has arrived, its letters with it."""
    page.evaluate("document.fonts.ready")
    there: bool = page.evaluate(
        "document.fonts.check('17px Andika') && "
        "getComputedStyle(document.body).fontFamily.includes('Andika')"
    )
    return there


def test_the_gallery_leads_to_a_pattern_and_on_to_its_tester_copy(root: str, page: Page) -> None:
    page.goto(f"{root}/index.html")
    assert is_styled(page)
    names = page.locator(".card h2").all_inner_texts()
    assert len(names) == len(PATTERNS)
    assert page.locator(".card .plate svg").count() == len(PATTERNS)
    page.get_by_role("link", name=names[0], exact=True).click()
    assert page.url.startswith(f"{root}/patterns/") and page.url.endswith("/index.html")
    assert page.locator("h1").inner_text() == names[0]
    assert is_styled(page)
    page.goto(page.url.replace("index.html", "tester.html"))
    assert names[0] in page.locator("h1").inner_text()
    assert page.locator('meta[name="robots"]').get_attribute("content") == "noindex"
    assert is_styled(page)


@pytest.mark.parametrize("address", PAGES)
def test_the_pages_of_every_site_open(root: str, page: Page, address: str) -> None:
    page.goto(f"{root}/{address}")
    assert is_styled(page)
    page.get_by_role("navigation", name="Site").get_by_role("link", name="Patterns").click()
    assert page.url == f"{root}/patterns/index.html"


def test_the_checks_lead_to_a_page_each_and_back(root: str, page: Page) -> None:
    page.goto(f"{root}/checks/index.html")
    links = page.locator("table a")
    assert links.count() > 10
    links.first.click()
    page.wait_for_url(lambda url: not url.endswith("/checks/index.html"))
    assert "/checks/" in page.url and is_styled(page)
    page.locator(".trail a").click()
    assert page.url == f"{root}/checks/index.html"


@pytest.mark.parametrize("width", [320, 390, 800, 1280])
@pytest.mark.parametrize(
    "address",
    [*PAGES, "index.html", "patterns/index.html", "checks/index.html", "checks/join-fit.html"],
)
def test_nothing_scrolls_sideways(
    browser: Browser, built_site: Path, address: str, width: int
) -> None:
    with browser.new_context(viewport={"width": width, "height": 800}) as context:
        page = context.new_page()
        page.goto(f"{built_site.as_uri()}/{address}")
        assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_photos_are_seen(root: str, page: Page) -> None:
    for name in PATTERNS:
        page.goto(f"{root}/patterns/{name}/index.html")
        for photo in page.locator(".photo img").all():
            photo.scroll_into_view_if_needed()
            assert photo.evaluate("i => i.decode().then(() => i.naturalWidth > 0)"), name
            assert photo.get_attribute("alt")
