"""'In your yarn' on a pattern's page: what a maker fills in, what comes out, what is kept."""

from __future__ import annotations

import gzip
import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page

from rendering import page_of, proof_of, text_of_page
from roundproof.fabric.work import work
from roundproof.frozen import replace
from roundproof.measure.finished import finished
from roundproof.measure.gauges_said import Unclear, gauges_said
from roundproof.measure.regauge import in_another_gauge, notion_sizes
from roundproof.pages.figures import inches, length, metres, millimetres
from roundproof.pages.sizes import piece_size_words
from roundproof.pages.yarn_data import gauge_lines, in_script, yarn_data
from roundproof.pipeline import prove
from roundproof.proof import Proof
from whole_patterns import PEBBLE

pytestmark = pytest.mark.browser

ROOT = Path(__file__).parents[2]
SECTION = "#in-your-yarn"
CRAB = ("18 sts x 20 rounds = 10 cm",)
TWO = ("bronze: 18 sts x 20 rounds = 10 cm", "pale sand: 25 sts x 20 rounds = 10 cm")


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    yield context
    context.close()


@pytest.fixture
def page(context: BrowserContext, served_site: str) -> Page:
    return opened(context, served_site)


def opened(context: BrowserContext, site: str, name: str = "shore-crab") -> Page:
    page = context.new_page()
    page.goto(f"{site}/patterns/{name}/index.html")
    return page


def fill(page: Page, line: int, stitches: str, rounds: str | None = None) -> None:
    """Write a gauge and leave the field."""
    fields = page.locator("tr[data-yarn]").nth(line).locator("input")
    for place, text in enumerate((stitches, rounds)):
        if text is not None:
            fields.nth(place).fill(text)
            fields.nth(place).blur()


def yours(page: Page, kind: str) -> list[str]:
    """The words of the last column in the rows of a kind that can be seen."""
    rows = page.locator(f"{SECTION} tr[data-row={kind}]").all()
    return [plain(row.locator("td").last.inner_text()) for row in rows if row.is_visible()]


def plain(text: str) -> str:
    return " ".join(text.replace("\u00a0", " ").split())


def in_words(markup: str) -> str:
    """Markup as it is seen with lengths in cm."""
    seen = re.sub(r'<span class="inch" hidden>.*?</span>', "", markup)
    return plain(re.sub(r"<[^>]+>", "", seen))


def regauged(name: str, *said: str) -> tuple[Proof, Proof]:
    (was,) = prove(ROOT / "patterns" / name).proofs
    gauges = gauges_said(was.pattern, was.measures.yarns, said)
    assert not isinstance(gauges, Unclear), gauges.message
    other = in_another_gauge(was.pattern, gauges)
    return was, replace(was, pattern=other, fabric=work(other)[0])


def says_what_the_tool_says(page: Page, was: Proof, now: Proof) -> None:
    whole = finished(was.pattern, was.measures.pieces, now.measures.pieces)
    assert yours(page, "size") == [plain(f"about {length(each.mm or 0)}") for each in whole]
    pieces = [in_words(piece_size_words(size)) for size in now.measures.pieces.values()]
    assert yours(page, "piece") == [words for words in pieces if words]
    fits = [fit.verdict.capitalize() for fit in now.measures.fits if fit.verdict]
    assert yours(page, "fit") == fits
    sizes = notion_sizes(was.pattern, was.fabric, now.pattern, now.fabric)
    assert yours(page, "notion") == [plain(millimetres(each.size_mm)) for each in sizes]
    needs = now.measures.yarns.values()
    assert yours(page, "yarn") == [plain(metres(need.metres or 0)) for need in needs]


# ---- what comes out ----
def test_the_page_says_what_the_tool_says(page: Page) -> None:
    fill(page, 0, "18", "20")
    was, now = regauged("shore-crab", *CRAB)
    says_what_the_tool_says(page, was, now)
    assert "All 3 joins still fit, 1 of them when eased in." in page.inner_text(SECTION)


