"""What a reader chooses: applied at once, kept on the device for every page, and there without a
script as well."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page

from rendering import page_of, proof_of, written
from roundproof.pages.yarns import yarn_sheet
from whole_patterns import PEBBLE

pytestmark = pytest.mark.browser

CRAB, JELLY, URCHIN = (
    f"patterns/{n}/index.html" for n in ("shore-crab", "moon-jelly", "sea-urchin")
)


@pytest.fixture(params=["scripted", "plain"])
def context(request: pytest.FixtureRequest, browser: Browser) -> Iterator[BrowserContext]:
    context = browser.new_context(
        viewport={"width": 1280, "height": 900},
        color_scheme="light",
        reduced_motion="reduce",
        java_script_enabled=request.param == "scripted",
    )
    yield context
    context.close()


@pytest.fixture
def page(context: BrowserContext) -> Page:
    return context.new_page()


@pytest.fixture(params=["disk", "host"])
def site(request: pytest.FixtureRequest, built_site: Path) -> str:
    if request.param == "disk":
        return built_site.as_uri()
    address: str = request.getfixturevalue("served_site")
    return address


def seen(page: Page, selector: str) -> str:
    return " ".join(page.locator(selector).first.inner_text().replace("\u00a0", " ").split())


def choose(page: Page, *ids: str) -> None:
    if page.get_attribute("#settings", "open") is None:
        page.click("#settings summary")
    for id in ids:
        page.check(f"#{id}")


def look(page: Page, selector: str, which: str) -> str:
    handle = page.locator(selector).first
    script = "(e, which) => getComputedStyle(e)[which]"
    return str(handle.evaluate(script, which))


def test_rounds_are_short_or_written_out_in_either_terms(page: Page, site: str) -> None:
    page.goto(f"{site}/{CRAB}")
    assert seen(page, "#claw-r1 .do") == "4 sc in magic ring"
    choose(page, "wording-full")
    assert seen(page, "#claw-r1 .do") == "4 single crochet in a magic ring."
    choose(page, "terms-uk")
    assert seen(page, "#claw-r1 .do") == "4 double crochet in a magic ring."
    choose(page, "wording-short")
    assert seen(page, "#claw-r1 .do") == "4 dc in magic ring"


def test_lengths_text_spacing_and_ground_change_at_once(page: Page, site: str) -> None:
    page.goto(f"{site}/{CRAB}")
    assert " cm" in seen(page, ".facts dd")
    choose(page, "units-inch")
    assert " in" in seen(page, ".facts dd") and " cm" not in seen(page, ".facts dd")
    for id, size in (("size-large", "20px"), ("size-largest", "25.6px"), ("size-usual", "16px")):
        choose(page, id)
        assert look(page, "html", "fontSize") == size
    choose(page, "spacing-wide")
    assert look(page, "body", "letterSpacing") != "normal"
    choose(page, "ground-cream")
    assert look(page, "html", "backgroundColor") == "rgb(252, 246, 228)"
    choose(page, "ground-device")
    assert look(page, "html", "backgroundColor") == "rgb(255, 255, 255)"


def test_a_choice_holds_for_every_page_and_the_next_visit(browser: Browser, site: str) -> None:
    with browser.new_context(color_scheme="light") as context:
        page = context.new_page()
        page.goto(f"{site}/{CRAB}")
        choose(page, "terms-uk", "wording-full", "units-inch", "hand-left", "size-large")
        choose(page, "spacing-wide", "ground-dark")
        page.close()
        page = context.new_page()
        page.goto(f"{site}/{JELLY}")
        assert seen(page, "#bell-r1 .do") == "6 double crochet in a magic ring."
        assert seen(page, ".told").startswith("Left-handed.")
        for id in ("terms-uk", "wording-full", "units-inch", "hand-left", "spacing-wide"):
            assert page.is_checked(f"#{id}"), id
        for address in (JELLY, "glossary.html", "index.html", "checks/index.html"):
            page.goto(f"{site}/{address}")
            assert look(page, "html", "backgroundColor") == "rgb(16, 25, 30)", address
            assert look(page, "html", "fontSize") == "20px", address
        choose(page, "ground-device", "size-usual")
        page.goto(f"{site}/{CRAB}")
        assert look(page, "html", "backgroundColor") == "rgb(255, 255, 255)"
        assert page.is_checked("#ground-device")
        choose(page, "terms-us")
        page.goto(f"{site}/{URCHIN}")  # written in UK terms; the reader wants US
        assert seen(page, "#test-r1 .do") == "6 single crochet in a magic ring."


def test_what_was_chosen_is_there_before_anything_is_seen(browser: Browser, site: str) -> None:
    with browser.new_context(color_scheme="light") as context:
        page = context.new_page()
        page.goto(f"{site}/glossary.html")
        choose(page, "ground-dark")
        page.close()
        context.route("**/js/site.js", lambda route: route.abort())  # the later script never comes
        page = context.new_page()
        page.goto(f"{site}/glossary.html")
        assert look(page, "html", "backgroundColor") == "rgb(16, 25, 30)"


@pytest.mark.parametrize(
    "kept", ["[1]", "7", "{", '{"terms": 5, "ground": "x y", "__proto__": "a"}']
)
def test_choices_that_cannot_be_read_are_none(browser: Browser, site: str, kept: str) -> None:
    with browser.new_context(color_scheme="light") as context:
        page = context.new_page()
        wrong: list[str] = []
        page.on("pageerror", lambda error: wrong.append(str(error)))
        page.goto(f"{site}/{CRAB}")
        page.evaluate("kept => localStorage.setItem('roundproof:choices', kept)", kept)
        page.reload()
        assert seen(page, "#claw-r1 .do") == "4 sc in magic ring"
        choose(page, "terms-uk")
        assert seen(page, "#claw-r1 .do") == "4 dc in magic ring"
        assert wrong == []


SIDED = PEBBLE.replace("name: Upper", "name: Left claw").replace(
    "step: Whipstitch the under", "step: Turn the left claw clockwise and whipstitch the under"
)


def test_left_and_right_turn_round_with_the_hand(page: Page, tmp_path: Path) -> None:
    page.goto(written(tmp_path, "sided", page_of(SIDED), yarn_sheet(proof_of(SIDED).pattern)))
    assert seen(page, "#upper") == "Left claw"
    assert not page.locator(".told").is_visible()
    choose(page, "hand-left")
    assert seen(page, "#upper") == "Right claw"
    step = seen(page, ".steps li:has-text('whipstitch')")
    assert "Turn the right claw anticlockwise" in step
    assert seen(page, ".told").startswith("Left-handed. Worked as it stands")
    assert look(page, ".plate > svg", "transform") == "matrix(-1, 0, 0, 1, 0, 0)"
    choose(page, "hand-right")
    assert seen(page, "#upper") == "Left claw"
    assert look(page, ".plate > svg", "transform") == "none"
