"""Pages hold together when they are narrow, when words are large, and when words are spread.

W3C, Web Content Accessibility Guidelines 2.2: 1.4.4 (text doubled), 1.4.10 (320 CSS pixels, which a
screen of 1280 has at 400 %), 1.4.12 (text spacing), 2.5.8 (targets of 24 CSS pixels).
"""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser, Page

from conftest import Launch
from quality.opening import opened, unfold

pytestmark = pytest.mark.browser

LARGE_TEXT = "--blink-settings=defaultFontSize=32"
SIDEWAYS = """(width) => {
  const out = [];
  if (document.documentElement.scrollWidth > width) {
    for (const e of document.querySelectorAll("body *")) {
      const box = e.getBoundingClientRect();
      const pushes = box.right > width + 0.5 && !e.closest("pre, .vh, .skip");
      if (pushes) out.push(e.outerHTML.slice(0, 120));
    }
    out.splice(0, out.length - 3); // the innermost tell most
    out.push(`${document.documentElement.scrollWidth} > ${width}`);
  }
  return out;
}"""
SHEET = """(text) => {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(text);
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
}"""
SPACED = """* { line-height: 1.5 !important; letter-spacing: .12em !important;
  word-spacing: .16em !important } p { margin-bottom: 2em !important }"""
"""The four values of 1.4.12, on everything at once."""
CUT = """() => {
  const own = (e) => [...e.childNodes].some((n) => n.nodeType === 3 && n.data.trim());
  const cut = [];
  for (const e of document.querySelectorAll("main *, footer *, header *")) {
    if (e.closest(".vh, svg, pre, [hidden]") || !own(e) || !e.offsetParent) continue;
    const style = getComputedStyle(e);
    const clips = style.overflowX !== "visible" || style.overflowY !== "visible";
    if (clips && (e.scrollWidth > e.clientWidth + 1 || e.scrollHeight > e.clientHeight + 1)) {
      cut.push(e.outerHTML.slice(0, 120));
    }
  }
  return cut.slice(0, 3);
}"""
OVERLAP = """() => {
  // What is stuck to the window goes over the page, and the page scrolls on below it.
  const isStuck = (e) => e && (/fixed|sticky/.test(getComputedStyle(e).position) ||
    isStuck(e.parentElement));
  const words = [];
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) {
    const parent = walk.currentNode.parentElement;
    if (!walk.currentNode.data.trim()) continue;
    if (parent.closest("svg, .vh, .skip, option, textarea")) continue;
    if (!parent.checkVisibility({ visibilityProperty: true })) continue;
    if (isStuck(parent)) continue;
    const range = document.createRange();
    range.selectNodeContents(walk.currentNode);
    for (const r of range.getClientRects()) {
      if (r.width > 1) words.push({ r, parent, said: walk.currentNode.data.trim().slice(0, 30) });
    }
  }
  words.sort((a, b) => a.r.top - b.r.top);
  const over = [];
  for (let i = 0; i < words.length; i++) {
    const a = words[i];
    for (let j = i + 1; j < words.length && words[j].r.top < a.r.bottom; j++) {
      const b = words[j];
      const wide = Math.min(a.r.right, b.r.right) - Math.max(a.r.left, b.r.left);
      const high = Math.min(a.r.bottom, b.r.bottom) - Math.max(a.r.top, b.r.top);
      // Boxes of lines may touch; half a line over another hides words.
      if (wide > 2 && high > 0.5 * Math.min(a.r.height, b.r.height)) over.push([a.said, b.said]);
    }
  }
  return over.slice(0, 5);
}"""


def each(browser: Browser, host: str, looked_at: tuple[str, ...], width: int, height: int = 800):  # type: ignore[no-untyped-def]
    """Every page to look at, unfolded, in a window of that size."""
    with opened(browser, "phone") as page:
        page.set_viewport_size({"width": width, "height": height})
        for address in looked_at:
            page.goto(f"{host}/{address}")
            unfold(page)
            yield page, address


def sideways(page: Page, width: int) -> list[str]:
    found: list[str] = page.evaluate(SIDEWAYS, width)
    return found


# 1280 × 1024 at 400 % is 320 × 256.
@pytest.mark.parametrize("size", [(320, 800), (320, 256), (360, 780)])
def test_nothing_has_to_be_pushed_sideways(
    browser: Browser, host: str, looked_at: tuple[str, ...], size: tuple[int, int]
) -> None:
    wrong = {}
    for page, address in each(browser, host, looked_at, *size):
        if found := sideways(page, size[0]) + page.evaluate(OVERLAP):
            wrong[address] = found
    assert wrong == {}


def test_text_twice_as_large_fits(launch: Launch, host: str, looked_at: tuple[str, ...]) -> None:
    """A reader who has set the browser's own text to 32 pixels in place of 16."""
    wrong, browser = {}, launch(LARGE_TEXT)
    for width in (390, 1280):
        for page, address in each(browser, host, looked_at, width):
            assert page.evaluate("getComputedStyle(document.documentElement).fontSize") == "32px"
            if found := sideways(page, width) + page.evaluate(CUT) + page.evaluate(OVERLAP):
                wrong[address, width] = found
    assert wrong == {}


def test_text_spread_wide_is_not_cut(
    browser: Browser, host: str, looked_at: tuple[str, ...]
) -> None:
    wrong = {}
    for width in (320, 1280):
        for page, address in each(browser, host, looked_at, width):
            page.evaluate(SHEET, SPACED)
            if found := sideways(page, width) + page.evaluate(CUT) + page.evaluate(OVERLAP):
                wrong[address, width] = found
    assert wrong == {}


def test_the_looks_themselves_see(browser: Browser) -> None:
    """A page with each of the faults: each is found."""
    with opened(browser, "phone") as page:
        page.set_content(
            "<main><div style='width:900px'>Wide</div>"
            "<p style='height:1em;overflow:hidden;width:5em'>Cut where the box ends, it is</p>"
            "<p style='position:absolute;top:90px;left:0'>Over</p>"
            "<p style='position:absolute;top:92px;left:0'>Under</p></main>"
        )
        assert sideways(page, 390) and page.evaluate(CUT) and page.evaluate(OVERLAP)
