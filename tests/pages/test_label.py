"""The label stays a label: under 75 words and on one card, whatever the pattern says."""

from __future__ import annotations

import re
from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from rendering import proof_of, rendered
from roundproof.pages.label import MOST_LETTERS, Label, count_words, cut, label
from roundproof.source import Located, Text
from whole_patterns import PEBBLE

MOST = 75
"""Smithsonian guidance on the access of exhibitions: 75 words a label at the most."""


def told(made: Label) -> list[str]:
    """Everything that is printed."""
    name = made.scientific.striptags()
    facts = [word for fact in made.facts for word in fact]
    return [made.name, name, *facts, made.maker, *made.statements]


def label_of(text: str) -> Label:
    made = label(proof_of(text))
    assert made is not None
    return made


def test_the_label_tells_what_a_label_has_to_tell() -> None:
    made = label_of(PEBBLE)
    assert (made.name, made.scientific.striptags()) == ("Pebble", "Lapis fictus (Nobody, 1900)")
    facts = dict(made.facts)
    assert facts["Made of"] == "Crocheted cotton, stuffed"
    assert facts["Pattern"] == "Roundproof examples"
    assert facts["Scale"] == "1:1, life size"
    assert facts["In life"].replace("\u00a0", " ") == "3.4 cm wide (A book of stones.)"
    assert made.statements == ("Stones are hard.",)


def test_a_pattern_that_stands_for_nothing_has_no_label() -> None:
    assert label(proof_of(PEBBLE.partition("specimen:")[0])) is None


def test_statements_come_in_their_order_as_far_as_there_is_room() -> None:
    says = [f"Stone number {n} is {'very ' * 5}hard." for n in range(1, 9)]
    long = f"{'word ' * 26}end."
    rows = "".join(f"    - {{says: {one}, source: 1}}\n" for one in (long, *says))
    old = "  statements: [{says: Stones are hard., source: 1}]\n"
    made = label_of(PEBBLE.replace(old, f"  statements:\n{rows}"))
    assert made.statements == tuple(says[: len(made.statements)])
    assert 1 <= len(made.statements) < 8
    assert long not in made.statements  # more than 25 words in a sentence


WORDS = st.text(st.characters(codec="utf-8", exclude_categories=["Cs", "Cc"]), max_size=900)


@given(WORDS, WORDS, WORDS, WORDS, st.lists(WORDS, max_size=4))
def test_no_pattern_makes_a_label_of_75_words(
    name: str, scientific: str, designer: str, book: str, says: list[str]
) -> None:
    proof = proof_of(PEBBLE)
    pattern, found = proof.pattern, proof.pattern.specimen
    assert found is not None
    span = found.span

    def words(text: str) -> Text:
        return Text(text, span, ())

    hostile = replace(
        found,
        name=Located(name, span),
        scientific=Located(scientific, span),
        references=(words(book),),
        statements=tuple(replace(found.statements[0], says=words(one)) for one in says),
    )
    yarns = tuple(replace(yarn, fibre=Located(book + name, span)) for yarn in pattern.yarns)
    pattern = replace(pattern, specimen=hostile, yarns=yarns, designer=Located(designer, span))
    made = label(replace(proof, pattern=pattern))
    assert made is not None
    whole = told(made)
    by_spaces = sum(len(one.split()) for one in whole)
    by_letters = sum(len(re.findall(r"\w+", one)) for one in whole)
    assert max(by_spaces, by_letters) < MOST
    assert sum(map(len, whole)) <= MOST_LETTERS + 60  # a scientific name has its brackets


@given(WORDS, st.integers(1, 20), st.integers(2, 80))
def test_what_is_cut_keeps_within_both(text: str, words: int, letters: int) -> None:
    made = cut(text, words, letters)
    assert count_words(made) <= words
    assert len(made) <= letters


def test_the_page_of_the_label_holds_nothing_else_that_is_printed() -> None:
    html = rendered("label.html", label=label_of(PEBBLE), plate=None)
    article = html.partition('<article class="row label"')[2].partition("</article>")[0]
    assert "Lapis fictus" in article
    assert html.count("<h1") == 1
