"""The whole site as plain values: which pages and files there are, and what stands on each."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from datetime import date

from roundproof.frozen import dataclass
from roundproof.pages.check_pages import check_pages
from roundproof.pages.credits import Credits, credits
from roundproof.pages.editor_page import editor_rows
from roundproof.pages.gallery import Gallery, gallery
from roundproof.pages.glossary import glossary
from roundproof.pages.look import OWN_SHEET, THEME, Look
from roundproof.pages.pattern_folder import Listing, SiteFile, SitePage, Unread
from roundproof.pages.scripts import scripts, sheets
from roundproof.pages.search_index import Entry, check_entries, word_entries
from roundproof.pattern.json_schema import defaults_schema, pattern_schema

SCHEMAS = {
    "schema/pattern.schema.json": pattern_schema,
    "schema/defaults.schema.json": defaults_schema,
}
"""Where editors find what the files of a collection may hold."""


@dataclass(frozen=True, slots=True)
class Site:
    """What stands on a site besides the folders of its patterns. `gallery` also stands on the
    front page, with the files that the preview could not read. `newest` is the date of the newest
    pattern that has a page; `troubles` are sentences that stop a build; `search` is what is found
    here, but for pages written in Markdown."""

    pages: tuple[SitePage, ...]
    files: tuple[SiteFile, ...]
    gallery: Gallery
    unread: tuple[Unread, ...]
    newest: date | None
    troubles: tuple[str, ...]
    search: tuple[Entry, ...]


def whole_site(
    listings: Sequence[Listing],
    unread: Sequence[Unread] = (),
    look: Look = THEME,
    themes: Sequence[str] = (),
) -> Site:
    """The site of all patterns that have a page. `unread` are files that the preview says it could
    not read; `themes` the folders of templates and styles, the first going before the others."""
    cards = gallery(one.shown for one in listings if one.shown)
    return Site(
        tuple(_pages_of_every_site(cards, unread, _credits(listings))),
        tuple(_files_of_every_site(cards, look, themes)),
        cards,
        tuple(unread),
        max((one.changed for one in listings if one.changed), default=None),
        (*_same_addresses(listings), *(why for one in listings for why in one.troubles)),
        (
            *(one.found for one in listings if one.found),
            *word_entries(glossary()),
            *check_entries(check_pages()),
        ),
    )


def _credits(listings: Sequence[Listing]) -> Credits:
    return credits(one.credited for one in listings if one.credited)


def _same_addresses(listings: Sequence[Listing]) -> Iterator[str]:
    taken: dict[str, str] = {}
    for one in listings:
        if one.address in taken:
            yield (
                f"{one.name} and {taken[one.address]} would both stand at {one.address}/: rename"
                " the folder of one of them."
            )
        taken.setdefault(one.address, one.name)


def _pages_of_every_site(
    cards: Gallery, unread: Sequence[Unread], credits: Credits
) -> Iterator[SitePage]:
    shown = {"gallery": cards, "files_unread": unread}
    yield SitePage("patterns/index.html", "gallery.html", shown)
    yield SitePage("glossary.html", "glossary.html", {"glossary": glossary()})
    yield SitePage("search.html", "search.html", {})
    yield SitePage("credits.html", "credits.html", {"credits": credits})
    checks = check_pages()
    yield SitePage("checks/index.html", "checks.html", {"checks": checks})
    yield SitePage("checks/editor.html", "editor.html", {"rows": editor_rows()})
    for check in checks:
        yield SitePage(check.address, "check.html", {"check": check})


def _files_of_every_site(cards: Gallery, look: Look, themes: Sequence[str]) -> Iterator[SiteFile]:
    if look.sheet:
        yield SiteFile(OWN_SHEET, look.sheet.encode())
    yield SiteFile("css/gallery.css", cards.sheet.encode())
    yield SiteFile("css/newest.css", cards.newest_sheet.encode())
    for address, script in (scripts() | sheets(themes)).items():
        yield SiteFile(address, script.encode())
    for address, schema in SCHEMAS.items():
        text = json.dumps(schema(), indent=2, ensure_ascii=False)
        yield SiteFile(address, f"{text}\n".encode())
