"""A maker's place: kept on the device, in every copy, back and forth, and as a file."""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

pytestmark = pytest.mark.browser

CRAB, JELLY = "shore-crab/index.html", "moon-jelly/index.html"


@pytest.fixture(params=["disk", "host"])
def root(request: pytest.FixtureRequest, built_site: Path, served_site: str) -> str:
    site = built_site.as_uri() if request.param == "disk" else served_site
    return f"{site}/patterns"


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    context = browser.new_context(
        viewport={"width": 390, "height": 844}, reduced_motion="reduce", accept_downloads=True
    )
    yield context
    context.close()


@pytest.fixture
def page(context: BrowserContext, root: str) -> Iterator[Page]:
    """The crab's page, on which no error may occur."""
    page = context.new_page()
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on("console", lambda m: wrong.append(m.text) if m.type == "error" else None)
    page.goto(f"{root}/{CRAB}")
    yield page
    assert wrong == []


def tick(page: Page, *rows: str) -> None:
    for row in rows:
        page.locator(f"#{row}-done").click()


def bar(page: Page) -> str:
    """What the bar says of the place."""
    return " ".join(page.locator("#place .no").inner_text().replace("\u00a0", " ").split())


def told(page: Page) -> str:
    return page.locator("#told").inner_text()


def current(page: Page) -> list[str]:
    script = "all => all.map(row => row.id)"
    return page.eval_on_selector_all('[aria-current="step"]', script)  # type: ignore[no-any-return]


def test_nothing_of_it_is_there_before_a_tick(page: Page) -> None:
    assert not page.locator("#place").is_visible()
    assert current(page) == []
    tick(page, "body-r1")
    assert current(page) == ["body-r2"]
    assert bar(page) == "Body, R2 of 15"
    assert told(page) == "Body, R1: done. Next: Body, R2."


def test_ticks_are_there_when_the_page_is_opened_again(page: Page, context: BrowserContext) -> None:
    tick(page, "body-r1", "body-r2")
    page.fill("#stopped", "9")
    page.press("#stopped", "Enter")
    page.check("#hook-1")
    page.check("#step-2")
    address = page.url
    page.close()
    again = context.new_page()
    again.goto(address)
    assert again.is_checked("#body-r1-done") and again.is_checked("#body-r2-done")
    assert not again.is_checked("#body-r3-done")
    assert again.is_checked("#hook-1") and again.is_checked("#step-2")
    assert not again.is_checked("#step-1")
    assert again.input_value("#stopped") == "9"
    assert current(again) == ["body-r3"]
    assert again.locator("#body-r3 .bar .stop").count() == 1


def test_each_pattern_has_a_place_of_its_own(page: Page, root: str) -> None:
    tick(page, "body-r1")
    page.goto(f"{root}/{JELLY}")
    assert not page.locator("#place").is_visible()
    tick(page, "bell-r1", "bell-r2")
    page.goto(f"{root}/{CRAB}")
    assert bar(page) == "Body, R2 of 15"


def test_the_bar_ticks_the_round_in_work_and_undo_takes_it_back(page: Page) -> None:
    tick(page, "body-r1")
    box, undo = page.locator("#place .tick"), page.locator("#place .undo")
    box.click()
    box.click()
    assert page.is_checked("#body-r3-done") and not box.is_checked()
    assert bar(page) == "Body, R4 of 15"
    undo.click()
    assert not page.is_checked("#body-r3-done")
    assert bar(page) == "Body, R3 of 15"
    undo.click()
    undo.click()
    assert not page.is_checked("#body-r1-done")
    assert not page.locator("#place").is_visible()


def test_the_bar_is_in_view_wherever_the_page_is(page: Page) -> None:
    tick(page, "body-r1")
    for where in ("#materials", "#assembly", "#words", "#body-r9-r10"):
        page.evaluate("s => document.querySelector(s).scrollIntoView()", where)
        box = page.locator("#place").bounding_box()
        assert box and box["y"] + box["height"] == pytest.approx(844, abs=1), where
    page.locator("#place .no").click()
    expect(page.locator("#body-r2")).to_be_in_viewport()


