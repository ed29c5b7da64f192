"""A pattern's page and its tester copy in a real browser, from a host and from disk."""

import re
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, BrowserContext, Page

from rendering import copy_for_testers, page_of, proof_of, written
from roundproof.pages.yarns import yarn_sheet
from whole_patterns import PEBBLE

pytestmark = pytest.mark.browser

WIDTHS = (320, 360, 390, 480, 600, 735, 736, 900, 1024, 1119, 1120, 1280, 1440, 1600)
PAGES = ("shore-crab/index.html", "moon-jelly/index.html", "sea-urchin/index.html")
COPY = "shore-crab/tester.html"


@pytest.fixture(params=["disk", "host"])
def root(request: pytest.FixtureRequest, built_site: Path, served_site: str) -> str:
    """Where the patterns' folders are."""
    site = built_site.as_uri() if request.param == "disk" else served_site
    return f"{site}/patterns"


@pytest.fixture
def disk(built_site: Path) -> str:
    return f"{built_site.as_uri()}/patterns"


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    context = browser.new_context(
        viewport={"width": 1280, "height": 900},
        color_scheme="light",
        reduced_motion="reduce",  # bars ink at once
    )
    yield context
    context.close()


@pytest.fixture
def page(context: BrowserContext) -> Page:
    return context.new_page()


def colour(page: Page, selector: str, which: str) -> str:
    script = "([s, w]) => getComputedStyle(document.querySelector(s))[w]"
    return str(page.evaluate(script, [selector, which]))


def shown(page: Page, selector: str) -> str:
    """The words of an element that can be seen."""
    return " ".join(page.inner_text(selector).replace("\u00a0", " ").split())


@pytest.mark.parametrize("address", [*PAGES, COPY])
@pytest.mark.parametrize("width", [390, 1280])
def test_a_page_opens_quietly_and_asks_nobody_else(
    page: Page, root: str, address: str, width: int
) -> None:
    said, asked = [], []
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    page.on("requestfailed", lambda request: said.append(request.url))
    page.on("request", lambda request: asked.append(request.url))
    page.on("response", lambda r: said.append(r.url) if r.status >= 400 else None)
    page.set_viewport_size({"width": width, "height": 844})
    page.goto(f"{root}/{address}")
    page.evaluate("document.fonts.ready")
    assert said == []
    assert {urlsplit(url).netloc for url in asked} == {urlsplit(root).netloc}
    assert page.evaluate("document.fonts.check('16px Andika')")
    assert page.evaluate("[...document.fonts].some(f => f.status === 'loaded')")
    # The stylesheets are there: the strip is tinted, the pattern's own accent is set.
    assert "Andika" in colour(page, "body", "fontFamily")
    assert page.evaluate("getComputedStyle(document.querySelector('.chip')).backgroundColor")


@pytest.mark.parametrize("address", [*PAGES, COPY])
def test_nothing_has_to_be_pushed_sideways(page: Page, disk: str, address: str) -> None:
    page.goto(f"{disk}/{address}")
    for larger in (False, True):
        page.evaluate("on => document.getElementById('size-large').checked = on", larger)
        for width in WIDTHS:
            page.set_viewport_size({"width": width, "height": 800})
            wide = page.evaluate("document.documentElement.scrollWidth")
            assert wide <= width, (width, larger)


def test_terms_change_where_they_stand(page: Page, root: str) -> None:
    page.goto(f"{root}/shore-crab/index.html")
    assert shown(page, "#body-r7 .do") == "BLO: sc around"
    page.click("#settings summary")
    page.check("#terms-uk")
    assert shown(page, "#body-r7 .do") == "BLO: dc around"
    assert shown(page, ".facts div:has(a[href='#words']) dd").startswith("UK")
    page.check("#terms-us")
    assert shown(page, "#body-r7 .do") == "BLO: sc around"


def test_a_pattern_in_uk_terms_shows_them_first(page: Page, disk: str) -> None:
    page.goto(f"{disk}/sea-urchin/index.html")
    assert shown(page, "#test-r1 .do") == "6 dc in magic ring"


def test_ticking_a_round_inks_its_bar_and_moves_the_place(page: Page, root: str) -> None:
    page.goto(f"{root}/shore-crab/index.html")
    bar, here = "#body-r1 .bar .yarn", "borderTopWidth"
    pale = colour(page, bar, "fill")
    assert colour(page, "#body-r2", here) == "0px"
    page.click("#body-r1 > label.s")  # the bar is a second label of the box
    assert page.is_checked("#body-r1-done")
    assert colour(page, bar, "fill") != pale
    assert colour(page, "#body-r2", here) == "3px"
    page.check("#body-r2-done")
    assert (colour(page, "#body-r2", here), colour(page, "#body-r3", here)) == ("0px", "3px")
    page.uncheck("#body-r1-done")
    assert colour(page, "#body-r1", here) == "3px"


