"""Pages filled from their templates as the site fills them, without the site's host."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from functools import cache
from html.parser import HTMLParser
from pathlib import Path
from types import SimpleNamespace

import jinja2

from proving import proved
from roundproof.pages.pattern import pattern_page
from roundproof.pages.scripts import scripts, sheets
from roundproof.pages.structured import as_json, structured
from roundproof.pages.tester import tester_page
from roundproof.proof import Proof

THEME = Path(__file__).parents[1] / "theme"


@cache
def templates() -> jinja2.Environment:
    loader = jinja2.FileSystemLoader(THEME)
    return jinja2.Environment(loader=loader, autoescape=True, undefined=jinja2.StrictUndefined)


def proof_of(text: str) -> Proof:
    """The proof of a pattern that can at least be read."""
    proof, findings = proved(text)
    assert proof is not None, findings
    return proof


def rendered(template: str, **values: object) -> str:
    way = SimpleNamespace(title="Patterns", url="../../index.html", here=False)
    url = "../../{}".format
    site = SimpleNamespace(name="Shore", nav=(way,), foot=(way,), url=url, own=False)
    site.base, site.here, site.offline = "", "", False
    site.data = lambda told: as_json(told, url)
    given = {"site": site, "noindex": False, "findings": (), "margins": {}, **values}
    return templates().get_template(template).render(**given)


def page_of(text: str, **values: object) -> str:
    """The page of a pattern given as text."""
    proof = proof_of(text)
    page = pattern_page(proof)
    told = structured(page, proof.pattern, "patterns/page/index.html")
    return rendered("pattern.html", page=page, structured=told, **values)


def copy_for_testers(text: str) -> str:
    proof = proof_of(text)
    return rendered("tester.html", page=tester_page(proof, pattern_page(proof)))


def written(folder: Path, name: str, html: str, sheet: str) -> str:
    """A page with the theme's files beside it, as on a site; its address."""
    if not (folder / "css").exists():
        for part in ("css", "fonts"):
            shutil.copytree(THEME / part, folder / part)
        (folder / "js").mkdir()
        for address, script in (scripts() | sheets()).items():
            (folder / address).write_text(script, "utf-8")
    place = folder / "patterns" / name
    place.mkdir(parents=True)
    (place / "index.html").write_text(html, "utf-8")
    (place / "yarns.css").write_text(sheet, "utf-8")
    return (place / "index.html").as_uri()


class _Elements(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str | None]]] = []
        self.words: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, dict(attrs)))

    def handle_data(self, data: str) -> None:
        self.words.append(data)


def elements(html: str) -> Iterator[tuple[str, dict[str, str | None]]]:
    """Every element with its attributes."""
    parser = _Elements()
    parser.feed(html)
    yield from parser.found


def text_of_page(html: str) -> str:
    """All words of a page, each space as one plain space."""
    parser = _Elements()
    parser.feed(html)
    return " ".join("".join(parser.words).replace("\u00a0", " ").split())
