"""Hundreds of published cross-site-scripting payloads in every text field: none of them runs.

The pages are opened without their content-security policy, so that it is the escaping that holds.
payloads.json is what its notice says; each of them does run where a page takes it as it stands,
which the last test looks at.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from urllib.parse import quote

import pytest
from PIL import Image
from playwright.sync_api import Browser, Page, Route

from quality.host import hosted
from rendering import rendered
from roundproof.pages.filling import SiteValues
from sites import SETTINGS, previewed

pytestmark = pytest.mark.browser

HERE = Path(__file__).parent
PAYLOADS: list[str] = json.loads((HERE / "payloads.json").read_text("utf-8"))
FIELDS = (HERE / "everywhere.yaml").read_text("utf-8")
TOGETHER = 40
"""Payloads that stand in one field, one after the other; those that have to come first in a field
(addresses, mostly) have one to themselves."""
FIRST = re.compile(r"\s*[a-z]+:", re.I)
ADDRESSES = (
    "javascript:alert(1)", "JaVaScRiPt:alert(1)", "java\tscript:alert(1)", " javascript:alert(1)",
    "javascript&colon;alert(1)", "&#106;avascript:alert(1)", "vbscript:msgbox(1)",
    "data:text/html,<script>alert(1)</script>",
    "data:text/html;base64,PHNjcmlwdD5hbGVydCgxKTwvc2NyaXB0Pg==",
    "//example.org/a", "file:///etc/passwd",
)  # fmt: skip
"""Common practice, no source: addresses as they are put into links, bare and in Markdown."""

RAN = """
window.ran = [];
for (const name of ["alert", "confirm", "prompt", "print", "open"]) {
  window[name] = (...said) => { window.ran.push(`${name}(${said.join()})`); };
}
"""
PLANTED = """() => {
  const wrong = [...window.ran];
  const known = /^(https?|mailto):$/, own = location.protocol;
  for (const e of document.querySelectorAll("*")) {
    const tell = (why) => wrong.push(`${why}: ${e.outerHTML.slice(0, 120)}`);
    const names = [...e.attributes].map((a) => a.name);
    if (names.some((name) => name.startsWith("on") || name === "style")) tell("attribute");
    if (/^(iframe|object|embed|applet|base|frame|frameset|style|marquee|audio|video|math|portal)$/
        .test(e.localName)) tell("element");
    if (e.localName === "script" && !e.src && !/json/.test(e.type)) tell("script");
    if (e.localName === "meta" && /refresh/i.test(e.httpEquiv)) tell("meta");
    const drawn = /^(photos\\/|(chart|colours|places|edges)-[a-z0-9-]+\\.svg$)|icon/;
    if (e.localName === "img" && !drawn.test(e.getAttribute("src"))) tell("img");
    if (/^(animate|set|foreignObject|handler|use|image)$/.test(e.localName)) tell("svg");
    for (const name of ["href", "src", "action", "formaction", "xlink:href", "data"]) {
      const value = e.getAttribute(name);
      if (value === null) continue;
      try {
        const at = new URL(value, document.baseURI);
        // From disk a page's own files have addresses of files, and those alone.
        const beside = at.protocol === own && !/^[a-z]+:/i.test(value.trim());
        if (!known.test(at.protocol) && !beside) tell(name);
      } catch { /* no address at all leads nowhere */ }
    }
  }
  return wrong.slice(0, 5);
}"""


def groups() -> Iterator[str]:
    """What stands in a field, pattern by pattern."""
    alone = [payload for payload in PAYLOADS if FIRST.match(payload)]
    rest = [payload for payload in PAYLOADS if not FIRST.match(payload)]
    yield from alone
    yield from ADDRESSES
    yield " ".join(f"[here]({a}) ![there]({a}) <{a}>" for a in (*ADDRESSES, *alone))
    for start in range(0, len(rest), TOGETHER):
        yield " ".join(rest[start : start + TOGETHER])


def with_words(words: str) -> str:
    """The pattern file with the words in every field."""
    text = FIELDS.replace("STATUS", "published")
    # A key of YAML is no longer than 1024 characters (YAML 1.2.2, 7.4.2).
    text = text.replace('"¤":', json.dumps(words[:300], ensure_ascii=False) + ":")
    text = re.sub('"([^"\n]*)¤"', lambda m: json.dumps(m[1] + words, ensure_ascii=False), text)
    return text.replace("§", words)


@pytest.fixture(scope="module")
def hostile_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A site of patterns whose every word is hostile, as the preview shows it, findings and all."""
    folder = tmp_path_factory.mktemp("hostile")
    (folder / "site_src").mkdir()
    (folder / "mkdocs.yml").write_text(SETTINGS, "utf-8")
    (folder / "site_src/index.md").write_text("# Front\n", "utf-8")
    for number, words in enumerate(groups()):
        pattern = folder / f"patterns/p{number}"
        (pattern / "photos").mkdir(parents=True)
        (pattern / "pattern.yaml").write_text(with_words(words), "utf-8")
        for name in ("a.png", "b.png"):
            Image.new("RGB", (8, 6)).save(pattern / "photos" / name)
    site = previewed(folder)
    assert len(list(site.glob("patterns/*/tester.html"))) == number + 1  # all of them were read
    return site