def test_the_instruction_stays_as_it_was_when_ticked(page: Page, disk: str) -> None:
    page.goto(f"{disk}/shore-crab/index.html")
    before = (colour(page, "#body-r1 .do", "color"), colour(page, "#body-r1 .do", "opacity"))
    page.check("#body-r1-done")
    after = (colour(page, "#body-r1 .do", "color"), colour(page, "#body-r1 .do", "opacity"))
    assert before == after


def test_a_range_opens_into_its_rounds_and_each_can_be_led_to(page: Page, root: str) -> None:
    page.goto(f"{root}/shore-crab/index.html#leg-r6")
    row = page.locator("#leg-r4-r7")
    assert row.locator("#leg-r6").count() == 1
    assert row.evaluate("e => Math.abs(e.getBoundingClientRect().top) < innerHeight")
    assert not row.locator(".boxes").is_visible()
    row.locator("summary").click()
    assert row.locator(".boxes input").count() == 4


@pytest.mark.parametrize(
    ("scheme", "choice", "ground"),
    [
        ("light", None, "rgb(255, 255, 255)"),
        ("dark", None, "rgb(16, 25, 30)"),
        ("dark", "white", "rgb(255, 255, 255)"),
        ("light", "cream", "rgb(252, 246, 228)"),
        ("light", "dark", "rgb(16, 25, 30)"),
    ],
)
def test_the_ground_is_the_device_s_or_the_reader_s(
    page: Page, disk: str, scheme: str, choice: str | None, ground: str
) -> None:
    page.emulate_media(color_scheme=scheme)  # type: ignore[arg-type]
    page.goto(f"{disk}/moon-jelly/index.html")
    if choice:
        page.click("#settings summary")
        page.check(f"#ground-{choice}")
    assert colour(page, "html", "backgroundColor") == ground
    pale = colour(page, "#bell-r1 .bar .yarn", "fill")
    channels = [int(n) for n in re.findall(r"\d+", pale)]
    assert (sum(channels) > 3 * 140) is (ground != "rgb(16, 25, 30)")


@pytest.mark.parametrize("address", [*PAGES, COPY])
def test_headings_boxes_and_figures_have_their_names(page: Page, disk: str, address: str) -> None:
    page.goto(f"{disk}/{address}")
    levels = page.eval_on_selector_all("h1, h2, h3", "all => all.map(h => +h.tagName[1])")
    assert levels[0] == 1 and levels.count(1) == 1
    assert all(b - a <= 1 for a, b in pairwise(levels))
    unnamed = page.eval_on_selector_all(
        "input, textarea",
        "all => all.filter(i => !i.getAttribute('aria-label') && !i.labels.length).length",
    )
    assert unnamed == 0
    silent = page.eval_on_selector_all(
        "svg",
        "all => all.filter(s => !s.closest('[aria-hidden]') && !s.querySelector('title')"
        " && !s.parentElement.closest('svg')).length",
    )
    assert silent == 0
    assert page.eval_on_selector_all("img", "all => all.filter(i => !i.alt).length") == 0
    assert page.get_attribute("html", "lang") == "en"
    ids = page.eval_on_selector_all("[id]", "all => all.map(e => e.id)")
    assert len(ids) == len(set(ids))


def test_boxes_are_large_enough_for_a_finger(page: Page, disk: str) -> None:
    page.set_viewport_size({"width": 390, "height": 844})
    page.goto(f"{disk}/shore-crab/index.html")
    page.locator("#body-r1").scroll_into_view_if_needed()
    # 48 px across (from memory: the usual advice for touch screens is 44 to 48).
    script = (
        "([x, y]) => { const b = document.querySelector('#body-r1-done').getBoundingClientRect();"
        " return document.elementFromPoint(b.x + b.width / 2 + x, b.y + b.height / 2 + y).id }"
    )
    for x, y in ((-23, 0), (23, 0), (0, -23), (0, 23)):
        assert page.evaluate(script, [x, y]) == "body-r1-done"


def pages_of(pdf: bytes) -> int:
    return len(re.findall(rb"/Type\s*/Page\b(?!s)", pdf))


