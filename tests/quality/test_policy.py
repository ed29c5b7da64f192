"""Every kind of page under its content-security policy, with nothing refused and nothing said.

W3C, Content Security Policy Level 3: without 'unsafe-inline', no inline script, no event handler
and no style attribute has any effect; what is refused is told in `securitypolicyviolation` events.
"""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from quality.host import hosted
from quality.kinds import every_page
from quality.opening import opened, unfold

STRICT = "default-src 'self'; object-src 'none'; base-uri 'none'; form-action 'none'"
AS_HEADER = f"{STRICT}; frame-ancestors 'none'"
"""As a host may send it besides; only a header can refuse to be framed."""

DIGESTS = re.compile(r"^script-src 'self'( 'sha256-[A-Za-z0-9+/]{43}=')+; ")

LISTEN = """
window.refused = [];
addEventListener("securitypolicyviolation", (e) => {
  window.refused.push(`${e.violatedDirective}: ${e.blockedURI} ${e.sample}`);
});
"""


class _Tags(HTMLParser):
    def __init__(self, text: str) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str]]] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, {name: value or "" for name, value in attrs}))


DATA = ("application/json", "application/ld+json")
"""Kinds of script that are not run: HTML Standard, 4.12.1, data blocks."""


def test_no_page_has_anything_inline(every_kind: Path) -> None:
    for address in every_page(every_kind / "site"):
        tags = _Tags((every_kind / "site" / address).read_text("utf-8")).found
        policies = [
            given["content"]
            for tag, given in tags
            if tag == "meta" and given.get("http-equiv") == "Content-Security-Policy"
        ]
        # Data within a page is named by its digest: script-src 'self' 'sha256-…'.
        assert [DIGESTS.sub("", policy) for policy in policies] == [STRICT], address
        for tag, given in tags:
            assert tag != "style" and "style" not in given, (address, tag)
            assert not [name for name in given if name.startswith("on")], (address, tag)
            if tag == "script":
                assert given.get("src") or given.get("type") in DATA, address
            if tag in ("link", "script", "img", "source", "iframe"):
                outward = [given.get("src", ""), given.get("srcset", ""), given.get("href", "")]
                known = given.get("rel") in ("canonical", "alternate", "license")
                assert known or not re.search(r"(^|,|\s)(https?:)?//", " ".join(outward)), address


def test_no_script_of_the_theme_makes_code_or_html_of_text(every_kind: Path) -> None:
    for script in (every_kind / "site").rglob("*.js"):
        text = script.read_text("utf-8")
        for word in ("eval(", "Function(", "innerHTML", "outerHTML", "insertAdjacentHTML",
                     "document.write", "setAttribute(\"style\"", ".style.cssText"):  # fmt: skip
            assert word not in text, (script.name, word)


@pytest.mark.browser
@pytest.mark.parametrize("by", ["page", "header"])
def test_the_policy_refuses_nothing_that_a_page_needs(
    browser: Browser, every_kind: Path, looked_at: tuple[str, ...], by: str
) -> None:
    headers = {"Content-Security-Policy": AS_HEADER} if by == "header" else {}
    said: list[str] = []
    with hosted(every_kind / "site", headers) as host, opened(browser) as page:
        page.context.add_init_script(LISTEN)
        page.on("console", lambda message: said.append(f"{page.url}: {message.text}"))
        page.on("pageerror", lambda error: said.append(f"{page.url}: {error}"))
        for address in looked_at:
            page.goto(f"{host}/{address}")
            unfold(page)
            page.evaluate("scrollTo(0, document.body.scrollHeight)")
            said += [f"{address}: {one}" for one in page.evaluate("window.refused")]
    assert said == []


@pytest.mark.browser
def test_the_policy_does_refuse(browser: Browser, every_kind: Path) -> None:
    with hosted(every_kind / "site") as host, opened(browser) as page:
        page.context.add_init_script(LISTEN)
        page.goto(f"{host}/index.html")
        page.evaluate("""() => {
          const add = (tag, given) =>
            document.body.append(Object.assign(document.createElement(tag), given));
          add("script", { textContent: "window.ran = 1" });
          add("script", { src: "https://example.org/a.js" });
          add("img", { src: "https://example.org/a.png" });
          document.body.setAttribute("style", "color: red");
          document.body.setAttribute("onclick", "window.ran = 2");
          document.body.click();
        }""")
        # The policy refuses `wait_for_function` too, which makes code of its text.
        while page.evaluate("window.refused.length") < 5:
            page.wait_for_timeout(50)
        assert page.evaluate("window.ran") is None
        directives = {one.partition(":")[0] for one in page.evaluate("window.refused")}
    assert directives == {"script-src-elem", "script-src-attr", "img-src", "style-src-attr"}