def test_two_yarns_that_part_leave_joins_that_do_not_fit(page: Page) -> None:
    fill(page, 0, "18", "20")
    fill(page, 1, "25")
    was, now = regauged("shore-crab", *TWO)
    says_what_the_tool_says(page, was, now)
    text = plain(page.inner_text(SECTION))
    for fit in now.measures.fits:
        for count, suggested in zip(fit.counts, fit.suggest, strict=True):
            if fit.verdict == "does not fit" and suggested != count:
                assert f"{suggested}" in text and f"not {count}" in text
    warned = page.locator(f"{SECTION} .results tr.warn[data-row]")
    assert warned.count() == 2
    assert warned.first.locator("svg.sign").is_visible()
    assert "end each claw on 6 stitches, not 8" in text
    ground = "e => getComputedStyle(e).backgroundColor"
    assert warned.first.locator("td").last.evaluate(ground) == "rgb(245, 236, 203)"


def test_a_misfit_is_drawn_to_scale(page: Page) -> None:
    figure = page.locator(f"{SECTION} figure")
    assert not figure.is_visible()
    fill(page, 0, "18", "20")
    assert not figure.is_visible()
    fill(page, 1, "25")
    assert figure.is_visible()
    _, now = regauged("shore-crab", *TWO)
    one, two = next(f.lengths_mm for f in now.measures.fits if f.verdict == "does not fit")
    drawn: dict[str, float] = {}
    for rect in figure.locator("rect").all():
        if rect.get_attribute("class") != "short":
            top = rect.get_attribute("y") or ""
            drawn[top] = drawn.get(top, 0.0) + float(rect.get_attribute("width") or 0)
    long, short = drawn.values()
    assert one and two
    assert long / short == pytest.approx(one / two, rel=0.001)


def test_a_maker_who_measures_in_inches(page: Page) -> None:
    page.evaluate("document.documentElement.dataset.units = 'inch'")
    page.locator("#settings summary").first.click()
    page.locator("#units-inch").check()
    assert "In 4 in" in plain(page.inner_text(f"{SECTION} .entry thead"))
    field = page.locator("tr[data-yarn] input").first
    assert field.input_value() == "25.4"  # 25 to 10 cm
    fill(page, 0, "18", "20")
    was, now = regauged("shore-crab", "18 sts x 20 rounds = 4 in")
    whole = finished(was.pattern, was.measures.pieces, now.measures.pieces)
    assert yours(page, "size") == [plain(f"about {inches(each.mm or 0)}") for each in whole]
    page.locator("#units-cm").check()
    assert field.input_value() == "17.7"
    assert yours(page, "size") == [plain(f"about {length(each.mm or 0)}") for each in whole]
    page.locator("#units-inch").check()
    assert field.input_value() == "18"


def test_a_yarn_that_knows_nothing_of_the_others_keeps_its_own(
    context: BrowserContext, served_site: str
) -> None:
    page = opened(context, served_site, "moon-jelly")
    fill(page, 0, "20", "20")
    fill(page, 2, "16", "16")
    gauges = ("fine cotton: 20 sts x 20 rounds = 10 cm", "gauze: 16 sts x 16 rounds = 10 cm")
    says_what_the_tool_says(page, *regauged("moon-jelly", *gauges))


def test_the_colours_of_a_yarn_go_with_the_first_until_they_are_written_in(page: Page) -> None:
    second = page.locator("tr[data-yarn]").nth(1).locator("input").first
    fill(page, 0, "18")
    assert second.input_value() == "18"
    fill(page, 1, "21")
    fill(page, 0, "17")
    assert second.input_value() == "21"
    fill(page, 1, "17")
    fill(page, 0, "19")
    assert second.input_value() == "19"


# ---- what may be written ----
def test_a_comma_and_a_half_are_read(page: Page) -> None:
    proofs = regauged("shore-crab", "18.5 sts x 20 rounds = 10 cm")
    for text in ("18,5", "18.5", " 18.5 ", "18½"):
        fill(page, 0, "30", "30")
        fill(page, 0, text, "20")
        says_what_the_tool_says(page, *proofs)


