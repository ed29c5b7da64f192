"""With script switched off, all that a page says is there, on the screen and on paper."""

from __future__ import annotations

import io
import re
from collections import Counter

import pytest
from playwright.sync_api import Browser
from pypdf import PdfReader

from quality.opening import opened

pytestmark = pytest.mark.browser

UNSEEN = """() => {
  const unseen = [];
  for (const part of document.querySelectorAll("details")) part.open = true;
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  let seen = 0;
  while (walk.nextNode()) {
    const parent = walk.currentNode.parentElement;
    const words = walk.currentNode.data.trim();
    if (!words || parent.closest("[hidden], script, title, desc")) continue;
    if (parent.checkVisibility({ visibilityProperty: true, opacityProperty: true })) seen++;
    else unseen.push(`${parent.className || parent.localName}: ${words.slice(0, 60)}`);
  }
  return [seen, unseen];
}"""


def test_whatever_a_page_says_is_seen_without_script(
    browser: Browser, host: str, looked_at: tuple[str, ...]
) -> None:
    """What only script can make use of, and the other of two ways to say a thing, is `hidden` in
    the page as it comes. Everything else is there to be read; nothing waits for a script."""
    missing = {}
    with opened(browser, java_script_enabled=False) as page:
        for address in looked_at:
            page.goto(f"{host}/{address}")
            seen, unseen = page.evaluate(UNSEEN)
            assert seen > 5, address
            if unseen:
                missing[address] = unseen[:6]
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
