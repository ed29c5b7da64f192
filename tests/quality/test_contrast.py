"""Contrast of all words, measured in the picture of the page: whatever paints the ground, and how.

Every page is pictured with its words in one glaring colour and once more without them. Where the
two differ there is ink, and the second picture has what lies under it.

W3C, Web Content Accessibility Guidelines 2.2:
1.4.3 asks 4.5 of words (AA), 1.4.6 asks 7 (AAA), which instructions have here; 1.4.11 asks 3 of
what tells a field or a button from its ground. Words of every size are held to the first two.
"""

from __future__ import annotations

import io
from base64 import b64decode
from collections.abc import Iterator
from typing import Any

import pytest
from PIL import Image, ImageChops
from playwright.sync_api import Browser, Page

from quality.opening import Ground, opened, unfold
from roundproof.drawing.colour import RGB, contrast

pytestmark = pytest.mark.browser

TILE = 4_000
"""Pixels of height that are pictured at once."""
INSTRUCTIONS = ".do, .note .say, .steps, .round .count, .round .no"
GLARING = (255, 0, 255)
INK = """* {{ color: {0} !important; -webkit-text-fill-color: {0} !important;
  text-decoration: none !important; caret-color: transparent !important }}
  svg text {{ fill: {0} !important }}"""

SHEET = """(text) => {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(text);
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
}"""
WORDS = """(instructions) => {
  const found = [];
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) {
    const parent = walk.currentNode.parentElement;
    if (!walk.currentNode.data.trim()) continue;
    if (parent.closest(".vh, .skip, script, title, desc, option, textarea")) continue;
    if (!parent.checkVisibility({ visibilityProperty: true })) continue;
    const style = getComputedStyle(parent);
    const range = document.createRange();
    range.selectNodeContents(walk.currentNode);
    for (const r of range.getClientRects()) {
      if (r.width < 1 || r.height < 1) continue;
      found.push({
        said: walk.currentNode.data.trim().slice(0, 40),
        where: parent.closest("[class]")?.getAttribute("class") ?? parent.tagName,
        ink: parent.closest("svg") ? style.fill : style.color,
        least: parent.closest(instructions) && !parent.closest(".bar, .chip") ? 7 : 4.5,
        box: [r.left + scrollX, r.top + scrollY, r.right + scrollX, r.bottom + scrollY],
      });
    }
  }
  return found;
}"""
FIELDS = """() => [...document.querySelectorAll("input, button, select, textarea")]
  .filter((field) => field.checkVisibility({ visibilityProperty: true }) && !field.closest(".vh"))
  .map((field) => {
    const r = field.getBoundingClientRect();
    const style = getComputedStyle(field);
    return { said: field.id || field.name || field.className || field.type,
             line: style.borderTopColor, wide: parseFloat(style.borderTopWidth),
             at: [r.left + scrollX + r.width / 2, r.top + scrollY] };
  }).filter(({ wide }) => wide > 0)"""


def pictures(page: Page) -> list[Image.Image]:
    """The page from top to bottom in tiles."""
    width, height = page.evaluate(
        "[document.documentElement.clientWidth, document.documentElement.scrollHeight]"
    )
    session, tiles = page.context.new_cdp_session(page), []
    for top in range(0, height, TILE):
        clip = {"x": 0, "y": top, "width": width, "height": min(TILE, height - top), "scale": 1}
        how = {"clip": clip, "captureBeyondViewport": True, "optimizeForSpeed": True}
        taken = session.send("Page.captureScreenshot", how)
        tiles.append(Image.open(io.BytesIO(b64decode(taken["data"]))).convert("RGB"))
    session.detach()
    return tiles


def colour(css: str) -> RGB:
    """`rgb(1, 2, 3)` as a browser tells it; colours that let something through do not occur."""
    inside = css[css.index("(") + 1 : css.index(")")].replace(" ", "").split(",")
    assert len(inside) == 3, css
    red, green, blue = map(int, inside)
    return red, green, blue