NO_GAUGE = {
    "": "Write how many stitches come to 10 cm, such as 18.",
    "0": "0 stitches to 10 cm cannot be",
    "-5": "“-5” is no number of stitches.",
    "many": "“many” is no number of stitches.",
    "1e3": "“1e3” is no number of stitches.",
    "18 sts": "“18 sts” is no number of stitches.",
    "Infinity": "“Infinity” is no number of stitches.",
    "100000": "100000 stitches to 10 cm cannot be",
    "0.2": "0.2 stitches to 10 cm cannot be",
    "<b>1": "“<b>1” is no number of stitches.",
}


def test_what_is_no_gauge_is_told_at_the_field_and_nothing_follows(page: Page) -> None:
    proofs = regauged("shore-crab", *CRAB)
    field = page.locator("tr[data-yarn]").nth(1).locator("input").first
    told = page.locator(f"#{field.get_attribute('aria-describedby')}")
    fill(page, 0, "18", "20")
    for text, why in NO_GAUGE.items():
        fill(page, 1, text)
        assert field.get_attribute("aria-invalid") == "true"
        assert why in plain(told.inner_text())
        assert not page.locator(f"{SECTION} .results").is_visible()
        assert "The figures follow when every gauge is a number." in page.inner_text(SECTION)
        fill(page, 1, "18")
        assert field.get_attribute("aria-invalid") is None and not told.is_visible()
        says_what_the_tool_says(page, *proofs)


def test_nothing_is_called_wrong_while_it_is_being_written(page: Page) -> None:
    field = page.locator("tr[data-yarn] input").first
    field.fill("")
    assert field.get_attribute("aria-invalid") is None
    page.wait_for_selector(f"{SECTION} [aria-invalid]", timeout=3000)


# ---- what is kept ----
def test_what_is_written_is_kept_on_the_device(context: BrowserContext, served_site: str) -> None:
    page = opened(context, served_site)
    fill(page, 0, "18,5", "20")
    fill(page, 1, "25")
    page.close()
    again = opened(context, served_site)
    values = [field.input_value() for field in again.locator("tr[data-yarn] input").all()]
    assert values == ["18,5", "20", "25", "20"]
    assert "do not fit" in again.inner_text(SECTION)
    other = opened(context, served_site, "moon-jelly")
    assert not other.locator(f"{SECTION} .follows").is_visible()
    again.locator(f"{SECTION} button").click()
    values = [field.input_value() for field in again.locator("tr[data-yarn] input").all()]
    assert values == ["25", "25", "25", "25"]
    assert not again.locator(f"{SECTION} .follows").is_visible()
    kept = "Object.keys(localStorage).filter(name => name.includes('gauge'))"
    assert again.evaluate(kept) == []


@pytest.mark.parametrize(
    "kept", ['"x"', "[]", '{"bronze": 5}', '{"bronze": [{"text": 9}, 1]}', "{"]
)
def test_what_is_kept_and_cannot_be_read_is_passed_by(
    context: BrowserContext, served_site: str, kept: str
) -> None:
    page = opened(context, served_site)
    said: list[str] = []
    page.on("pageerror", lambda error: said.append(str(error)))
    key = "'roundproof:gauge:' + location.pathname.replace(/[^/]*$/, '')"
    page.evaluate(f"value => localStorage.setItem({key}, value)", kept)
    page.reload()
    assert said == []
    assert page.locator("tr[data-yarn] input").first.input_value() == "25"


def test_it_works_where_nothing_can_be_kept(browser: Browser, served_site: str) -> None:
    context = browser.new_context()
    context.add_init_script("Storage.prototype.setItem = () => { throw new Error('full') }")
    page = opened(context, served_site)
    fill(page, 0, "18", "20")
    assert yours(page, "notion") == ["7 mm"]
    context.close()


# ---- how it stands on the page ----
def test_the_results_are_a_table_with_headers_that_is_read_out(page: Page) -> None:
    fill(page, 0, "18", "20")
    live = page.locator(f"{SECTION} [aria-live=polite]")
    table = live.locator("table.results")
    assert [plain(head.inner_text()) for head in table.locator("thead th[scope=col]").all()] == [
        "What", "As written", "Yours",
    ]  # fmt: skip
    rows = table.locator("tbody tr[data-row]")
    assert rows.count() == table.locator("tbody th[scope=row]").count() > 5
    names = [field.get_attribute("aria-label") for field in page.locator(f"{SECTION} input").all()]
    assert names[0] == "Your stitches in 10 cm, A, bronze" and len(set(names)) == len(names)


