"""The whole site as plain values: which pages and files there are, and what stands on each."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import date

from roundproof.checks.results import Result, Results
from roundproof.frozen import dataclass
from roundproof.pages.check_pages import check_pages
from roundproof.pages.credits import credits
from roundproof.pages.editor_page import editor_rows
from roundproof.pages.gallery import Gallery, Shown, gallery
from roundproof.pages.glossary import glossary
from roundproof.pages.look import OWN_SHEET, THEME, Look
from roundproof.pages.pattern_folder import (
    Folder,
    SiteFile,
    SitePage,
    Unread,
    address_of,
    pattern_folder,
    unread,
    unread_page,
)
from roundproof.pages.scripts import scripts
from roundproof.pages.search_index import Entry, check_entries, pattern_entries, word_entries
from roundproof.pages.standing import Standing, standing
from roundproof.pattern.files import PATTERN_FILE
from roundproof.pattern.json_schema import defaults_schema, pattern_schema
from roundproof.proof import Proof

SCHEMAS = {
    "schema/pattern.schema.json": pattern_schema,
    "schema/defaults.schema.json": defaults_schema,
}
"""Where editors find what the files of a collection may hold."""


@dataclass(frozen=True, slots=True)
class Site:
    """`gallery` also stands on the front page, with the files that the preview could not read.
    `newest` is the date of the newest pattern that has a page; `troubles` are sentences that stop
    a build; `search` is what is found here, but for pages written in Markdown."""

    pages: tuple[SitePage, ...]
    files: tuple[SiteFile, ...]
    gallery: Gallery
    unread: tuple[Unread, ...]
    newest: date | None
    troubles: tuple[str, ...]
    search: tuple[Entry, ...]


def whole_site(results: Results, *, preview: bool = False, look: Look = THEME) -> Site:
    """The site of all patterns proved. Nothing stops the preview: what cannot be shown is left
    out or replaced by its findings."""
    shown = list(_with_pages(results, preview))
    folders = [_folder(result, where, preview, look) for result, where in shown]
    listed = [folder.shown for folder in folders if folder.shown]
    cards = gallery(listed, look.grounds)
    pages = [page for folder in folders for page in folder.pages]
    files = [file for folder in folders for file in folder.files]
    troubles = [trouble for folder in folders for trouble in folder.troubles]
    return Site(
        (*pages, *_pages_of_every_site(cards, listed)),
        (*files, *_files_of_every_site(cards, look)),
        cards,
        tuple(unread(r) for r in results.files if preview and r.proof is None),
        max(_dates(result.proof for result, _ in shown), default=None),
        (*_same_addresses(shown), *(() if preview else troubles)),
        (*pattern_entries(listed), *word_entries(glossary()), *check_entries(check_pages())),
    )


def _with_pages(results: Results, preview: bool) -> Iterator[tuple[Result, Standing]]:
    for result in results.files:
        where = standing(result, preview=preview)
        if result.proof is None:
            shown = preview and result.path.name == PATTERN_FILE
        else:
            shown = preview or where in (Standing.PUBLIC, Standing.UNLISTED)
        if shown:
            yield result, where


def _folder(result: Result, where: Standing, preview: bool, look: Look) -> Folder:
    if result.proof is None:
        return Folder((unread_page(result),))
    listed = where is Standing.PUBLIC
    return pattern_folder(
        result, result.proof, listed=listed, preview=preview, grounds=look.grounds
    )


def _same_addresses(shown: list[tuple[Result, Standing]]) -> Iterator[str]:
    taken: dict[str, str] = {}
    for result, _ in shown:
        address = address_of(result)
        if address in taken:
            yield (
                f"{result.name} and {taken[address]} would both stand at {address}/: rename the"
                " folder of one of them."
            )
        taken.setdefault(address, result.name)


def _dates(proofs: Iterator[Proof | None]) -> Iterator[date]:
    return (proof.pattern.date.value for proof in proofs if proof and proof.pattern.date)


def _pages_of_every_site(cards: Gallery, listed: list[Shown]) -> Iterator[SitePage]:
    yield SitePage("patterns/index.html", "gallery.html", {"gallery": cards})
    yield SitePage("glossary.html", "glossary.html", {"glossary": glossary()})
    yield SitePage("search.html", "search.html", {})
    found = credits(one.proof.pattern for one in listed)
    yield SitePage("credits.html", "credits.html", {"credits": found})
    checks = check_pages()
    yield SitePage("checks/index.html", "checks.html", {"checks": checks})
    yield SitePage("checks/editor.html", "editor.html", {"rows": editor_rows()})
    for check in checks:
        yield SitePage(check.address, "check.html", {"check": check})


def _files_of_every_site(cards: Gallery, look: Look) -> Iterator[SiteFile]:
    if look.sheet:
        yield SiteFile(OWN_SHEET, look.sheet.encode())
    yield SiteFile("css/gallery.css", cards.sheet.encode())
    yield SiteFile("css/newest.css", cards.newest_sheet.encode())
    for address, script in scripts().items():
        yield SiteFile(address, script.encode())
    for address, schema in SCHEMAS.items():
        text = json.dumps(schema(), indent=2, ensure_ascii=False)
        yield SiteFile(address, f"{text}\n".encode())