@pytest.mark.parametrize(("address", "most"), [*zip(PAGES, (12, 11, 7), strict=True), (COPY, 16)])
def test_the_print_is_a_few_a4_pages(page: Page, disk: str, address: str, most: int) -> None:
    page.goto(f"{disk}/{address}")
    pdf = page.pdf(prefer_css_page_size=True)
    assert 2 <= pages_of(pdf) <= most
    # A4 is 210 × 297 mm (ISO 216): 595 × 842 points.
    assert re.search(rb"/MediaBox\s*\[0 0 59[45](\.\d+)? 84[12](\.\d+)?\]", pdf)


def test_paper_is_black_on_white_with_an_empty_box_a_round(page: Page, disk: str) -> None:
    page.emulate_media(media="print", color_scheme="dark")
    page.goto(f"{disk}/shore-crab/index.html")
    page.evaluate("document.querySelectorAll('.tick').forEach(t => t.checked = true)")
    assert colour(page, "body", "color") == "rgb(0, 0, 0)"
    assert colour(page, "html", "backgroundColor") == "rgb(255, 255, 255)"
    assert colour(page, "#body-r1 .bar .yarn", "fill") == "rgb(255, 255, 255)"
    for hidden in ("nav", ".settings", ".skip", ".report"):
        assert colour(page, hidden, "display") == "none"
    rows = page.locator("li.round")
    boxes = page.locator("li.round > input.tick:visible")
    assert rows.count() == boxes.count() > 20
    assert colour(page, "li.round", "breakInside") == "avoid"
    assert colour(page, "h2", "breakAfter") == "avoid"
    mark = "getComputedStyle(document.querySelector('#body-r1-done'), '::before').display"
    assert page.evaluate(mark) == "none"


def test_the_foot_of_the_print_names_the_terms_that_are_shown(page: Page, disk: str) -> None:
    page.emulate_media(media="print")
    page.goto(f"{disk}/shore-crab/index.html")
    # Chromium takes `page: auto` for the plain page.
    assert colour(page, "body", "page") == "auto"
    page.evaluate("document.getElementById('terms-uk').checked = true")
    assert colour(page, "body", "page") == "other-terms"
    page.goto(f"{disk}/{COPY}")
    assert colour(page, "body", "page") == "test-copy"


def test_the_tester_copy_can_be_filled_in(page: Page, root: str) -> None:
    page.goto(f"{root}/{COPY}")
    page.fill("[name='body-r7-note']", "I made 43")
    page.fill("[name='tester-name']", "7")
    page.check("[name='gauge-met'][value='nearly']")
    page.press("[name='tester-name']", "Enter")  # must not send the form or empty it
    assert page.input_value("[name='body-r7-note']") == "I made 43"
    assert page.input_value("[name='version']") != ""
    assert page.url.endswith(COPY)
    assert page.get_attribute("meta[name='robots']", "content") == "noindex"


ENDLESS = "W" * 200


@pytest.mark.parametrize("old", ["title: Pebble", "name: slate grey", "name: Upper", "care: Hand"])
def test_a_word_without_end_does_not_burst_the_page(page: Page, tmp_path: Path, old: str) -> None:
    text = PEBBLE.replace(old, f"{old.split(':')[0]}: {ENDLESS}", 1)
    sheet = yarn_sheet(proof_of(text).pattern)
    for name, html in (("page", page_of(text)), ("copy", copy_for_testers(text))):
        page.goto(written(tmp_path, name, html, sheet))
        for width in (320, 736, 1280):
            page.set_viewport_size({"width": width, "height": 800})
            assert page.evaluate("document.documentElement.scrollWidth") <= width, (name, width)


def test_huge_counts_do_not_burst_the_page(page: Page, tmp_path: Path) -> None:
    text = (
        "terms: US\npieces:\n  vast: |\n    R1: 10000000 sc in magic ring (10000000)\n"
        "    R99990-R99995: sc around (10000000)\n"
    )
    page.goto(written(tmp_path, "vast", page_of(text), ""))
    for width in (320, 736, 1120, 1280):
        page.set_viewport_size({"width": width, "height": 800})
        assert page.evaluate("document.documentElement.scrollWidth") <= width, width


def test_a_preview_shows_what_is_needed_and_no_round(page: Page, tmp_path: Path) -> None:
    text = PEBBLE.replace("status: published", "status: published\nshow: preview")
    page.goto(written(tmp_path, "preview", page_of(text), yarn_sheet(proof_of(text).pattern)))
    assert page.locator(".round").count() == 0
    assert page.locator("#materials").is_visible()
