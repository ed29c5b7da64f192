"""The tester's form: kept as it is written, in every window, in every version, and on paper."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from tester_form import COPY, WHOLE, fill_all, more, opened, pebble_copy, phone, report
from whole_patterns import PEBBLE

pytestmark = pytest.mark.browser

AGAIN = "Begin again"


@pytest.fixture(params=["disk", "host"])
def root(request: pytest.FixtureRequest, built_site: Path, served_site: str) -> str:
    site = built_site.as_uri() if request.param == "disk" else served_site
    return f"{site}/patterns"


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    with phone(browser) as context:
        yield context


@pytest.fixture
def page(context: BrowserContext, root: str) -> Iterator[Page]:
    """The crab's test copy."""
    with opened(context, f"{root}/{COPY}") as page:
        yield page


def test_what_is_written_is_there_when_the_page_is_opened_again(
    page: Page, context: BrowserContext, tmp_path: Path
) -> None:
    # Drawings are loaded when they are scrolled to, which is none of the form's doing.
    page.evaluate("for (const image of document.images) image.loading = 'eager'")
    page.wait_for_load_state("networkidle")
    context.set_offline(True)  # nothing of it needs a network
    fill_all(page)
    page.check("#body-r1-done")
    page.check("#hook-1")
    page.check("#step-2")
    page.locator("#leg-r4-r7 .each summary").click()
    page.locator("#leg-r4-r7 .boxes input").nth(2).check()
    page.locator("section[aria-labelledby='claw'] .copies input").nth(1).check()
    address = page.url
    page.close()
    context.set_offline(False)
    again = context.new_page()
    again.goto(address)
    context.set_offline(True)
    assert report(again, tmp_path) == WHOLE
    assert again.input_value("[name='deadline']") == "Friday"
    for box in ("#body-r1-done", "#hook-1", "#step-2"):
        assert again.is_checked(box)
    boxes = again.locator("#leg-r4-r7 .boxes input")
    assert [boxes.nth(n).is_checked() for n in range(4)] == [False, False, True, False]
    copies = again.locator("section[aria-labelledby='claw'] .copies input")
    assert [copies.nth(n).is_checked() for n in range(2)] == [False, True]
    assert again.locator("#leg-r4-r7 .kinds").get_attribute("open") is not None
    assert again.locator("#body-r1 .kinds").get_attribute("open") is None


def sums(page: Page) -> list[str]:
    return page.locator("#your_report [data-sum]").all_inner_texts()


def test_it_is_told_how_much_is_filled_in(page: Page) -> None:
    rounds = page.locator("li.round").count()
    ticked, remarks, answered = sums(page)
    assert (ticked, remarks) == (f"0 of {rounds}", "0") and answered.startswith("0 of ")
    page.check("#body-r1-done")
    page.fill("[name='body-r1-note']", "so")
    more(page, "body-r2", kind="unclear")
    page.fill("[name='guessed']", "where")
    page.check("[name='pictures'][value='side']")
    assert sums(page)[:2] == [f"1 of {rounds}", "2"] and sums(page)[2].startswith("2 of ")


def has_come(page: Page, words: str) -> None:
    """What another window kept reaches this one a moment later: browsers pass it on by and by."""
    page.wait_for_function("words => Object.values(localStorage).join().includes(words)", arg=words)


def test_two_windows_show_the_same_and_lose_nothing_of_each_other(
    page: Page, context: BrowserContext, tmp_path: Path
) -> None:
    other = context.new_page()
    other.goto(page.url)
    page.fill("[name='guessed']", "from the first")
    if page.url.startswith("http"):  # from disk no window is told by another
        expect(other.locator("[name='guessed']")).to_have_value("from the first")
    has_come(other, "from the first")
    other.fill("[name='materials-missing']", "from the second")
    has_come(page, "from the second")
    page.check("#body-r1-done")
    for window in (page, other):
        window.reload()
        found = report(window, tmp_path)
        assert found["guessed"] == "from the first"
        assert found["materials"] == "from the second"
        assert window.is_checked("#body-r1-done")


def test_beginning_again_is_asked_first(page: Page, context: BrowserContext) -> None:
    fill_all(page)
    page.check("#body-r1-done")
    page.get_by_role("button", name=AGAIN).click()
    page.get_by_role("button", name="Leave it as it is").click()
    assert page.input_value("[name='guessed']") == "the eyes"
    page.get_by_role("button", name=AGAIN).click()
    page.locator(".asking").get_by_role("button", name=AGAIN).click()
    for _ in range(2):
        assert page.input_value("[name='guessed']") == ""
        assert page.input_value("[name='version']") == "1.1.0"
        assert not page.is_checked("#body-r1-done")
        assert not page.is_checked("[name='your-hand'][value='left']")
        page.reload()
    kept = page.evaluate("Object.entries(localStorage).filter(([k]) => k.includes('tester:'))")
    assert "eyes" not in json.dumps(kept) and "Ada" not in json.dumps(kept)


