"""With script switched off, a page says all that it says with script, on screen and on paper."""

from __future__ import annotations

import io
import re
from collections import Counter

import pytest
from playwright.sync_api import Browser, Page
from pypdf import PdfReader

from quality.opening import opened

pytestmark = pytest.mark.browser

SEEN = """() => {
  const said = [];
  for (const part of document.querySelectorAll("details")) part.open = true;
  const walk = document.createTreeWalker(document.querySelector("main"), NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) {
    const parent = walk.currentNode.parentElement;
    const words = walk.currentNode.data.replace(/\\s+/g, " ").trim();
    if (words && parent.checkVisibility({ visibilityProperty: true })) said.push(words);
  }
  return said;
}"""


def words_of(page: Page) -> list[str]:
    found: list[str] = page.evaluate(SEEN)
    return found


def test_whatever_is_said_with_script_is_said_without(
    browser: Browser, host: str, looked_at: tuple[str, ...]
) -> None:
    """What script adds is its own: controls for what cannot be done without it, which stand in
    parts that are `hidden` in the page as it comes."""
    missing = {}
    for address in looked_at:
        with opened(browser) as page:
            page.goto(f"{host}/{address}")
            page.evaluate(  # what script alone has shown is not asked for
                """async () => {
                  const text = await (await fetch(location.href)).text();
                  const plain = new DOMParser().parseFromString(text, "text/html");
                  for (const part of plain.querySelectorAll("[hidden][id]")) {
                    document.getElementById(part.id)?.remove();
                  }
                }"""
            )
            with_script = words_of(page)
        with opened(browser, java_script_enabled=False) as page:
            page.goto(f"{host}/{address}")
            without = set(words_of(page))
        if lost := [words for words in with_script if words not in without]:
            missing[address] = lost[:5]
    assert missing == {}


def test_every_round_is_on_paper_without_script(browser: Browser, host: str) -> None:
    """The printed page as a PDF, its words read back with pypdf."""
    with opened(browser, java_script_enabled=False) as page:
        page.goto(f"{host}/patterns/hundred-rounds/index.html")
        pdf = page.pdf(prefer_css_page_size=True)
    text = "\n".join(sheet.extract_text() for sheet in PdfReader(io.BytesIO(pdf)).pages)
    rounds = Counter(re.findall(r"\bR(\d+)\b", text))
    for number in range(1, 26):
        assert rounds[str(number)] >= 4, number
    assert len(re.findall(r"6\s+sc\s+in\s+magic\s+ring", text)) == 4
