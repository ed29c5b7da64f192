"""Where things stand on the pages: nothing beside the paper, no heading alone at a foot, no round
parted between two pages."""

from __future__ import annotations

import io
import re
import subprocess
from collections.abc import Iterator
from functools import cache
from html import unescape
from pathlib import Path
from statistics import median
from typing import Any

import pytest
from pypdf import PdfReader

from proving import proved
from roundproof.frozen import dataclass, replace
from roundproof.pages.paper.how import PAPERS, STYLES, Copy, Print
from roundproof.pages.paper.nodes import Choice, nodes, text_of
from roundproof.pages.paper.printing import Printer, review_copy
from roundproof.pages.paper.typeset import Printed
from roundproof.pages.values import RoundRow
from roundproof.pipeline import prove

ROOT = Path(__file__).parents[2]
UNPRINTED = 5 * 72 / 25.4
"""Points, 5 mm: what usual printers leave white at every edge; common practice, no source."""
HOWS = [Print(style=style, paper=paper) for style in STYLES for paper in PAPERS]
HOWS += [Print(copy=Copy("7", "1 May 2027"), paper=paper) for paper in PAPERS]
HOWS += [Print(style="large", pupils=24, paper=paper) for paper in PAPERS]


def told(how: Print) -> str:
    return f"{how.style}-{how.paper}-{'copy' if how.copy else how.pupils}"


@dataclass(frozen=True, slots=True)
class Seen:
    """A word and its edges on its page, in points from the upper left corner."""

    text: str
    left: float
    top: float
    right: float
    bottom: float


_PAGE = re.compile(r'<page width="([\d.]+)" height="([\d.]+)">(.*?)</page>', re.S)
_WORD = re.compile(
    r'xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">([^<]*)</word>'
)


def pages(data: bytes) -> Iterator[tuple[float, float, list[Seen]]]:
    """Width, height and words of each page, as poppler finds them."""
    done = subprocess.run(
        ["pdftotext", "-bbox", "-", "-"], input=data, capture_output=True, check=True
    )
    for width, height, inside in _PAGE.findall(done.stdout.decode()):
        words = [Seen(unescape(w[4]), *map(float, w[:4])) for w in _WORD.findall(inside)]
        yield float(width), float(height), words


# ---- long words ----
TEXTS = {"su": 700, "sa": 900, "ca": 700, "no": 1200, "st": 900, "cn": 700, "th": 600}
"""Texts of so many words, each longer than a page of some style; their words are numbered."""


def words(sign: str) -> str:
    return " ".join(f"{sign}{number}" for number in range(TEXTS[sign]))


ROUND = ", ".join(["sc, inc, ch 1, 2 dc in next st, sl st in next st"] * 150)
LONG = f"""\
title: Long
terms: US
summary: {words("su")}
safety: {{note: {words("sa")}}}
care: {words("ca")}
notions: [{{item: fibrefill {words("th")}}}]
pieces:
  body:
    rounds: |
      R1: 750 sc in magic ring (750)
      R2: {ROUND}
      {words("no")}
assembly:
  - {{close: {{edge: body, by: gather}}, step: {words("st")}}}
changes: [{{version: 1.0.0, date: 2026-01-01, note: {words("cn")}}}]
"""


@cache
def long_printer() -> Printer:
    proof, _ = proved(LONG)
    assert proof is not None
    return Printer(proof)


@pytest.mark.parametrize("how", HOWS, ids=told)
def test_what_is_longer_than_a_page_goes_on_on_the_next(how: Print) -> None:
    seen: dict[str, None] = {}
    for width, height, found in pages(long_printer().booklet(how)[0]):
        for word in found:
            seen[word.text.strip(".,")] = None
            inside = word.left > UNPRINTED and word.right < width - UNPRINTED
            assert inside and word.bottom < height - UNPRINTED, (word, width, height)
    for sign, count in TEXTS.items():
        assert [f"{sign}{n}" for n in range(count) if f"{sign}{n}" not in seen] == []