def test_a_new_version_keeps_the_old_answers_and_says_so(
    context: BrowserContext, tmp_path: Path
) -> None:
    page = context.new_page()
    page.goto(pebble_copy(tmp_path / "a", "pebble", PEBBLE))
    page.fill("[name='upper-r7-note']", "still there")
    page.fill("[name='under-r3-note']", "gone")
    more(page, "under-r3", kind="unclear", read="that")
    page.fill("[name='stitches-3']", "36")
    page.fill("[name='tester-name']", "7")
    page.fill("[name='correction-0-where']", "label")
    page.check("#upper-r1-done")
    text = PEBBLE.replace("version: 1.2.0", "version: 1.3.0")
    gone = "      R3: (sc, inc) x 6 (18)\n      Fasten off.\nassembly"
    assert gone in text
    new = text.replace(gone, "      Fasten off.\nassembly")
    (tmp_path / "a/patterns/pebble").rename(tmp_path / "old")
    page.goto(pebble_copy(tmp_path / "a", "pebble", new))
    for _ in range(2):
        trouble = page.locator("#trouble_").inner_text()
        assert "Your answers from version 1.2.0 are filled in. This is 1.3.0" in trouble
        found = report(page, tmp_path)
        assert found["version"] == "1.3.0" and found["tester"] == "7"
        assert found["rounds"] == {"upper": {"R7": "still there"}}
        assert found["corrections"] == [
            {"where": "label"},
            {"where": "under R3 in 1.2.0", "kind": "unclear", "read": "that", "did": "gone"},
        ]
        assert found["stitches"] == {"under": 36}
        assert page.is_checked("#upper-r1-done")
        page.reload()
    # What was written in the old version is still there for it.
    (tmp_path / "a/patterns/pebble").rename(tmp_path / "new")
    page.goto(pebble_copy(tmp_path / "a", "pebble", PEBBLE))
    assert page.input_value("[name='under-r3-note']") == "gone"
    assert page.locator("#trouble_").inner_text() == ""


@pytest.mark.parametrize("what", ["refused", "full"])
def test_a_browser_that_keeps_nothing_is_told_of_and_loses_nothing(
    context: BrowserContext, root: str, tmp_path: Path, what: str
) -> None:
    refuse = "Storage.prototype.getItem = () => { throw new Error('refused') };"
    context.add_init_script(
        "Storage.prototype.setItem = () => { throw new Error('full') };"
        + (refuse if what == "refused" else "")
    )
    page = context.new_page()
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.goto(f"{root}/{COPY}")
    expect(page.locator("#trouble_")).to_contain_text("This browser keeps nothing for this page")
    fill_all(page)
    page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
    assert report(page, tmp_path) == WHOLE
    assert wrong == []


def test_no_room_left_while_writing_is_told_and_made_good(page: Page) -> None:
    page.fill("[name='guessed']", "kept")
    assert page.locator("#trouble_").inner_text() == ""
    page.evaluate(
        "window.real = Storage.prototype.setItem;"
        "Storage.prototype.setItem = () => { throw new Error('full') }; 0"
    )
    page.fill("[name='materials-missing']", "not kept yet")
    expect(page.locator("#trouble_")).to_contain_text("has no room left")
    page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
    assert page.input_value("[name='materials-missing']") == "not kept yet"
    page.evaluate("Storage.prototype.setItem = window.real; 0")
    page.fill("[name='credit']", "Ada")
    assert page.locator("#trouble_").inner_text() == ""
    page.reload()
    assert page.input_value("[name='guessed']") == "kept"
    assert page.input_value("[name='materials-missing']") == "not kept yet"
    assert page.input_value("[name='credit']") == "Ada"


ANYTHING = [
    [], 3, {"answers": 7, "left": 3},
    {
        "answers": {"x": 1, '["corrections",1e99]': "", "{": "a", '["tester"]': ["7"]},
        "left": [[1, 2]], "from": {}, "version": [],
    },
]  # fmt: skip


@pytest.mark.parametrize("kept", ["{", *map(json.dumps, ANYTHING)])
def test_what_is_kept_may_be_anything(page: Page, kept: str, tmp_path: Path) -> None:
    page.fill("[name='guessed']", "x")
    page.evaluate(
        "kept => { for (const k of Object.keys(localStorage)) localStorage[k] = kept }", kept
    )
    page.reload()
    page.fill("[name='guessed']", "y")
    page.reload()
    assert report(page, tmp_path)["guessed"] == "y"


def test_more_corrections_find_room(page: Page, tmp_path: Path) -> None:
    for number in range(4, 6):
        page.get_by_role("button", name="One more correction").click()
        assert page.evaluate("document.activeElement.name") == f"correction-{number}-where"
        page.keyboard.type(f"place {number}")
        page.check(f"[name='correction-{number}-kind'][value='unclear']")
    page.reload()
    assert report(page, tmp_path)["corrections"] == [
        {"where": "place 4", "kind": "unclear"},
        {"where": "place 5", "kind": "unclear"},
    ]
    ids = page.eval_on_selector_all("[id]", "all => all.map((e) => e.id)")
    assert len(ids) == len(set(ids))


