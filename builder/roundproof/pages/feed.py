"""The feed of changes: an Atom document (RFC 4287) of the newest editions of listed patterns.

Whatever reads feeds has to be able to tell entries apart wherever it meets them, by an absolute
address of each; without `site_url` a site has none, and so no feed.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date
from xml.etree.ElementTree import Element, SubElement, indent, register_namespace, tostring

from roundproof.frozen import dataclass
from roundproof.pages.front import title_of
from roundproof.pages.prose import plain_text
from roundproof.pattern.model import Pattern

FEED = "feed.xml"
MOST = 20
_NO_XML = re.compile("[\ufffe\uffff\ud800-\udfff]")
ATOM = "http://www.w3.org/2005/Atom"


@dataclass(frozen=True, slots=True)
class Edition:
    """A version of a pattern as its `changes` tell it. `address` is that of its page."""

    address: str
    title: str
    version: str
    date: date
    note: str
    by: str


def editions(pattern: Pattern, address: str) -> tuple[Edition, ...]:
    """The dated editions of a pattern. Where the rounds are sold elsewhere, what was changed in
    them is not told."""
    sold = pattern.show is not None and pattern.show.value == "preview"
    by = pattern.designer.value if pattern.designer else ""
    return tuple(
        Edition(
            address,
            title_of(pattern),
            change.version.value,
            change.date.value,
            "" if sold else plain_text(change.note),
            by,
        )
        for change in pattern.changes
        if change.date is not None
    )


def feed(of_all: Iterable[Edition], site_name: str, site_url: str) -> bytes:
    """The document; `site_url` is where the site's first page stands."""
    base = site_url.rstrip("/") + "/"
    by_title = sorted(of_all, key=lambda e: (e.title.casefold(), e.address))
    newest = sorted(by_title, key=lambda e: (e.date, _number(e.version)), reverse=True)
    register_namespace("", ATOM)
    root = _child(None, "feed")
    _child(root, "id", base)
    _child(root, "title", f"{_plain(site_name)}: changes")
    _child(root, "updated", _moment(newest[0].date if newest else date(1980, 1, 1)))
    _child(_child(root, "author"), "name", _plain(site_name))
    _child(root, "link", rel="self", type="application/atom+xml", href=base + FEED)
    _child(root, "link", rel="alternate", type="text/html", href=base + "index.html")
    for edition in newest[:MOST]:
        _entry(root, edition, base)
    indent(root, "")
    written: bytes = tostring(root, encoding="utf-8", xml_declaration=True)
    return written + b"\n"


def _entry(root: Element, edition: Edition, base: str) -> None:
    entry, page = _child(root, "entry"), base + edition.address
    _child(entry, "id", f"{page}#{edition.version}")
    _child(entry, "title", f"{_plain(edition.title)} {edition.version}")
    _child(entry, "updated", _moment(edition.date))
    _child(entry, "link", rel="alternate", type="text/html", href=page)
    if edition.by:
        _child(_child(entry, "author"), "name", _plain(edition.by))
    _child(entry, "summary", _plain(edition.note) or "A new edition.")


def _child(parent: Element | None, name: str, text: str = "", **given: str) -> Element:
    tag = f"{{{ATOM}}}{name}"
    made = Element(tag) if parent is None else SubElement(parent, tag, given)
    made.text = text or None
    return made


def _number(version: str) -> tuple[int, ...]:
    """1.10.0 is newer than 1.9.0."""
    return tuple(int(part) for part in re.findall(r"\d+", version)[:3])


def _plain(text: str) -> str:
    """One line, and no character that XML 1.0 cannot hold (its production 2)."""
    kept = "".join(c if c >= " " else " " for c in text)
    return " ".join(_NO_XML.sub("", kept).split())


def _moment(day: date) -> str:
    """The beginning of a day in universal time, as RFC 3339 writes it."""
    return f"{day.isoformat()}T00:00:00Z"