def test_a_round_that_is_ripped_back_is_where_the_work_goes_on(page: Page) -> None:
    tick(page, "body-r1", "body-r2", "body-r3")
    tick(page, "body-r2")
    assert current(page) == ["body-r2"]
    assert page.is_checked("#body-r3-done")
    page.locator("#place .tick").click()
    assert current(page) == ["body-r4"]


def test_the_work_goes_on_from_any_round(page: Page) -> None:
    tick(page, "body-r1")
    page.locator("#body-r8 > .no").click()
    page.get_by_role("button", name="Go on from here").click()
    assert current(page) == ["body-r8"]
    assert page.is_checked("#body-r7-done") and not page.is_checked("#body-r8-done")
    page.locator("#body-r3 > .no").click()
    page.get_by_role("button", name="Go on from here").click()
    assert page.is_checked("#body-r2-done") and not page.is_checked("#body-r7-done")
    page.locator("#place .undo").click()
    assert current(page) == ["body-r8"] and page.is_checked("#body-r7-done")


def test_a_range_is_ticked_round_by_round(page: Page) -> None:
    page.locator("#leg-r4-r7 > .no").click()
    page.get_by_role("button", name="Go on from here").click()
    box = page.locator("#place .tick")
    assert bar(page) == "Leg 1 of 8, R4 of 13"
    box.click()
    box.click()
    assert bar(page) == "Leg 1 of 8, R6 of 13"
    assert page.evaluate("document.getElementById('leg-r4-r7-done').indeterminate")
    boxes = page.locator("#leg-r4-r7 .boxes input")
    assert [boxes.nth(n).is_checked() for n in range(4)] == [True, True, False, False]
    assert page.locator("#leg-r4-r7 .bar .inked").count() == 2
    page.locator("#leg-r4-r7 summary").click()
    boxes.nth(2).check()
    assert bar(page) == "Leg 1 of 8, R7 of 13"
    boxes.nth(1).uncheck()
    assert bar(page) == "Leg 1 of 8, R5 of 13"
    page.locator("#leg-r4-r7-done").click()
    assert bar(page) == "Leg 1 of 8, R8 of 13"


def test_each_copy_has_ticks_of_its_own(page: Page) -> None:
    section = page.locator("section[aria-labelledby='claw']")
    rows = section.locator("li.round > .tick")
    last = rows.count() - 1
    rows.nth(last).evaluate("b => b.closest('li').querySelector('.no').click()")
    page.get_by_role("button", name="Go on from here").click()
    for _ in range(5):
        page.locator("#place .tick").click()
    assert told(page) == "Claw 1 of 2 is finished. Next: Claw 2 of 2, R1."
    assert bar(page) == "Claw 2 of 2, R1 of 14"
    assert not any(rows.nth(n).is_checked() for n in range(last + 1))
    copies = section.locator(".copies input")
    assert copies.nth(1).is_checked()
    assert copies.nth(0).get_attribute("aria-label") == "Claw 1 of 2, finished"
    copies.nth(0).check()
    assert all(rows.nth(n).is_checked() for n in range(last + 1))
    page.locator("#place .undo").click()
    assert copies.nth(1).is_checked()


def test_an_address_leads_to_a_round_of_a_copy(page: Page, root: str) -> None:
    page.goto(f"{root}/{JELLY}")
    page.goto(f"{root}/{CRAB}#leg-3-r2")
    assert page.locator("section[aria-labelledby='leg'] .copies input").nth(2).is_checked()
    expect(page.locator("#leg-r2")).to_be_in_viewport()


def test_two_windows_show_the_same_place(page: Page, context: BrowserContext) -> None:
    if page.url.startswith("file:"):
        return  # from disk each window is told by the other only when it is opened again
    other = context.new_page()
    other.goto(page.url)
    tick(page, "body-r1")
    expect(other.locator("#body-r1-done")).to_be_checked()
    assert bar(other) == "Body, R2 of 15"


def saved(page: Page, folder: Path) -> Path:
    if page.get_attribute("#keeping", "open") is None:
        page.click("#keeping summary")
    with page.expect_download() as started:
        page.get_by_role("button", name="Save my place as a file").click()
    assert started.value.suggested_filename == "shore-crab-place.json"
    file = folder / "place.json"
    started.value.save_as(file)
    return file


