"""The label in a browser: one card of A5, at its longest too."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from rendering import proof_of, rendered
from roundproof.pages.label import MOST_LETTERS, label
from whole_patterns import PEBBLE

pytestmark = pytest.mark.browser

LONG = "Wonderful Wombat Wandering Westwards Without Wellingtons"
"""Of the widest letters."""


def sheets(page: Page, address: str) -> int:
    """How many cards it prints on."""
    page.goto(address)
    pdf = page.pdf(prefer_css_page_size=True)
    # A5 is 148 × 210 mm (ISO 216), lying: 595 × 420 points.
    assert re.search(rb"/MediaBox\s*\[0 0 59[45](\.\d+)? (?:419|420)(\.\d+)?\]", pdf)
    return len(re.findall(rb"/Type\s*/Page\b(?!s)", pdf))


@pytest.mark.parametrize("name", ["moon-jelly", "sea-urchin", "shore-crab"])
def test_a_label_prints_on_one_card(browser: Browser, built_site: Path, name: str) -> None:
    with browser.new_context() as context:
        page = context.new_page()
        assert sheets(page, f"{built_site.as_uri()}/patterns/{name}/label.html") == 1
        page.emulate_media(media="print")
        large = page.locator(".label p, .label dd").evaluate_all(
            "all => Math.min(...all.map(e => parseFloat(getComputedStyle(e).fontSize)))"
        )
        assert large >= 24 - 0.01  # 18 points, the least of museum labels; a point is 4/3 px
        for hidden in (".masthead", ".foot", ".trails"):
            assert not page.locator(hidden).is_visible()


@pytest.mark.parametrize("word", ["Wombats wander westwards", "It is", "Overwhelmingly"])
def test_a_label_at_its_longest_does_too(
    browser: Browser, built_site: Path, tmp_path: Path, word: str
) -> None:
    says = "".join(f"    - {{says: {f'{word} ' * n}., source: 1}}\n" for n in range(1, 9))
    old = "  statements: [{says: Stones are hard., source: 1}]\n"
    text = PEBBLE.replace(old, f"  statements:\n{says}")
    text = text.replace("name: Pebble\n  scientific", f"name: {LONG}\n  scientific")
    text = text.replace("Lapis fictus (Nobody, 1900)", LONG)
    text = text.replace("designer: Roundproof examples", f"designer: {LONG}")
    text = text.replace("A book of stones.", LONG).replace("100 % cotton", f"{LONG} wool")
    text = text.replace("real_size: {width: 34 mm", "real_size: {height: 7 mm, width: 34 mm")
    made = label(proof_of(text))
    assert made is not None
    assert len(made.name) + sum(map(len, made.statements)) <= MOST_LETTERS
    shutil.copytree(built_site / "css", tmp_path / "css")
    shutil.copytree(built_site / "fonts", tmp_path / "fonts")
    place = tmp_path / "patterns/long/label.html"
    place.parent.mkdir(parents=True)
    shutil.copy(built_site / "patterns/moon-jelly/yarns.css", place.parent)
    place.write_text(rendered("label.html", label=made, plate=None), "utf-8")
    with browser.new_context() as context:
        page = context.new_page()
        assert sheets(page, place.as_uri()) == 1
        page.emulate_media(media="print")
        page.set_viewport_size({"width": 725, "height": 491})  # the card but for its margins
        told = page.locator(".label > .w").bounding_box()
        assert told is not None and told["height"] <= 488 + 1  # 129 mm: nothing is cut off
        assert page.evaluate("document.documentElement.scrollWidth") <= 725
