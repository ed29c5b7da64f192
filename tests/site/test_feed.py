"""The feed of changes: read by feedparser, a general library, and held to RFC 4287."""

from __future__ import annotations

import re
from datetime import datetime
from pathlib import Path
from urllib.parse import urlsplit
from xml.etree import ElementTree

import feedparser
import pytest

from roundproof.pages.feed import ATOM, MOST, Edition, editions, feed
from sites import SETTINGS, built_quickly, pebble, write_pattern, write_site

DAY = datetime(2026, 5, 4).date()
BASE = "https://example.org/shore/"


def edition(**said: object) -> Edition:
    given = {
        "address": "patterns/pebble/index.html", "title": "Pebble", "version": "1.0.0", "date": DAY,
        "note": "First edition.", "by": "Someone",
    }  # fmt: skip
    return Edition(**given | said)  # type: ignore[arg-type]


@pytest.fixture
def site(tmp_path: Path) -> Path:
    text = pebble().replace(
        "changes: [", "changes: [{version: 1.1.0, date: 2026-06-01, note: 'A <b>clearer</b> R3.'}, "
    )
    site = write_site(tmp_path / "tideline", pebble=text, stone=pebble("Stone", date="2026-05-20"))
    write_pattern(site, "secret", pebble("Secret", status="testing"))
    write_pattern(site, "sold", pebble("Sold").replace("format: 1", "format: 1\nshow: preview"))
    built_quickly(site)
    return site / "site"


def test_the_feed_tells_the_newest_editions_of_listed_patterns(site: Path) -> None:
    read = feedparser.parse((site / "feed.xml").read_bytes())
    assert not read.bozo
    assert read.version == "atom10"
    assert [entry.title for entry in read.entries] == [
        "Pebble 1.1.0", "Stone 1.0.0", "Pebble 1.0.0", "Sold 1.0.0",
    ]  # fmt: skip
    assert "Secret" not in (site / "feed.xml").read_text("utf-8")
    first = read.entries[0]
    assert first.link == f"{BASE}patterns/pebble/index.html"
    assert "clearer" in first.summary
    assert read.entries[-1].summary == "A new edition."  # what changed in rounds that are sold


def test_every_page_leads_to_the_feed(site: Path) -> None:
    for page, way in (("index.html", "feed.xml"), ("patterns/pebble/index.html", "../../feed.xml")):
        text = (site / page).read_text("utf-8")
        assert re.search(
            rf'<link rel="alternate" type="application/atom\+xml"[^>]*href="{way}">', text
        )
        assert f'<a href="{way}">Feed of changes</a>' in text


def test_without_an_address_there_is_no_feed(tmp_path: Path) -> None:
    """An id of Atom is absolute (RFC 4287, 4.2.6), and a site without `site_url` has none."""
    site = write_site(tmp_path / "tideline", pebble=pebble())
    (site / "mkdocs.yml").write_text(re.sub("site_url.*\n", "", SETTINGS), "utf-8")
    built_quickly(site)
    assert not (site / "site/feed.xml").exists()
    assert "feed.xml" not in (site / "site/index.html").read_text("utf-8")


# ---- RFC 4287, section by section ----
def one(parent: ElementTree.Element, name: str) -> ElementTree.Element:
    found = parent.findall(f"{{{ATOM}}}{name}")
    assert len(found) == 1, name
    return found[0]


def links(parent: ElementTree.Element) -> list[dict[str, str]]:
    return [dict(link.attrib) for link in parent.findall(f"{{{ATOM}}}link")]


def is_moment(text: str | None) -> bool:
    """A date construct, 3.3: RFC 3339, with capital T and Z."""
    return bool(re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ", text or ""))


def test_the_feed_is_what_the_standard_asks(site: Path) -> None:
    root = ElementTree.fromstring((site / "feed.xml").read_bytes())
    assert root.tag == f"{{{ATOM}}}feed"  # 4.1.1
    for each in (root, *root.findall(f"{{{ATOM}}}entry")):
        for name in ("id", "title", "updated"):  # 4.1.1 and 4.1.2: exactly one of each
            assert (one(each, name).text or "").strip()
        address = urlsplit(one(each, "id").text or "")
        assert address.scheme and address.netloc  # 4.2.6: an absolute IRI
        assert is_moment(one(each, "updated").text)  # 4.2.15
        alternates = [(k.get("type"), k.get("hreflang")) for k in links(each)
                      if k.get("rel") == "alternate"]  # fmt: skip
        assert len(set(alternates)) == len(alternates) == 1  # 4.1.1, 4.1.2: no two alike
        names = [one(a, "name").text for a in each.findall(f"{{{ATOM}}}author")]
        assert all(names)  # 3.2.1
        for text in each.findall(f"{{{ATOM}}}summary"):
            assert text.get("type", "text") == "text" and not list(text)  # 3.1.1.1
    assert root.findall(f"{{{ATOM}}}author")  # 4.1.1: here, so that no entry needs its own
    (itself,) = [link for link in links(root) if link.get("rel") == "self"]  # 4.2.7.2
    assert itself["href"] == f"{BASE}feed.xml"
    ids = [one(entry, "id").text for entry in root.findall(f"{{{ATOM}}}entry")]
    assert len(set(ids)) == len(ids)  # 4.1.1: another entry is another id
    known = {"id", "title", "updated", "author", "link", "entry", "summary", "name"}
    assert {element.tag.partition("}")[2] for element in root.iter()} - {"feed"} <= known


def test_an_entry_keeps_its_id_and_its_place() -> None:
    """4.2.6: an id never changes, whatever becomes of the words."""
    before = ElementTree.fromstring(feed([edition()], "Shore", BASE))
    after = ElementTree.fromstring(feed([edition(title="Flint", note="New")], "Coast", BASE))
    path = f"{{{ATOM}}}entry/{{{ATOM}}}id"
    assert (
        before.findtext(path)
        == after.findtext(path)
        == ("https://example.org/shore/patterns/pebble/index.html#1.0.0")
    )


def test_the_newest_stand_first_and_not_too_many() -> None:
    some = [edition(version=f"1.{n}.0") for n in (2, 10, 9)]
    some += [edition(title=f"T{n}", date=DAY.replace(day=1)) for n in range(30)]
    read = feedparser.parse(feed(some, "Shore", BASE))
    assert len(read.entries) == MOST
    assert [e.title for e in read.entries[:3]] == ["Pebble 1.10.0", "Pebble 1.9.0", "Pebble 1.2.0"]
    assert read.feed.updated == "2026-05-04T00:00:00Z"


def test_a_site_without_patterns_has_a_feed_all_the_same() -> None:
    read = feedparser.parse(feed([], "Shore", BASE))
    assert not read.bozo and read.entries == [] and read.feed.updated


@pytest.mark.parametrize("words", ["<b>&amp;", "]]>", "\x00\x08\ufffe", "a\nb", "\ud800", "é 🧶"])
def test_all_words_can_be_told(words: str) -> None:
    read = feedparser.parse(feed([edition(title=words, note=words, by=words)], words, BASE))
    assert not read.bozo, read.bozo_exception


def test_dates_are_those_of_the_file(tmp_path: Path) -> None:
    from rendering import proof_of

    proof = proof_of(pebble())
    assert [e.date for e in editions(proof.pattern, "a")] == [DAY]
    bare = proof_of("title: A\npieces: {b: sc}\nchanges: [{version: 1.0.0}]\n")
    assert editions(bare.pattern, "a") == ()
