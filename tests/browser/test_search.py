"""The search in a browser: from a host and from disk, with keys alone, and without a script."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

pytestmark = pytest.mark.browser


@pytest.fixture(params=["host", "disk"])
def root(request: pytest.FixtureRequest, built_site: Path) -> str:
    if request.param == "disk":
        return built_site.as_uri()
    address: str = request.getfixturevalue("served_site")
    return address


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    with browser.new_context(reduced_motion="reduce") as context:
        page, wrong = context.new_page(), list[str]()
        page.on("pageerror", lambda error: wrong.append(str(error)))
        page.on("console", lambda message: wrong.append(message.text))
        yield page
        assert wrong == []


def found(page: Page, query: str) -> list[str]:
    page.fill("#query", query)
    return page.locator("#results h2").all_inner_texts()


@pytest.mark.parametrize(
    ("query", "first"),
    [
        ("crab", "Shore crab"),
        ("CRÀB", "Shore crab"),  # case and accents say nothing
        ("cra sho", "Shore crab"),  # beginnings, in any order
        ("carcinus", "Shore crab"),  # the specimen's name
        ("bronze", "Shore crab"),  # a yarn's colour
        ("basic", "Sea urchin"),  # a level
        ("oral arm", "Moon jelly"),  # a piece
        ("single crochet", "sc (UK: dc)"),
        ("half treble", "hdc (UK: htr)"),  # a stitch by its name in UK terms
        ("whipstitch", "whipstitch (UK: oversewing)"),
        ("invisible decrease", "inv dec"),
        ("how to make a magic ring", "magic ring"),
        ("left-handed", "Left-handed"),  # a heading of a page
        ("join-fit", "Length of joined edges"),
    ],
)
def test_the_best_stands_first(page: Page, root: str, query: str, first: str) -> None:
    page.goto(f"{root}/search.html")
    titles = found(page, query)
    if query == "join-fit":
        assert page.locator("#results a").first.get_attribute("href") == "checks/join-fit.html"
    else:
        assert titles[0] == first


def test_what_is_found_leads_there_and_back_with_the_words_kept(page: Page, root: str) -> None:
    page.goto(f"{root}/search.html")
    found(page, "urchin")
    assert page.url == f"{root}/search.html?q=urchin"
    page.locator("#results a").first.click()
    assert page.url == f"{root}/patterns/sea-urchin/index.html"
    page.go_back()
    assert page.input_value("#query") == "urchin"
    assert "Sea urchin" in page.locator("#results h2").all_inner_texts()


def test_an_address_with_words_is_looked_for(page: Page, root: str) -> None:
    page.goto(f"{root}/search.html?q=moon%20jelly")
    assert page.input_value("#query") == "moon jelly"
    assert page.locator("#results h2").first.inner_text() == "Moon jelly"


def test_what_was_found_is_said_aloud(page: Page, root: str) -> None:
    page.goto(f"{root}/search.html")
    found(page, "crab")
    status = page.get_by_role("status").and_(page.locator("#told"))
    status.filter(has_text="found for “crab”").wait_for()
    count = page.locator("#results li").count()
    assert status.inner_text() == f"{count} found for “crab”."
    found(page, "xyzzy")
    status.filter(has_text="Nothing here has “xyzzy”").wait_for()
    assert page.locator("#results li").count() == 0
    found(page, "crab xyzzy")
    status.filter(has_text="Nothing has all of these words").wait_for()
    assert page.locator("#results h2").first.inner_text() == "Shore crab"
    found(page, "")
    expect(status).to_have_text("")
    assert page.url == f"{root}/search.html"


def test_keys_go_through_what_was_found(page: Page, root: str) -> None:
    page.goto(f"{root}/search.html")
    assert page.evaluate("document.activeElement.id") == "query"
    page.keyboard.type("crochet")
    page.keyboard.press("ArrowDown")
    links = page.locator("#results a")
    assert links.nth(0).evaluate("a => a === document.activeElement")
    page.keyboard.press("ArrowDown")
    assert links.nth(1).evaluate("a => a === document.activeElement")
    page.keyboard.press("ArrowUp")
    page.keyboard.press("ArrowUp")
    assert page.evaluate("document.activeElement.id") == "query"
    page.keyboard.press("Enter")
    assert links.nth(0).evaluate("a => a === document.activeElement")
    page.keyboard.press("Escape")
    assert page.evaluate("document.activeElement.id") == "query"


def test_words_are_never_more_than_words(page: Page, root: str) -> None:
    evil = "<img src=x onerror=alert(1)>\"'${1}"
    page.goto(f"{root}/search.html")
    page.on("dialog", lambda dialog: pytest.fail(dialog.message))
    found(page, evil)
    expect(page.locator("#told")).to_contain_text("some of them")
    assert page.locator("#told img, #results img").count() == 0
    page.reload()
    assert page.input_value("#query") == evil


def test_without_a_script_the_page_says_where_things_stand(browser: Browser, root: str) -> None:
    with browser.new_context(java_script_enabled=False) as context:
        page = context.new_page()
        page.goto(f"{root}/search.html")
        assert not page.locator("#search").is_visible()
        for name in ("All patterns", "Every stitch and word", "How to read a pattern"):
            assert page.get_by_role("link", name=name).is_visible()
        page.get_by_role("link", name="All patterns").click()
        assert page.url == f"{root}/patterns/index.html"


def test_a_lost_address_is_searched_for(page: Page, served_site: str, built_site: Path) -> None:
    """The page for lost addresses links from the root of its host, so it is read from there."""
    script = (built_site / "js/lost.js").read_text("utf-8")
    page.route(
        "**/*",
        lambda route: route.fulfill(
            body='<a id="look" href="/search.html">Search</a>', content_type="text/html"
        ),
    )
    page.goto("http://127.0.0.1:9/patterns/Shore%20cr%C3%A0b_2/index.html")
    page.add_script_tag(content=script)
    assert page.get_attribute("#look", "href") == "/search.html?q=Shore%20cr%C3%A0b%202"
    assert page.inner_text("#look") == "Search for “Shore cràb 2”"