def cut(tiles: list[Image.Image], box: list[float]) -> Image.Image | None:
    """What a box of the page shows; None where it runs from one tile into the next."""
    left, top, right, bottom = (round(n) for n in box)
    tile = top // TILE
    if tile >= len(tiles) or bottom // TILE != tile:
        return None
    return tiles[tile].crop((left, top - tile * TILE, right, bottom - tile * TILE))


def under(seen: Image.Image, bare: Image.Image) -> Iterator[RGB]:
    """The colours that lie under ink, which is where the first picture glares and the other does
    not."""
    red, green, blue = ImageChops.difference(seen, bare).split()
    ink = ImageChops.lighter(ImageChops.lighter(red, green), blue).point(lambda n: 255 * (n > 99))
    # No ground is of the glaring colour itself, so it can stand for what is not asked for.
    ground = Image.composite(bare, Image.new("RGB", bare.size, GLARING), ink)
    for _, tone in ground.getcolors(bare.width * bare.height) or ():
        if tone != GLARING:
            yield tone  # type: ignore[misc]


def too_faint(page: Page) -> tuple[list[str], int]:
    """Words and fields with less contrast than they need, and how many were measured."""
    words: list[dict[str, Any]] = page.evaluate(WORDS, INSTRUCTIONS)
    page.evaluate(SHEET, INK.format("#f0f"))
    seen = pictures(page)
    page.evaluate(SHEET, INK.format("transparent"))
    bare = pictures(page)
    faint, measured = [], 0
    for word in words:
        one, other = cut(seen, word["box"]), cut(bare, word["box"])
        if one is None or other is None or not one.width or not one.height:
            continue
        ink = colour(word["ink"])
        if grounds := set(under(one, other)):
            measured += 1
            worst = min(contrast(ink, ground) for ground in grounds)
            if worst < word["least"] - 0.005:
                faint.append(f"{word['where']}: {word['said']!r}: {worst:.2f}")
    for field in page.evaluate(FIELDS):
        x, y = map(round, field["at"])
        beside = cut(bare, [x, y - 3, x + 1, y - 2])
        if beside is not None and beside.height:
            measured += 1
            ratio = contrast(colour(field["line"]), beside.getpixel((0, 0)))  # type: ignore[arg-type]
            if ratio < 3:
                faint.append(f"field {field['said']!r}: {ratio:.2f}")
    return faint, measured


@pytest.mark.parametrize("ground", ["white", "cream", "dark"])
def test_words_and_fields_stand_out_from_what_lies_under_them(
    browser: Browser, host: str, looked_at: tuple[str, ...], ground: Ground
) -> None:
    wrong, measured = {}, 0
    for address in looked_at:
        with opened(browser, "phone", ground) as page:
            page.goto(f"{host}/{address}")
            page.evaluate("document.fonts.ready.then(() => true)")
            unfold(page)
            faint, number = too_faint(page)
            measured += number
            if faint:
                wrong[address] = faint[:6]
    assert wrong == {}
    assert measured > 1_000


def test_the_measure_sees(browser: Browser) -> None:
    """Greys on white by the ratios that are often quoted (from memory): #767676 has 4.54, #777777
    has 4.48; and a word that half its ground hides."""
    with opened(browser) as page:
        page.set_content(
            "<body style='background:#fff;font:20px sans-serif'><p style='color:#767676'>Enough</p>"
            "<p style='color:#777777'>Short</p><p style='color:#000000;width:10em;"
            "background:linear-gradient(90deg,#fff 50%,#333 50%)'>Half of this is lost</p>"
            "<input id=pale style='border:2px solid #ccc'>"
        )
        faint, measured = too_faint(page)
    assert measured == 4
    assert [line.split("'")[1] for line in faint] == ["Short", "Half of this is lost", "pale"]
