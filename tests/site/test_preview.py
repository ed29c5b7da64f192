"""`show: preview`: what sells a pattern is there, and nothing of its rounds is, anywhere."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from conftest import ROOT
from proving import proved
from rendering import page_of, text_of_page
from roundproof.cli.main import main
from roundproof.notation.tree import Round
from roundproof.notation.writer import text_of, write
from roundproof.pattern.model import Terms
from sites import contents, write_photo, write_site

WORDS = (".html", ".js", ".css", ".xml", ".json", ".txt", ".svg", ".webmanifest")
"""Files that are words; the others are fonts, photos and the sitemap, packed."""
COUNTS = (137, 274, 411, 548, 685, 548, 411)
"""Counts that occur in nothing else on the site."""
SOLD = f"""\
format: 1
title: Sold pebble
status: published
show: preview
summary: A great pebble.
designer: Roundproof examples
contact: https://example.org/shop
licence: >-
  All rights reserved. Print it for yourself, sell what you make, do not change or translate it, ask
  for the photos.
terms: US
level: complex
size: {{height: 40 cm, width: 90 cm}}
yarns:
  slate:
    colour: {{name: slate grey, shade: "#6d7680"}}
    fibre: 100 % cotton
    weight: 3
    ball: 50 g / 125 m
    hook: 3 mm
    gauge: 23 sts x 25 rounds = 10 cm
notions: [fibrefill 900 g, tapestry needle]
stitches:
  wavelet: {{uses: 1, makes: 1, height: 2, how: "ch 4, sl st back down the ch, sl st in same st"}}
safety: {{note: Keep it from young children.}}
care: Hand wash cool.
specimen:
  name: Pebble
  real_size: {{width: 30 mm, source: 1}}
  references: [A book of stones.]
pieces:
  great body:
    name: Great body
    yarn: slate
    worked: spiral
    rounds: |
      R1: {COUNTS[0]} sc in magic ring ({COUNTS[0]})
      R2: inc in each st around ({COUNTS[1]})
      R3: (sc, inc) x {COUNTS[0]} ({COUNTS[2]})
      R4: (2 sc, inc) x {COUNTS[0]} ({COUNTS[3]})
      R5: (3 sc, inc) x {COUNTS[0]} ({COUNTS[4]})
      R6: (3 sc, dec) x {COUNTS[0]} ({COUNTS[5]})
      Note: hold the marvellous rim.
      R7: (2 sc, dec) x {COUNTS[0]} ({COUNTS[6]})
      R8: wavelet x {COUNTS[6]} ({COUNTS[6]})
      Stuff.
      Fasten off, leaving a 21 cm tail, and draw the last stitches shut.
assembly:
  - close: {{edge: great body, by: gather}}
    step: Gather the marvellous edge.
photos:
  - {{file: whole.jpg, alt: A grey pebble on sand, shows: finished, by: Ada, licence: CC-BY-4.0}}
  - {{file: step.jpg, alt: The rim held, after: great body R6, by: Ada, licence: CC-BY-4.0}}
