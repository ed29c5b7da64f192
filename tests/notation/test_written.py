"""What is written short is read back as the same tree, and can be taken in no other way."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notation.texts import SNIPPETS, read_work, taken
from notation.trees import instructions
from roundproof.notation.tree import Instruction
from roundproof.notation.writer import written
from roundproof.pattern.model import Terms


@given(instructions)
@settings(max_examples=300)
def test_what_is_written_is_read_back_as_the_same_tree_and_no_other(tree: Instruction) -> None:
    for in_terms in Terms:
        assert read_work(written(tree, in_terms), in_terms) == (tree,)


@given(st.lists(st.sampled_from(SNIPPETS), min_size=1, max_size=8))
@settings(max_examples=300)
def test_whatever_is_read_can_be_written_and_read_again(words: list[str]) -> None:
    for tree in taken(" ".join(words)):
        for in_terms in Terms:
            assert read_work(written(tree, in_terms), in_terms) == (tree,)


@pytest.mark.parametrize(
    ("typed", "house"),
    [
        ("inc, inc, sc, dec x 6", "2 inc, sc, 6 dec"),
        ("3 sc, 3 sc in next st x 2", "3 sc, 3 sc in each of next 2 sts"),
        ("(ch 2) in next st", "(ch 2) in next st"),
        ("3 sc, with A", "3 sc, with slate"),
        ("sc in every 3rd st around", "(3 sc) around"),
        ("BLO: inc x 6", "BLO: inc x 6"),
    ],
)
def test_house_style_is_taken_in_one_way_alone(typed: str, house: str) -> None:
    tree = read_work(typed)[0]
    assert written(tree, Terms.US) == house
    assert read_work(house) == (tree,)