def test_the_hand_of_the_tester_is_not_that_of_the_settings(page: Page) -> None:
    page.check("[name='your-hand'][value='left']")
    assert page.is_checked("#hand-right")
    page.click("#settings summary")
    page.check("#hand-left")
    page.reload()
    assert page.is_checked("[name='your-hand'][value='left']") and page.is_checked("#hand-left")


@pytest.mark.parametrize("scripted", [True, False])
def test_the_copy_is_with_or_without_pictures(
    browser: Browser, tmp_path: Path, scripted: bool
) -> None:
    address = pebble_copy(tmp_path, "pebble", PEBBLE)
    with browser.new_context(java_script_enabled=scripted) as context:
        page = context.new_page()
        page.goto(address)
        picture = page.locator(".note .photo")
        assert picture.is_visible()
        page.click("#settings summary")
        page.check("#photos-without")
        assert not picture.is_visible()
        assert page.get_by_text(
            "Set the safety eyes"
        ).first.is_visible()  # what is said there stays
        page.emulate_media(media="print")
        assert not picture.is_visible()
        page.emulate_media(media="screen")
        if scripted:
            page.reload()
            assert not picture.is_visible()
            page.click("#settings summary")
        page.check("#photos-with")
        assert picture.is_visible()


def test_without_a_script_the_copy_is_for_paper(browser: Browser, root: str) -> None:
    with browser.new_context(java_script_enabled=False) as context:
        page = context.new_page()
        page.goto(f"{root}/{COPY}")
        sentence = page.locator(".unkept").inner_text()
        assert sentence.startswith("Nor is it kept: print the page")
        assert not page.locator(".kept").is_visible()
        assert not page.locator("#your_report").is_visible()
        assert page.locator("details.kinds").count() == 0
        assert not page.get_by_role("button", name="One more correction").is_visible()


def test_with_a_script_the_page_says_what_is_kept(page: Page) -> None:
    assert not page.locator(".unkept").is_visible()
    assert page.locator(".kept").inner_text().startswith("It is kept on this device alone")


def test_what_is_typed_is_printed_whole(page: Page) -> None:
    long = "a remark that goes on and on, " * 12
    page.fill("[name='body-r7-note']", long + "to its end.")
    more(page, "body-r7", kind="wrong count", read="44")
    page.fill("[name='guessed']", "one\ntwo\nthree\nfour\nfive")
    page.fill("[name='yarn-y1']", "cotton " * 20 + "rust")
    page.fill("[name='credit']", "to be taken off again")
    page.fill("[name='credit']", "")
    page.emulate_media(media="print")
    shown = "all => all.filter((e) => e.checkVisibility()).map((e) => e.textContent)"
    typed = page.eval_on_selector_all(".typed", shown)
    whole = long + "to its end.\nKind: wrong count\nRead: 44"
    assert typed == [whole, "1.1.0", "cotton " * 20 + "rust", "one\ntwo\nthree\nfour\nfive"]
    cut = "(e) => e.scrollWidth > e.clientWidth + 1 || e.scrollHeight > e.clientHeight + 1"
    assert not page.eval_on_selector_all(".typed", f"all => all.some({cut})")
    assert not page.locator("[name='body-r7-note']").is_visible()
    assert page.locator("[name='body-r8-note']").is_visible()  # room to write by hand
    assert not page.locator("#your_report").is_visible()
    assert not page.locator("#body-r7 .kinds").is_visible()


def test_the_filled_form_is_never_pushed_sideways(page: Page) -> None:
    page.set_viewport_size({"width": 320, "height": 700})
    fill_all(page)
    page.fill("[name='body-r7-note']", "W" * 200)
    page.fill("[name='guessed']", "W" * 200)
    page.fill("[name='tester-name']", "W" * 90)
    page.get_by_role("button", name=AGAIN).click()
    page.evaluate("for (const part of document.querySelectorAll('details')) part.open = true")
    for width in (320, 360, 768, 1280):
        page.set_viewport_size({"width": width, "height": 700})
        assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_a_field_grows_with_what_is_written(page: Page) -> None:
    more(page, "body-r7", read="lines\n" * 4)
    whole = "e => e.scrollHeight <= e.clientHeight && e.rows > 3"
    page.fill("[name='body-r7-note']", "a remark of several words, " * 6)
    for _ in range(2):
        assert page.locator("[name='body-r7-note']").evaluate(whole)
        assert page.locator("#body-r7 [data-part='read']").evaluate(whole)
        page.reload()
    page.fill("[name='body-r7-note']", "")
    assert page.locator("[name='body-r7-note']").evaluate("e => e.rows") == 1