def take(page: Page, file: Path) -> str:
    if page.get_attribute("#keeping", "open") is None:
        page.click("#keeping summary")
    before = page.locator("#keeping .kept").inner_text()
    page.set_input_files("#keeping input[type=file]", file)
    expect(page.locator("#keeping .kept")).not_to_have_text(before)
    return page.locator("#keeping .kept").inner_text()


def test_a_place_goes_to_another_device_as_a_file(
    page: Page, browser: Browser, tmp_path: Path
) -> None:
    tick(page, "body-r1", "body-r2", "leg-r1")
    page.check("#step-1")
    file = saved(page, tmp_path)
    with browser.new_context() as another:
        there = another.new_page()
        there.goto(page.url)
        tick(there, "claw-r1")
        said = take(there, file)
        assert said == "Your place is taken from place.json. Undo brings the one before back."
        assert there.is_checked("#body-r2-done") and there.is_checked("#leg-r1-done")
        assert there.is_checked("#step-1") and not there.is_checked("#claw-r1-done")
        assert bar(there) == "Leg 1 of 8, R2 of 13"
        there.locator("#place .undo").click()
        assert there.is_checked("#claw-r1-done") and not there.is_checked("#body-r2-done")


GOOD: dict[str, Any] = {"format": "roundproof-place", "pattern": "shore-crab", "version": "1.1.0"}


@pytest.mark.parametrize(
    ("content", "said"),
    [
        ("not JSON", "is not a place that was saved from a pattern: nothing is changed."),
        ("[]", "is not a place that was saved from a pattern: nothing is changed."),
        ("null", "is not a place that was saved from a pattern: nothing is changed."),
        ('{"format": "roundproof-place"}', "is not a place that was saved from a pattern"),
        ("x" * 2_000_001, "is too large to be a place."),
        (
            json.dumps(GOOD | {"pattern": "moon-jelly", "title": "<b>Moon jelly</b>", "place": {}}),
            "is a place in <b>Moon jelly</b>, and this is another pattern: nothing is changed.",
        ),
    ],
)
def test_what_is_no_place_in_this_pattern_changes_nothing(
    page: Page, tmp_path: Path, content: str, said: str
) -> None:
    tick(page, "body-r1")
    file = tmp_path / "strange.json"
    file.write_text(content, "utf-8")
    assert said in take(page, file)
    assert bar(page) == "Body, R2 of 15"


def test_of_a_strange_place_only_what_is_here_is_taken(page: Page, tmp_path: Path) -> None:
    place = {
        "done": {
            "body/1/r1": 1, "body/1/r2": 99, "body/1/r3": -1, "body/1/r4": "1", "body/2/r1": 1,
            "leg/8/r4-r7": 3, "leg/9/r1": 1, "__proto__": 1, "nothing/1/r1": 1,
        },
        "ticked": {"step-1": 1, "step-99": 1, "told": 1},
        "copy": {"leg": 8, "claw": 3},
        "stopped": {"body/1/r2": 1e9},
        "here": {"row": "leg/8/r4-r7"},
        "more": {"a": 1},
    }  # fmt: skip
    file = tmp_path / "place.json"
    file.write_text(json.dumps(GOOD | {"version": "1.0.0", "place": place}), "utf-8")
    said = take(page, file)
    assert "It was saved in version 1.0.0." in said
    assert " 11 of its entries are of rounds that are not here." in said
    assert page.is_checked("#body-r1-done") and not page.is_checked("#body-r2-done")
    assert bar(page) == "Leg 8 of 8, R7 of 13"
    assert page.is_checked("#step-1")


def test_a_place_of_an_older_version_is_kept_and_told(page: Page, context: BrowserContext) -> None:
    tick(page, "body-r1")
    page.evaluate(
        "for (const k of Object.keys(localStorage)) if (k.includes('place:'))"
        ' localStorage[k] = localStorage[k].replace(\'"version":"1.1.0"\', \'"version":"1.0.0"\')'
    )
    page.reload()
    here = page.locator("#here").inner_text()
    assert "Your ticks are of version 1.0.0; this is 1.1.0: see what changed." in here
    page.locator("#place .tick").click()
    assert "version" not in page.locator("#here").inner_text()


