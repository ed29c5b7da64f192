"""Rounds written out in full: what is said, and that it is read back as the same tree."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notation.texts import SNIPPETS, only_round, read_work, taken
from notation.trees import SPAN, instructions
from roundproof.notation.forms import FORMS
from roundproof.notation.spoken import speak_round, spoken
from roundproof.notation.tree import Again, Instruction, Label
from roundproof.notation.writer import text_of
from roundproof.pattern.model import Terms
from roundproof.reference import stitches, terms


def said(typed: str, in_terms: Terms = Terms.US) -> str:
    return spoken(read_work(typed)[0], in_terms)


@given(instructions)
@settings(max_examples=300)
def test_what_is_spoken_is_read_back_as_the_same_tree_and_no_other(tree: Instruction) -> None:
    for in_terms in Terms:
        assert read_work(spoken(tree, in_terms), in_terms) == (tree,)


@given(st.lists(st.sampled_from(SNIPPETS), min_size=1, max_size=8))
@settings(max_examples=300)
def test_whatever_is_read_can_be_spoken_and_read_again(words: list[str]) -> None:
    for tree in taken(" ".join(words)):
        for in_terms in Terms:
            assert read_work(spoken(tree, in_terms), in_terms) == (tree,)


@pytest.mark.parametrize(("form", "_"), FORMS)
@pytest.mark.parametrize("in_terms", list(Terms))
def test_every_form_can_be_spoken(form: str, _: str, in_terms: Terms) -> None:
    tree = read_work(form)[0]
    assert read_work(spoken(tree, in_terms), in_terms) == (tree,)


@given(instructions)
def test_nothing_is_shortened_and_no_sign_has_to_be_spelled_out(tree: Instruction) -> None:
    short = {w for kind in stitches().values() for w in (*kind.us, *kind.uk) if len(w) < 5}
    short |= {term.us_short for term in terms().values() if term.means and len(term.us_short) < 4}
    for in_terms in Terms:
        text = spoken(tree, in_terms)
        assert re.fullmatch(r"[\w ,;:.]*", text)
        assert not (set(re.findall(r"\w+", text)) & short - {"chain"})


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        (
            "(5 sc, inc) x 6",
            "single crochet in each of the next 5 stitches, then 2 single crochet in the next"
            " stitch. Do this 6 times in all.",
        ),
        (
            "(2 sc, inc) to last 3 sts, 3 sc",
            "single crochet in each of the next 2 stitches, then 2 single crochet in the next"
            " stitch. Repeat this to the last 3 stitches. Then single crochet in each of the next 3"
            " stitches.",
        ),
        (
            "sc, (sc, (dec, inc) x 2) x 3, sc",
            "single crochet in the next stitch. Then do the following 3 times: single crochet in"
            " the next stitch, then do the following 2 times: single crochet the next 2 stitches"
            " together, then 2 single crochet in the next stitch; end of the inner repeat; end of"
            " the repeat. Then single crochet in the next stitch.",
        ),
        ("BLO: sc around", "in the back loops only: single crochet in each stitch around."),
        (
            "with A 3 sc, with B inv dec x 2",
            "with slate: single crochet in each of the next 3 stitches, then with chalk: make an"
            " invisible decrease over each of the next 2 pairs of stitches.",
        ),
        ("ch 1, turn", "chain 1, then turn the work."),
    ],
)
def test_sentences(typed: str, expected: str) -> None:
    assert said(typed) == expected


def test_uk_terms_have_their_own_names() -> None:
    assert said("sk 2, dc, sc3tog", Terms.UK) == (
        "miss the next 2 stitches, then treble crochet in the next stitch, then double crochet the"
        " next 3 stitches together."
    )


def test_rows_go_across() -> None:
    tree = read_work("(sc, inc) around")[0]
    assert spoken(tree, Terms.US, rows=True).endswith("Repeat this across.")


def whole(typed: str) -> str:
    """A whole round, read and spoken."""
    round_ = only_round(typed)
    count = round_.stated.count if round_.stated else None
    return text_of(speak_round(round_.label, round_.readings[0], count, Terms.US))


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        (
            "R7: (5 sc, inc) x 6 (42)",
            "Round 7: single crochet in each of the next 5 stitches, then 2 single crochet in the"
            " next stitch. Do this 6 times in all. 42 stitches.",
        ),
        (
            "R4-R6: sc around (18)",
            "Rounds 4 to 6: single crochet in each stitch around. 18 stitches in each round.",
        ),
        ("Row 2: 1 sc (1)", "Row 2: single crochet in the next stitch. 1 stitch."),
    ],
)
def test_whole_rounds(typed: str, expected: str) -> None:
    assert whole(typed) == expected


@pytest.mark.parametrize(
    "typed", ["R7: (5 sc, inc) x 6 (42)", "R4-R6: sc around (18)", "Rows 2-3: 3 sc, 2 inc (7)"]
)
def test_a_whole_round_is_read_back(typed: str) -> None:
    first, again = only_round(typed), only_round(whole(typed))
    assert (again.label, again.readings, again.remark) == (first.label, first.readings, "")
    assert again.stated is not None and again.stated == first.stated


def test_rounds_repeated() -> None:
    again = Again(8, 12, 3, SPAN)
    text = text_of(speak_round(Label(13, 27, SPAN), again, None, Terms.US))
    assert text == "Rounds 13 to 27: repeat rounds 8 to 12, 3 more times."
    assert only_round(text).repeats == again