def test_nothing_of_a_review_copy_is_lost() -> None:
    printer = long_printer()
    _, findings = proved(LONG)
    seen: dict[str, None] = {}
    for width, height, found in pages(review_copy(printer.proof, findings, "a4")[0]):
        for word in found:
            seen[word.text.strip(".,")] = None
            assert word.right < width - UNPRINTED and word.bottom < height - UNPRINTED, word
    for sign in ("sa", "no", "st", "th"):
        assert [f"{sign}{n}" for n in range(TEXTS[sign]) if f"{sign}{n}" not in seen] == []


# ---- patterns as they are ----
SLUGS = ("moon-jelly", "sea-urchin", "shore-crab")
CLEAN = ("cuttlefish", "oystercatcher")


@cache
def printer(slug: str) -> Printer:
    folder = ROOT / ("patterns" if slug in SLUGS else "tests/clean") / slug
    proof = prove(str(folder)).files[0].proof
    assert proof is not None
    return Printer(proof)


@cache
def booklet(slug: str, how: Print) -> Printed:
    terms = printer(slug).proof.pattern.written_in.value.lower()
    return printer(slug).booklet(replace(how, choice=Choice(terms)))


@pytest.mark.parametrize("slug", [*SLUGS, *CLEAN])
@pytest.mark.parametrize("how", HOWS, ids=told)
def test_nothing_stands_beside_the_paper(slug: str, how: Print) -> None:
    for width, height, found in pages(booklet(slug, how)[0]):
        for word in found:
            assert word.left > UNPRINTED and word.right < width - UNPRINTED, word
            assert word.top > UNPRINTED and word.bottom < height - UNPRINTED, word


@pytest.mark.parametrize("slug", [*SLUGS, *CLEAN])
@pytest.mark.parametrize("how", HOWS, ids=told)
def test_every_round_is_whole_on_one_page(slug: str, how: Print) -> None:
    done = subprocess.run(
        ["pdftotext", "-raw", "-", "-"],
        input=booklet(slug, how)[0],
        capture_output=True,
        check=True,
    )
    there = [" ".join(page.split()) for page in done.stdout.decode().split("\f")]
    choice = Choice(printer(slug).proof.pattern.written_in.value.lower())
    rows = [row for piece in printer(slug).shown.page.pieces for row in piece.rows]
    rounds = [row for row in rows if isinstance(row, RoundRow)]
    assert len(rounds) > 10
    mark = ":" if how.style in ("large", "aloud") else ""
    for row in rounds:
        words = " ".join(f"{row.shown}{mark} {text_of(nodes(row.work, choice))}".split())
        assert any(words in page for page in there), words


@pytest.mark.parametrize("slug", [*SLUGS, *CLEAN])
@pytest.mark.parametrize("how", HOWS, ids=told)
def test_no_heading_stands_alone_at_the_foot_of_a_page(slug: str, how: Print) -> None:
    data = booklet(slug, how)[0]
    headings = {" ".join(title.split()) for title in titles(data)}
    assert "Safety" in headings
    found = list(pages(data))
    usual = median(word.bottom - word.top for _, _, page in found for word in page)
    for number, (_, _, page) in enumerate(found, 1):
        foot = min(word.top for word in page if word.text == "page")
        last = max((word for word in page if word.bottom < foot), key=lambda word: word.bottom)
        line = [word for word in page if abs(word.bottom - last.bottom) < 1]
        large = all(word.bottom - word.top > 1.08 * usual for word in line)
        words = " ".join(word.text for word in line)
        alone = large and any(heading.endswith(words) for heading in headings)
        assert not alone, (number, words)


def titles(data: bytes) -> Iterator[str]:
    """The bookmarks, which are the headings."""

    def of(entries: list[Any]) -> Iterator[str]:
        for entry in entries:
            if isinstance(entry, list):
                yield from of(entry)
            else:
                yield entry.title

    yield from of(PdfReader(io.BytesIO(data)).outline)