changes: [{{version: 1.0.0, date: 2026-05-04, note: "R6 makes {COUNTS[5]}, it said 547."}}]
"""


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    site = write_site(tmp_path_factory.mktemp("sold") / "tideline", sold=SOLD)
    write_photo(site, "sold", "whole.jpg", quality=80)
    write_photo(site, "sold", "step.jpg", quality=80)
    assert main(["build", str(site)]) == 0
    return contents(site / "site")


def wordings() -> list[str]:
    """Every round in either terms, short and as it was typed."""
    proof, _ = proved(SOLD)
    assert proof is not None
    found = []
    for piece in proof.fabric.pieces.values():
        for worked in piece.rounds:
            instruction = worked.instruction
            assert isinstance(worked.round, Round) and instruction is not None
            found += [text_of(write(instruction, terms, str)) for terms in Terms]
    typed = re.findall(r"^      (?:R\d: )?(.+?)(?: \(\d+\))?$", SOLD, re.M)
    # What stands in the table of words and in the glossary is no round of this pattern.
    return [text for text in {*found, *typed} if text not in ("Stuff.",) and len(text) > 8]


def test_what_is_looked_for_is_there_where_rounds_are_shown() -> None:
    """Else the tests below could not fail."""
    words = text_of_page(page_of(SOLD.replace("show: preview", "show: full"))).replace("×", "x")
    assert sum(round in words for round in wordings()) > 8
    assert all(str(count) in words for count in COUNTS)
    assert "marvellous rim" in words and "sl st back down" in words


def test_no_booklet_is_on_the_site(built: dict[str, bytes]) -> None:
    """What is on paper is what is sold; of a pattern that is shown whole it is there, see
    test_booklets.py."""
    assert "patterns/sold/index.html" in built
    assert [name for name in built if name.endswith(".pdf")] == []
    assert b".pdf" not in built["patterns/sold/index.html"]


def test_no_round_is_anywhere_on_the_site(built: dict[str, bytes]) -> None:
    rounds = wordings()
    assert len(rounds) > 12
    for name, data in built.items():
        if not name.endswith(WORDS):
            continue
        text = " ".join(data.decode().replace("\u00a0", " ").replace("×", "x").split())
        for words in rounds:
            for form in (words, words.replace("×", "x")):
                if "sold" not in name and form == "inc in each st around":
                    continue  # pages that explain this wording to everyone
                assert form not in text, (name, form)


_CODES = re.compile(r"#[0-9A-Fa-f]{3,6}\b|\b[0-9a-f]{12}\b|'sha256-[^']+'")
"""Of colours and of files: no counts."""


def test_no_count_is_anywhere_on_the_site(built: dict[str, bytes]) -> None:
    for name, data in built.items():
        if name.endswith(WORDS):
            text = _CODES.sub("", data.decode())
            for count in COUNTS:
                assert not re.search(rf"(?<![\d.]){count}(?![\d.]*\d)", text), (name, count)


def test_nothing_between_the_rounds_gets_out(built: dict[str, bytes]) -> None:
    for name, data in built.items():
        assert b"marvellous" not in data, name
        assert b"sl st back down" not in data, name
        assert not re.search(r"step-?\w*\.(?:jpg|webp|avif)", name), name
        if "sold/" in name and name.endswith(".html"):
            assert b"The rim held" not in data
    assert "patterns/sold/tester.html" not in built


def test_what_a_buyer_wants_to_know_is_there(built: dict[str, bytes]) -> None:
    html = built["patterns/sold/index.html"].decode()
    page = text_of_page(html)
    assert 'href="https://example.org/shop"' in html and 'alt="A grey pebble on sand"' in html
    for words in (
        "40 cm",
        "Complex",
        "slate grey",
        "fibrefill",
        "Great body",
        "Get the whole pattern",
        "wavelet",
        "outlines alone",
        "1.0.0",
    ):
        assert words.lower() in page.lower(), words
    assert "Sold pebble" in built["patterns/index.html"].decode()


def test_the_demonstration_patterns_let_nothing_out_as_previews(tmp_path: Path) -> None:
    """The same for patterns of many kinds of rounds: their own pages hold none of them."""
    site = write_site(tmp_path / "tideline")
    (site / "patterns").mkdir()
    defaults = (ROOT / "patterns/defaults.yaml").read_text("utf-8")
    (site / "patterns/defaults.yaml").write_text(defaults, "utf-8")
    names = ("moon-jelly", "sea-urchin", "shore-crab")
    for name in names:
        folder = site / "patterns" / name
        text = (ROOT / "patterns" / name / "pattern.yaml").read_text("utf-8")
        (folder / "photos").mkdir(parents=True)
        (folder / "pattern.yaml").write_text(
            text.replace("status: published", "status: published\nshow: preview"), "utf-8"
        )
        for photo in (ROOT / "patterns" / name / "photos").iterdir():
            (folder / "photos" / photo.name).write_bytes(photo.read_bytes())
    assert main(["build", str(site)]) == 0
    built = contents(site / "site")
    for name in names:
        page = built[f"patterns/{name}/index.html"].decode()
        assert 'class="row round' not in page and "seam" not in page
        text = (site / "patterns" / name / "pattern.yaml").read_text("utf-8")
        lines = re.findall(r"^      \w+\.? ?[\dR-]+[:.] (.+?)(?: \(.*\))?$", text, re.M)
        assert len(lines) > 8
        plain = " ".join(page.replace("\u00a0", " ").replace("×", "x").split())
        for line in lines:
            if len(line) > 12:
                assert line not in plain, (name, line)
