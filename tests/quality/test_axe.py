"""axe-core (Deque, MPL-2.0) finds nothing on any kind of page, with every rule of its switched on.

That takes in what is off by default: AAA (contrast of 7, targets, links of one purpose), best
practices and experimental rules.

axe cannot tell what colour lies under words on the painted strip, and says so ("incomplete"). Their
contrast is looked at a second time with the same colours laid plainly where they are painted, and
`test_contrast.py` measures all of it in the picture of each page.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from quality.host import hosted
from quality.kinds import kinds
from quality.opening import Ground, opened, unfold

pytestmark = pytest.mark.browser

AXE = Path(__file__).parent / "node_modules/axe-core/axe.min.js"
LEAST_RULES = 100
"""axe-core 4.14 has 104; a run with few would find little."""

RUN = """async (only) => {
  const all = axe.getRules().map((rule) => rule.ruleId);
  const rules = Object.fromEntries(all.map((id) => [id, { enabled: !only || only.includes(id) }]));
  const told = await axe.run(document, { rules, resultTypes: ["violations", "passes"] });
  const brief = (list) => list.flatMap(({ id, nodes }) =>
    nodes.map((n) => `${id}: ${n.target.join(" ")}: ${n.failureSummary}`.replace(/\\s+/g, " ")));
  const passes = told.passes.reduce((sum, { nodes }) => sum + nodes.length, 0);
  return { rules: all.length, violations: brief(told.violations), passes };
}"""
CONTRAST = ["color-contrast", "color-contrast-enhanced"]

PLAIN = """() => {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(`
    .row { background: none !important }
    .row > .s, .s { background: var(--strip-tint) !important }
    .safety { background: var(--buff) !important }
  `);
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
}"""
"""Grounds as they are painted, laid plainly. A constructed sheet is no inline style."""


def axe(page: Page, only: list[str] | None = None) -> dict[str, Any]:
    told: dict[str, Any] = page.evaluate(RUN, only)
    return told


@pytest.mark.parametrize(
    ("ground", "screen"),
    [
        ("white", "phone"),
        ("white", "desktop"),
        ("dark", "phone"),
        ("dark", "desktop"),
        ("cream", "phone"),
    ],
)
def test_axe_finds_nothing(
    browser: Browser, host: str, looked_at: tuple[str, ...], ground: Ground, screen: str
) -> None:
    wrong = []
    with opened(browser, screen, ground) as page:
        for address in looked_at:
            page.goto(f"{host}/{address}")
            page.evaluate(AXE.read_text("utf-8"))
            unfold(page)
            told = axe(page)
            assert told["rules"] >= LEAST_RULES
            wrong += [(address, one) for one in told["violations"]]
    assert wrong == []


def test_axe_finds_nothing_in_the_preview(browser: Browser, preview: Path) -> None:
    wrong = []
    with hosted(preview / "site") as address_of, opened(browser) as page:
        page.route("**/preview/state*", lambda route: route.abort())
        for address in kinds(preview):
            page.goto(f"{address_of}/{address}")
            page.evaluate(AXE.read_text("utf-8"))
            unfold(page)
            wrong += [(address, one) for one in axe(page)["violations"]]
    assert wrong == []


@pytest.mark.parametrize("ground", ["white", "dark", "cream"])
def test_axe_finds_no_lack_of_contrast_on_plain_grounds(
    browser: Browser, host: str, looked_at: tuple[str, ...], ground: Ground
) -> None:
    wrong, counted = [], 0
    with opened(browser, "desktop", ground) as page:
        for address in looked_at:
            page.goto(f"{host}/{address}")
            page.evaluate(AXE.read_text("utf-8"))
            page.evaluate(PLAIN)
            told = axe(page, CONTRAST)
            wrong += [(address, one) for one in told["violations"]]
            counted += told["passes"]
    assert wrong == []
    assert counted > 1_000  # elements whose contrast it could tell


def test_axe_is_awake(browser: Browser) -> None:
    """It does find what is wrong, with rules of each kind: A, AA, AAA, best practice."""
    with opened(browser) as page:
        page.set_content(
            "<html lang=en><title>A</title><main><img src=x><p style='color:#777'>Pale</p>"
            "<p style='color:#666'>Paler than 7</p><h3>Third</h3><a href=a>x</a><a href=b>x</a>"
        )
        page.evaluate(AXE.read_text("utf-8"))
        found = json.dumps(axe(page))
    for rule in ("image-alt", "color-contrast", "color-contrast-enhanced", "page-has-heading-one"):
        assert f'"{rule}:' in found, rule