def test_a_page_works_where_the_browser_keeps_nothing(context: BrowserContext, root: str) -> None:
    context.add_init_script(
        "Storage.prototype.setItem = () => { throw new Error('full') };"
        "Storage.prototype.getItem = () => { throw new Error('refused') };"
    )
    page = context.new_page()
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.goto(f"{root}/{CRAB}")
    tick(page, "body-r1", "body-r2")
    assert bar(page) == "Body, R3 of 15"
    page.click("#keeping summary")
    assert "This browser keeps nothing" in page.locator("#keeping .kept").inner_text()
    page.click("#settings summary")
    page.check("#terms-uk")
    assert page.locator("#body-r3 .do").inner_text().startswith("dc, inc")
    assert wrong == []


@pytest.mark.parametrize(
    "kept",
    [
        "[]",
        "3",
        "{",
        '{"place": 7}',
        '{"place": {"done": [1], "here": {"row": 5}}, "undone": [[["x"]]]}',
    ],
)
def test_what_is_kept_may_be_anything(page: Page, kept: str) -> None:
    tick(page, "body-r1")
    page.evaluate(
        "kept => { for (const k of Object.keys(localStorage)) localStorage[k] = kept }", kept
    )
    page.reload()
    tick(page, "body-r2")
    assert bar(page) in ("Body, R3 of 15", "Body, R1 of 15")
    page.locator("#place .undo").click()


def test_a_mistake_is_reported_from_any_round(page: Page) -> None:
    page.locator("#claw-r3 > .no").click()
    page.locator("#claw-r3").get_by_role("button", name="Report a mistake").click()
    text = page.input_value("#report-claw-r3")
    work = page.locator("#claw-r3 .do").inner_text().replace("\u00a0", " ")
    assert text.startswith("Mistake in Shore crab 1.1.0\nPiece and round: Claw, R3\n")
    assert f"The page says: {work} (" in text.replace("\u00a0", " ")
    if page.url.startswith("http"):
        assert f"At: {page.url.split('#')[0]}#claw-r3\n" in text
    page.locator("#claw-r3").get_by_role("button", name="Close").click()
    assert page.locator(".reporting").count() == 0


def test_a_report_can_be_mailed(context: BrowserContext, built_site: Path, tmp_path: Path) -> None:
    page = context.new_page()
    page.goto(f"{built_site.as_uri()}/patterns/{CRAB}")
    page.evaluate("document.getElementById('place').dataset.contact = 'mailto:errata@example.org'")
    tick(page, "body-r1")
    page.locator("#here").get_by_role("button", name="Report a mistake").click()
    page.fill("#report-body-r2", "Mistake in A & B\nWhat is wrong: 100 % of it")
    link = page.get_by_role("link", name="Write a mail with it").get_attribute("href")
    # RFC 6068: reserved characters are percent-encoded, lines end in %0D%0A.
    assert link == (
        "mailto:errata@example.org?subject=Mistake%20in%20A%20%26%20B"
        "&body=Mistake%20in%20A%20%26%20B%0D%0AWhat%20is%20wrong%3A%20100%20%25%20of%20it"
    )


def test_beginning_again_can_be_undone(page: Page) -> None:
    tick(page, "body-r1", "body-r2")
    page.click("#keeping summary")
    page.get_by_role("button", name="Begin again").click()
    assert not page.is_checked("#body-r1-done")
    assert bar(page) == "Nothing is ticked"
    page.locator("#place .undo").click()
    assert bar(page) == "Body, R3 of 15"


def test_the_screen_is_kept_lit_while_there_is_a_place(context: BrowserContext, root: str) -> None:
    context.add_init_script(
        "window.locks = [];"
        "const lock = () => ({ released: false, release() { this.released = true } });"
        "Object.defineProperty(navigator, 'wakeLock', { value: {"
        " request: async (kind) => { const one = lock(); locks.push(kind, one); return one } } });"
    )
    page = context.new_page()
    page.goto(f"{root}/{CRAB}")
    assert page.evaluate("locks.length") == 0
    tick(page, "body-r1", "body-r2")
    assert page.evaluate("[locks.length, locks[0], locks[1].released]") == [2, "screen", False]
    page.click("#keeping summary")
    page.get_by_label("Keep the screen lit while I work").uncheck()
    assert page.evaluate("locks[1].released")
    page.reload()
    assert not page.is_checked("#keeping .awake input")
    assert page.evaluate("locks.length") == 0
