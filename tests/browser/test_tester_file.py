"""The file that a tester sends back says exactly what was written, and fills the form again.

It is read by ruamel.yaml (YAML 1.2), a general reader that knows nothing of this form."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page

from conftest import ROOT
from roundproof.pipeline import prove
from roundproof.source import Source
from roundproof.testers.against import Against
from roundproof.testers.read import read_report
from tester_form import (
    COPY,
    WHOLE,
    fill_all,
    more,
    opened,
    pebble_copy,
    phone,
    read,
    report,
    said,
    saved,
    take,
)
from whole_patterns import PEBBLE

pytestmark = pytest.mark.browser


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


@pytest.fixture
def pebble(context: BrowserContext, tmp_path: Path) -> Page:
    """A copy that no build was needed for, on disk."""
    page = context.new_page()
    page.goto(pebble_copy(tmp_path, "pebble", PEBBLE))
    return page


def test_the_file_says_what_was_written(page: Page, tmp_path: Path) -> None:
    fill_all(page)
    file = saved(page, tmp_path)
    assert file.name == "shore-crab-1.1.0-tester-7.yaml"
    assert read(file) == WHOLE
    assert list(read(file)) == list(WHOLE)  # in the order of the format
    assert json.loads(file.read_text("utf-8")) == WHOLE
    assert said(page) == "shore-crab-1.1.0-tester-7.yaml is saved."


def test_the_file_is_taken_as_a_report_without_a_word(page: Page, tmp_path: Path) -> None:
    fill_all(page)
    text = saved(page, tmp_path).read_text("utf-8")
    (result,) = prove(ROOT / "patterns/shore-crab").files
    assert result.proof is not None
    held = Against(result.proof.pattern, result.proof.fabric)
    report = read_report(Source("7.yaml", text), held)
    assert report.findings == ()
    assert report.readable and report.standing.holds
    places = {note.place.words for note in report.notes}
    assert {"leg R4-R7", "body R8", "claw R1", "claw R9", "not said"} <= places


def test_a_saved_file_fills_an_empty_form(page: Page, browser: Browser, tmp_path: Path) -> None:
    fill_all(page)
    file = saved(page, tmp_path)
    with browser.new_context(accept_downloads=True) as another:
        there = another.new_page()
        there.goto(page.url)
        assert take(there, file) == "shore-crab-1.1.0-tester-7.yaml is opened."
        assert there.input_value("#leg-r4-r7 textarea >> nth=0") == "made 43"
        assert there.is_checked("[name='your-hand'][value='left']")
        there.reload()
        assert report(there, tmp_path) == WHOLE


NASTY = [
    "\"quotes\" 'and' \\backslashes\\ \\u0041",
    "lines\nand lines\n\n  more: [1, 2]\n# no comment\n--- \n...",
    "<script>alert(1)</script><img src=x onerror=alert(2)> &amp;",
    "🦀 👩‍👩‍👧‍👦 e\u0301 \U0001f9f6",
    "שלום עולם ‮abc‬ العربية",
    "__proto__",
    "constructor",
    "- !!python/object/apply:os.system [ls] &a *a {{ x }} %TAG",
    "yes",
    "null",
    "~",
    "0x1F",
    "\u0085\u2028\u2029\ufeff\u007f\u0080 \t tab",
    "  kept before and behind  ",
]


def test_words_of_any_kind_come_out_as_they_went_in(
    page: Page, browser: Browser, tmp_path: Path
) -> None:
    rows = page.eval_on_selector_all("li.round", "all => all.map((row) => row.id)")
    for row, words in zip(rows, NASTY, strict=False):
        page.fill(f"[name='{row}-note']", words)
        more(page, row, kind="suggestion", instead=words)
    for name in ("guessed", "correction-1-read"):
        page.fill(f"[name='{name}']", "\n".join(NASTY))
    for name in ("tester-name", "yarn-y1", "hook", "size-1", "gauge-stitches-y1", "hours-crochet"):
        page.fill(f"[name='{name}']", "__proto__ \"'<b>🦀ש")
    file = saved(page, tmp_path)
    found = read(file)
    remarks = [remark for piece in found["rounds"].values() for remark in piece.values()]
    assert [remark["did"] for remark in remarks] == NASTY
    assert [remark["instead"] for remark in remarks] == NASTY
    assert found["guessed"] == found["corrections"][0]["read"] == "\n".join(NASTY)
    odd = "__proto__ \"'<b>🦀ש"
    assert found["tester"] == found["yarns"]["bronze"]["yarn"] == found["hook"] == odd
    assert found["gauge"]["bronze"]["stitches"] == found["size"]["height"] == odd
    assert file.name == "shore-crab-1.1.0-tester-proto__-b-ש.yaml"
    with browser.new_context(accept_downloads=True) as another:
        there = another.new_page()
        there.goto(page.url)
        take(there, file)
        assert report(there, tmp_path) == found
    page.reload()
    assert report(page, tmp_path) == found


def test_half_of_a_character_does_not_break_the_file(page: Page, tmp_path: Path) -> None:
    page.evaluate(
        "const f = document.querySelector('[name=guessed]'); f.value = 'a\\ud83eb';"
        "f.dispatchEvent(new Event('input', { bubbles: true }))"
    )
    assert report(page, tmp_path)["guessed"] == "a\ufffdb"


def test_ounces_and_inches_where_the_tester_uses_them(page: Page, tmp_path: Path) -> None:
    page.check("[name='weighed-in'][value='oz']")
    page.check("[name='measured-in'][value='in']")
    for name, words in {
        "before-y1": "1.75", "after-y1": "31 grams", "ball-y1": "1.75/137", "size-1": "3.7",
        "gauge-over-y1": "4", "hook": "2.5", "hours-crochet": "90 minutes", "size-2": "1/2",
    }.items():  # fmt: skip
        page.fill(f"[name='{name}']", words)
    page.reload()
    found = report(page, tmp_path)
    yarn = {"ball": "1.75 oz / 137 yd", "before": "1.75 oz", "after": "31 g"}
    assert found["yarns"] == {"bronze": yarn}
    assert found["size"] == {"height": "3.7 in", "width": "1/2"}  # no number: as it was typed
    assert found["gauge"] == {"bronze": {"over": "4 in"}}
    assert found["hook"] == "2.5 mm" and found["time"] == {"crochet": "90 min"}


def test_an_empty_form_gives_an_empty_report(page: Page, tmp_path: Path) -> None:
    file = saved(page, tmp_path)
    assert file.name == "shore-crab-1.1.0-tester.yaml"
    assert read(file) == {"format": 1, "pattern": "shore-crab", "version": "1.1.0"}
    assert "does not say yet who you are" in said(page)


@pytest.mark.parametrize(
    ("content", "wrong"),
    [
        ("not YAML: [", "is not a report that was saved from a test copy: nothing is changed."),
        ("", "is not a report that was saved from a test copy: nothing is changed."),
        ("null", "is not a report that was saved from a test copy: nothing is changed."),
        ("[]", "is not a report that was saved from a test copy: nothing is changed."),
        ('{"format": 1}', "is not a report that was saved from a test copy: nothing is changed."),
        (
            json.dumps({"format": "roundproof-place", "pattern": "shore-crab", "place": {}}),
            "is not a report that was saved from a test copy: nothing is changed.",
        ),
        (json.dumps(WHOLE)[:-9], "is not a report that was saved from a test copy"),
        (
            json.dumps(WHOLE | {"pattern": "<b>moon</b>"}),
            "is a report on another pattern, <b>moon</b>: nothing is changed.",
        ),
        ("x" * 2_000_001, "is too large to be a report: nothing is changed."),
    ],
)
def test_what_is_no_report_on_this_pattern_changes_nothing(
    pebble: Page, tmp_path: Path, content: str, wrong: str
) -> None:
    page = pebble
    page.fill("[name='guessed']", "mine")
    file = tmp_path / "strange.yaml"
    file.write_text(content, "utf-8")
    assert wrong in take(page, file)
    page.reload()
    assert page.input_value("[name='guessed']") == "mine"


def test_a_file_takes_the_place_of_what_is_written_only_when_that_is_said(
    page: Page, tmp_path: Path
) -> None:
    page.fill("[name='guessed']", "from the file")
    file = saved(page, tmp_path)
    page.fill("[name='guessed']", "mine")
    page.fill("[name='credit']", "me")
    page.check("#body-r1-done")
    page.set_input_files("#your_report input[type=file]", file)
    page.get_by_role("button", name="Leave it as it is").click()
    assert said(page) == "Nothing is changed."
    assert page.input_value("[name='guessed']") == "mine"
    page.set_input_files("#your_report input[type=file]", file)
    page.get_by_role("button", name="Open it").click()
    assert page.input_value("[name='guessed']") == "from the file"
    assert page.input_value("[name='credit']") == ""
    assert page.is_checked("#body-r1-done")


def test_of_a_strange_report_nothing_is_lost_silently(page: Page, tmp_path: Path) -> None:
    strange = {
        "format": 1, "pattern": "shore-crab", "version": "0.9.0", "tester": 7,
        "rounds": {
            "body": {"R1": "fine", "R99": "gone", "R2": {"kind": "odd kind", "did": "x"}},
            "tail": {"R1": {"kind": "unclear", "did": "a", "read": "b"}},
            "__proto__": {"R1": "polluted"},
        },
        "difficulty": "terrible", "pictures": {"taken": "front"}, "hand": ["left"],
        "yarns": {"pink": {"after": "3 g"}}, "__proto__": {"tester": "nobody"},
        "corrections": [{"where": f"place {n}"} for n in range(6)] + ["just words"],
        "deep": {"a": {"b": {"c": {"d": {"e": 1}}}}},
    }  # fmt: skip
    file = tmp_path / "old.yaml"
    file.write_text(json.dumps(strange), "utf-8")
    words = take(page, file)
    assert "It is a report on version 0.9.0; this is 1.1.0." in words
    assert "Remarks on 3 of its rounds, which are not here, stand under Corrections." in words
    trouble = page.locator("#trouble_").inner_text()
    for left in (
        "rounds body R2 kind: odd kind", "difficulty: terrible", "pictures taken: front",
        "hand: left", "yarns pink after: 3 g", "corrections 6: just words", "deep a b c",
        "__proto__ tester: nobody",
    ):  # fmt: skip
        assert left in trouble, left
    found = report(page, tmp_path)
    assert found["version"] == "0.9.0" and found["tester"] == "7"
    assert found["rounds"] == {"body": {"R1": "fine", "R2": "x"}}
    assert [one["where"] for one in found["corrections"]] == [
        *(f"place {n}" for n in range(6)),
        "body R99 in 0.9.0", "tail R1 in 0.9.0", "__proto__ R1 in 0.9.0",
    ]  # fmt: skip
    assert found["corrections"][-2] == {
        "where": "tail R1 in 0.9.0", "kind": "unclear", "read": "b", "did": "a",
    }  # fmt: skip
    assert page.evaluate("({}).tester === undefined && ({}).R1 === undefined")


def test_a_number_that_comes_back_has_room_for_both_remarks(
    context: BrowserContext, tmp_path: Path
) -> None:
    page = context.new_page()
    text = PEBBLE.replace("      R3: (sc, inc) x 6 (18)\n      Fasten off.\nassembly", (
        "      R1: sc around (12)\n      Fasten off.\nassembly"
    ))  # fmt: skip
    page.goto(pebble_copy(tmp_path, "pebble", text))
    page.fill("[name='under-r1-note']", "first")
    page.fill("[name='under-r1-b-note']", "second")
    file = saved(page, tmp_path)
    found = read(file)
    assert found["rounds"] == {"under": {"R1": "first"}}
    assert found["corrections"] == [
        {"where": "under R1, time 2", "kind": "remark", "did": "second"}
    ]
    page.fill("[name='under-r1-b-note']", "")
    page.set_input_files("#your_report input[type=file]", file)
    page.get_by_role("button", name="Open it").click()
    assert page.input_value("[name='under-r1-b-note']") == "second"
    assert report(page, tmp_path) == found


def test_nothing_is_sent(page: Page, tmp_path: Path) -> None:
    page.evaluate("for (const image of document.images) image.loading = 'eager'")
    page.wait_for_load_state("networkidle")
    asked: list[tuple[str, str]] = []
    page.on("request", lambda request: asked.append((request.method, request.url)))
    fill_all(page)
    saved(page, tmp_path)
    # The browser itself looks for the page's sign, now or later.
    more = [one for one in asked if not one[1].startswith("blob:") and "icon" not in one[1]]
    assert more == []