@pytest.fixture
def open_page(browser: Browser) -> Iterator[tuple[Page, list[str]]]:
    """A page without its policy, and what it asks of other hosts."""
    asked: list[str] = []

    def stay(route: Route) -> None:
        if route.request.url.startswith(("http://127.0.0.1:", "file:", "about:")):
            route.continue_()
        else:
            asked.append(route.request.url)
            route.abort()

    with browser.new_context(bypass_csp=True) as context:
        context.add_init_script(RAN)
        context.route("**/*", stay)
        page = context.new_page()
        page.on("dialog", lambda dialog: asked.append(dialog.message))
        yield page, asked


def looked_through(page: Page) -> list[str]:
    """What is there that no template puts there: nothing then waits for an event either."""
    found: list[str] = page.evaluate(PLANTED)
    return found


def test_there_are_several_hundred() -> None:
    assert len(set(PAYLOADS)) == len(PAYLOADS) >= 500


def test_no_payload_runs_in_any_field_of_a_pattern(
    hostile_site: Path, open_page: tuple[Page, list[str]]
) -> None:
    page, asked = open_page
    wrong: dict[str, Any] = {}
    pages = [
        file.relative_to(hostile_site).as_posix()
        for file in sorted(hostile_site.rglob("*.html"))
        if file.parent.name != "checks" and file.name != "404.html"
    ]
    with hosted(hostile_site) as host:
        for address in pages:
            page.goto(f"{host}/{address}")
            if found := looked_through(page):
                wrong[address] = found
    assert wrong == {}
    assert asked == []
    # The words are there to be read: a page that left them out would prove nothing.
    text = (hostile_site / "patterns/p0/index.html").read_text("utf-8")
    first = next(groups())
    said = first.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    assert max(text.count(said), text.count(said.replace('"', "&#34;"))) > 20


def test_no_payload_runs_as_the_name_of_a_site(
    tmp_path: Path, open_page: tuple[Page, list[str]]
) -> None:
    page, asked = open_page
    wrong = {}
    for number, words in enumerate(groups()):
        file = tmp_path / f"{number}.html"
        site = SiteValues(words, (), (), lambda path: path)
        file.write_text(rendered("checks.html", site=site, checks=()), "utf-8")
        page.goto(file.as_uri())
        if found := looked_through(page):
            wrong[words] = found
    assert wrong == {}
    assert asked == []


def test_no_payload_runs_out_of_an_address(
    built_site: Path, open_page: tuple[Page, list[str]]
) -> None:
    """What follows # or ? in the address of a page; the search page takes its words from there."""
    page, asked = open_page
    wrong = {}
    with hosted(built_site) as host:
        page.goto(f"{host}/patterns/shore-crab/index.html")
        for words in PAYLOADS:
            page.evaluate("(words) => { location.hash = words }", words)
        wrong["#"] = looked_through(page)
        for words in groups():
            page.goto(f"{host}/search.html?q={quote(words)}#{quote(words)}")
            if found := looked_through(page):
                wrong[words] = found
    assert wrong == {"#": []}
    assert asked == []


def test_the_payloads_run_where_they_are_taken_as_they_stand(
    open_page: tuple[Page, list[str]], tmp_path: Path
) -> None:
    """So that nothing is claimed of harmless words: every tenth, raw in a text or an attribute."""
    page, _ = open_page
    count = (HERE / "raw.js").read_text("utf-8")
    file = tmp_path / "raw.html"
    file.write_text("<!doctype html><title>Raw</title>", "utf-8")
    page.goto(file.as_uri())
    some = PAYLOADS[::10]
    ran = page.evaluate(count, some)
    assert len(ran) >= 0.9 * len(some), sorted(set(range(len(some))) - set(ran))
