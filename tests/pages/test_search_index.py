"""What the search finds, and what it must not."""

from __future__ import annotations

import json

from rendering import proof_of
from roundproof.pages.check_pages import check_pages
from roundproof.pages.glossary import glossary
from roundproof.pages.pattern import pattern_page
from roundproof.pages.search_index import (
    LONGEST,
    check_entries,
    cut,
    pattern_entry,
    search_script,
    word_entries,
    written_entries,
)
from whole_patterns import PEBBLE


def test_the_script_holds_its_entries_whatever_they_say() -> None:
    evil = "</script>\u2028\"'`${1}\\\n<!--"
    script = search_script(written_entries(evil, "a.html", evil, [(evil, "b")])).decode()
    assert script.startswith("self.searchIndex = [\n") and script.endswith("];\n")
    rows = json.loads(script.removeprefix("self.searchIndex = ").removesuffix(";\n"))
    assert rows[0] == ["page", evil, "a.html", cut(evil), ""]
    assert rows[1][:3] == ["page", evil, "a.html#b"]
    assert search_script([]) == b"self.searchIndex = [\n\n];\n"


def test_a_pattern_is_found_by_its_words_and_not_by_its_rounds() -> None:
    proof = proof_of(PEBBLE)
    entry = pattern_entry(pattern_page(proof), "patterns/pebble/index.html", proof.pattern)
    assert (entry.title, entry.address) == ("Pebble", "patterns/pebble/index.html")
    for word in ("easy", "Upper", "Foot", "slate grey", "chalk", "upper surface", "Lapis"):
        assert all(part in entry.words for part in word.split()), word
    assert "magic" not in entry.words and "(18)" not in entry.words


def test_every_stitch_and_check_is_found() -> None:
    made = glossary()
    words = {entry.address: entry for entry in word_entries(made)}
    assert words["glossary.html#stitch-sc"].title == "sc (UK: dc)"
    assert "single crochet" in words["glossary.html#stitch-sc"].words
    assert len(words) == len(made.stitches) + len(made.words) + len(made.techniques)
    checks = list(check_entries(check_pages()))
    assert [entry.address for entry in checks] == [check.address for check in check_pages()]
    assert all("<" not in entry.about for entry in checks)


def test_a_line_is_cut_at_the_end_of_a_word() -> None:
    text = "word " * 100
    assert len(cut(text)) <= LONGEST + 1
    assert cut(text).endswith("word…")
    assert cut("A short one.") == "A short one."
