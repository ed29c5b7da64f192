"""The gallery in a browser: plain lists without a script, filters with one."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

pytestmark = pytest.mark.browser

GALLERY = "patterns/index.html"


@pytest.fixture(params=["host", "disk"])
def root(request: pytest.FixtureRequest, built_site: Path) -> str:
    if request.param == "disk":
        return built_site.as_uri()
    address: str = request.getfixturevalue("served_site")
    return address


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    with browser.new_context(reduced_motion="reduce") as context:
        yield context


@pytest.fixture
def page(context: BrowserContext) -> Iterator[Page]:
    page, wrong = context.new_page(), list[str]()
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on("console", lambda message: wrong.append(message.text))
    yield page
    assert wrong == []


def shown(page: Page) -> list[str]:
    return page.locator("#cards > li:visible h2").all_inner_texts()


def box(page: Page, words: str) -> None:
    page.get_by_role("checkbox", name=words).click()


def test_without_a_script_there_are_plain_lists(browser: Browser, root: str) -> None:
    with browser.new_context(java_script_enabled=False) as context:
        page = context.new_page()
        page.goto(f"{root}/{GALLERY}")
        assert len(shown(page)) == 3
        assert page.locator("#lists a:visible").count() == 0
        page.click("#by summary")
        row = page.locator("#by dl div", has=page.locator("dt", has_text="Basic"))
        assert row.locator("a").all_inner_texts() == ["Sea urchin"]
        assert page.locator(".sums:visible, #none:visible, #by input:visible").count() == 0
        row.locator("a").click()
        assert page.url == f"{root}/patterns/sea-urchin/index.html"


def test_the_place_of_a_list_can_be_led_to_without_a_script(browser: Browser, root: str) -> None:
    with browser.new_context(java_script_enabled=False) as context:
        page = context.new_page()
        page.goto(f"{root}/{GALLERY}#terms=uk")
        assert page.locator("[id='terms=uk']").inner_text() == "UK"


def test_filters_leave_what_fits_and_say_how_many(page: Page, root: str) -> None:
    page.goto(f"{root}/{GALLERY}")
    status = page.get_by_role("status").and_(page.locator("#found"))
    assert status.inner_text() == "3 patterns"
    assert not page.get_by_role("button", name="Show all").is_visible()
    page.click("#by summary")
    box(page, "Intermediate")
    assert shown(page) == ["Moon jelly", "Shore crab"]
    assert status.inner_text() == "2 of 3 patterns"
    box(page, "Has small parts")
    assert shown(page) == ["Shore crab"]
    box(page, "Basic")  # of one list, either will do
    assert shown(page) == ["Shore crab"]
    box(page, "Has small parts")
    assert len(shown(page)) == 3
    page.get_by_role("button", name="Show all").click()
    assert len(shown(page)) == 3 and page.locator("#by :checked").count() == 0
    assert page.evaluate("document.activeElement.tagName") == "SUMMARY"


def test_what_is_chosen_stands_in_the_address_and_is_there_on_the_way_back(
    page: Page, root: str
) -> None:
    page.goto(f"{root}/{GALLERY}")
    page.click("#by summary")
    box(page, "Intermediate")
    box(page, "Without small parts")
    assert page.url == f"{root}/{GALLERY}#level=intermediate&without=small-part"
    assert shown(page) == ["Moon jelly"]
    page.get_by_role("link", name="Moon jelly").first.click()
    page.wait_for_url("**/moon-jelly/index.html")
    page.go_back()
    expect(page.locator("#cards > li:visible")).to_have_count(1)
    assert shown(page) == ["Moon jelly"]
    assert page.get_by_role("checkbox", name="Intermediate").is_checked()
    assert page.locator("#by").get_attribute("open") is not None
    page.go_back()  # one choice back
    expect(page.locator("#cards > li:visible")).to_have_count(2)


def test_an_address_that_was_handed_on_is_shown(page: Page, root: str) -> None:
    page.goto(f"{root}/{GALLERY}#terms=uk&level=basic,nonsense&colour=red&has=<b>")
    assert shown(page) == ["Sea urchin"]
    assert page.locator("#by :checked").count() == 2


@pytest.mark.parametrize(
    "hash", ["#", "#all", "#patterns", "#%", "#level=", "#=&=&&", "#__proto__=x"]
)
def test_an_address_that_tells_nothing_shows_all(page: Page, root: str, hash: str) -> None:
    page.goto(f"{root}/{GALLERY}{hash}")
    assert len(shown(page)) == 3


def test_where_nothing_fits_it_is_said_with_a_way_on(page: Page, root: str) -> None:
    page.goto(f"{root}/{GALLERY}#level=basic&terms=us")
    assert shown(page) == []
    assert page.locator("#found").inner_text() == "0 of 3 patterns"
    assert page.locator("#none p").inner_text() == "No pattern here is all of that."
    page.get_by_role("button", name="Any level: 2 patterns").click()
    assert shown(page) == ["Moon jelly", "Shore crab"]
    assert not page.locator("#none").is_visible()


def test_behind_each_value_stands_how_many_there_would_be(page: Page, root: str) -> None:
    page.goto(f"{root}/{GALLERY}#terms=us")
    labels = page.locator("#by label")
    told = {}
    for label in labels.all():
        number = label.locator("small").inner_text()
        told[label.text_content().strip().removesuffix(number).strip()] = int(number)  # type: ignore[union-attr]
    assert (told["Basic"], told["Intermediate"], told["UK"]) == (0, 2, 1)
    for words, count in told.items():
        if words in ("US", "UK"):
            continue
        page.goto(f"{root}/{GALLERY}#terms=us")
        box(page, words)
        assert len(shown(page)) == count, words


def test_filters_are_worked_with_keys_alone(page: Page, root: str) -> None:
    page.goto(f"{root}/{GALLERY}")
    page.focus("#by summary")
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    page.keyboard.press("Space")
    assert page.evaluate("document.activeElement.checked") is True
    assert len(shown(page)) == 1
    page.keyboard.press("Space")
    assert len(shown(page)) == 3
