"""The tester's form as a tester fills it in, for the tests of it in a browser."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from io import StringIO
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, BrowserContext, Page, expect
from ruamel.yaml import YAML

from rendering import proof_of, rendered, written
from roundproof.pages import tester
from roundproof.pages.pattern import pattern_page
from roundproof.pages.values import Picture
from roundproof.pages.yarns import yarn_sheet

COPY = "shore-crab/tester.html"
SAVE = "Save the file to send back"


@contextmanager
def phone(browser: Browser) -> Iterator[BrowserContext]:
    """A new phone, on which nothing is kept."""
    with browser.new_context(
        viewport={"width": 390, "height": 844}, reduced_motion="reduce", accept_downloads=True
    ) as context:
        yield context


@contextmanager
def opened(context: BrowserContext, address: str) -> Iterator[Page]:
    """A test copy on which no error may occur."""
    page = context.new_page()
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on(
        "console",
        lambda m: wrong.append(f"{m.text} {m.location['url']}") if m.type == "error" else None,
    )
    page.goto(address)
    yield page
    assert wrong == [], wrong


def pebble_copy(folder: Path, name: str, text: str) -> str:
    proof = proof_of(text)
    shown = pattern_page(proof, {"eyes.png": Picture("eyes.png", 40, 30, "eyes.png 40w")})
    html = rendered("tester.html", page=tester.tester_page(proof, shown))
    return written(folder, name, html, yarn_sheet(proof.pattern))


def saved(page: Page, folder: Path) -> Path:
    with page.expect_download() as started:
        page.get_by_role("button", name=SAVE).click()
    file = folder / started.value.suggested_filename
    started.value.save_as(file)
    return file


def read(file: Path) -> Any:
    return YAML(typ="safe", pure=True).load(StringIO(file.read_bytes().decode("utf-8")))


def report(page: Page, folder: Path) -> Any:
    return read(saved(page, folder))


def said(page: Page) -> str:
    return page.locator("#your_report .said").inner_text()


def take(page: Page, file: Path) -> str:
    page.set_input_files("#your_report input[type=file]", file)
    expect(page.locator("#your_report .said")).not_to_have_text("")
    return said(page)


def more(page: Page, row: str, **parts: str) -> None:
    """Write in what lies folded below the remark of a round."""
    box = page.locator(f"#{row} .kinds")
    if box.get_attribute("open") is None:
        box.locator("summary").click()
    for part, value in parts.items():
        field = box.locator(f"[data-part={part}]")
        field.select_option(value) if part == "kind" else field.fill(value)


def fill_all(page: Page) -> None:
    """Something in every part of the form."""
    for name, words in {
        "tester-name": "7", "deadline": "Friday", "stitches-1": "480", "stitches-3": "1,240",
        "body-r8-note": "the decrease is hard to see", "leg-r4-r7-note": "made 43",
        "version": "1.1.0", "started": "2026-05-10", "finished": "2026-05-20",
        "yarn-y1": "Harbour cotton, 100 % cotton, rust", "ball-y1": "50/125", "before-y1": "50",
        "after-y1": "31,4", "before-y2": "1.1 oz", "hook": "3", "hook-make": "Bamboo",
        "stuffing": "6", "gauge-stitches-y1": "22", "gauge-rounds-y1": "24.5",
        "gauge-over-y1": "10", "size-1": "3.1", "size-2": '3.7"', "size-points": "eye to leg",
        "hours-crochet": "5", "hours-assembly": "1:30", "correction-0-where": "claw R9",
        "correction-0-read": "12", "correction-2-did": "ripped back", "guessed": "the eyes",
        "materials-missing": "pins", "words-missing": "BLO", "reading-aids": "a ruler",
        "credit": "Ada",
    }.items():  # fmt: skip
        page.fill(f"[name='{name}']", words)
    for name, value in {
        "gauge-met": "nearly", "correction-0-kind": "cannot go on",
        "photos-enough": "none in my copy", "difficulty": "as said",
        "your-hand": "left", "pictures-shown": "yes, without my name",
    }.items():  # fmt: skip
        page.check(f"[name='{name}'][value='{value}']")
    page.check("[name='pictures'][value='side']")
    page.check("[name='pictures'][value='front']")
    more(page, "leg-r4-r7", kind="wrong count", read="12", instead="(sc, inc) x 4")
    more(page, "claw-r1", read="6 sc")


WHOLE = {
    "format": 1,
    "pattern": "shore-crab",
    "version": "1.1.0",
    "tester": "7",
    "started": "2026-05-10",
    "finished": "2026-05-20",
    "hook": "3 mm",
    "hook_make": "Bamboo",
    "yarns": {
        "bronze": {
            "yarn": "Harbour cotton, 100 % cotton, rust",
            "ball": "50 g / 125 m",
            "before": "50 g",
            "after": "31.4 g",
        },
        "sand": {"before": "1.1 oz"},
    },
    "stuffing": "6 g",
    "gauge": {"bronze": {"stitches": 22, "rounds": 24.5, "over": "10 cm"}},
    "gauge_met": "nearly",
    "size": {"height": "3.1 cm", "width": "3.7 in", "points": "eye to leg"},
    "time": {"crochet": "5 h", "assembly": "90 min"},
    "rounds": {
        "body": {"R8": "the decrease is hard to see"},
        "claw": {"R1": {"kind": "remark", "read": "6 sc"}},
        "leg": {
            "R4-R7": {
                "kind": "wrong count",
                "read": "12",
                "did": "made 43",
                "instead": "(sc, inc) x 4",
            }
        },
    },
    "corrections": [
        {"where": "claw R9", "kind": "cannot go on", "read": "12"},
        {"where": "not said", "did": "ripped back"},
    ],
    "stitches": {"body": 480, "claw": 1240},
    "guessed": "the eyes",
    "materials": "pins",
    "abbreviations": "BLO",
    "photos_enough": "none in my copy",
    "difficulty": "as said",
    "hand": "left",
    "reading_aids": "a ruler",
    "pictures": {"taken": ["front", "side"], "shown": "yes, without my name", "credit": "Ada"},
}
"""What the file says of what `fill_all` writes: numbers with their units, nothing that is empty."""