def test_only_a_cell_that_says_something_new_is_written(page: Page) -> None:
    fill(page, 0, "18", "20")
    page.evaluate(
        """() => {
          window.changed = [];
          const seen = (all) => all.forEach((each) => window.changed.push(each.target.tagName));
          new MutationObserver(seen).observe(document.querySelector(".results"),
            { childList: true, subtree: true });
        }"""
    )
    fill(page, 0, "18.0")
    assert page.evaluate("window.changed") == []
    fill(page, 0, "17")
    assert len(page.evaluate("window.changed")) > 0


def test_it_prints_only_when_it_is_filled_in(page: Page) -> None:
    page.emulate_media(media="print")
    section = page.locator(SECTION)
    assert not section.is_visible()
    page.emulate_media(media="screen")
    fill(page, 0, "18", "20")
    page.emulate_media(media="print")
    assert section.is_visible()
    assert not section.locator("button").is_visible()


def test_without_script_a_few_other_gauges_stand_there(browser: Browser, served_site: str) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = opened(context, served_site)
    assert page.locator(f"{SECTION} input").first.is_hidden()
    was, now = regauged("shore-crab", "12.5 sts x 12.5 rounds = 10 cm")
    row = page.locator(f"{SECTION} .others tbody tr").last
    needs = now.measures.yarns.values()
    told = plain(row.inner_text())
    assert told.startswith("× 2 12.5 stitches 12.4 cm wide, 9.2 cm deep")
    for need in needs:
        assert plain(metres(need.metres or 0)) in told
    (eyes,) = notion_sizes(was.pattern, was.fabric, now.pattern, now.fabric)
    assert plain(millimetres(eyes.size_mm)) in told
    page.emulate_media(media="print")
    assert not page.locator(SECTION).is_visible()
    context.close()


def test_nothing_runs_over_the_side(page: Page) -> None:
    fill(page, 0, "18", "20")
    fill(page, 1, "25")
    for width in (320, 360, 768, 1280):
        page.set_viewport_size({"width": width, "height": 900})
        assert not page.evaluate("document.documentElement.scrollWidth > innerWidth")
        over = "e => e.scrollWidth > e.clientWidth"
        assert not page.locator(f"{SECTION} .results").evaluate(over)


# ---- what the page gives away, and how much there is of it ----
def test_a_preview_keeps_its_counts_to_itself() -> None:
    html = page_of(PEBBLE.replace("title:", "show: preview\ntitle:", 1))
    assert "yours-data" not in html and "In your yarn" not in text_of_page(html)


def test_words_in_the_data_cannot_end_the_script() -> None:
    proof = proof_of(PEBBLE)
    told = in_script({"of": "</script><img src=x>"})
    assert "<" not in told and json.loads(told) == {"of": "</script><img src=x>"}
    assert json.loads(in_script(yarn_data(proof, gauge_lines(proof))))


def test_the_data_of_a_hundred_rounds_are_small() -> None:
    counts = [6 * n for n in range(1, 18)]
    rounds = [f"R1: 6 sc in magic ring ({counts[0]})"]
    for number, count in enumerate(counts[1:], 2):
        work = "inc x 6" if number == 2 else f"({number - 2} sc, inc) x 6"
        rounds.append(f"R{number}: {work} ({count})")
    rounds += [f"R{number}: sc around (102)" for number in range(18, 101)]
    text = "title: Long\nterms: US\nyarns: {slate: {gauge: 20 sts x 20 rounds = 10 cm}}\npieces:\n"
    text += "  body: |\n" + "".join(f"    {line}\n" for line in rounds)
    proof = proof_of(text)
    told = in_script(yarn_data(proof, gauge_lines(proof)))
    assert len(gzip.compress(told.encode())) < 3000
    whole = sorted((ROOT / "tests/clean").glob("*/pattern.yaml"))
    for each in (proof for file in whole for proof in prove(file).proofs):
        assert len(gzip.compress(in_script(yarn_data(each, gauge_lines(each))).encode())) < 3000
