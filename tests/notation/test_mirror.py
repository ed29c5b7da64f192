"""A round turned about: the same stitches the other way round, in the same yarns."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notation.texts import read_work
from notation.trees import SPAN, fan, skipped
from notation.trees import single_unit as units
from roundproof.notation.mirror import turned_about
from roundproof.notation.tree import Instruction, Item, Repeat, Stitches
from roundproof.notation.writer import written
from roundproof.pattern.model import Terms

single = st.builds(Stitches, units | fan | skipped, st.integers(1, 5), st.just(SPAN))
items = st.recursive(
    single,
    lambda inner: st.builds(
        Repeat, st.lists(inner, min_size=1, max_size=3).map(tuple), st.integers(2, 4), st.just(SPAN)
    ),
    max_leaves=6,
)


@given(st.lists(items, min_size=1, max_size=5))
def test_turned_twice_it_is_as_it_was(made: list[Item]) -> None:
    tree = Instruction((*made,))
    assert turned_about(turned_about(tree)) == tree


@pytest.mark.parametrize(
    ("typed", "mirrored"),
    [
        ("2 sc, inc", "inc, 2 sc"),
        ("(2 sc, inc) x 6", "(inc, 2 sc) x 6"),
        ("(sc, hdc, dc) in next st, 3 sc", "3 sc, (dc, hdc, sc) in next st"),
        ("sc, hdc in same st, 2 dc", "2 dc, hdc, sc in same st"),
        ("ch 3, 4 dc, 2 hdc, sl st in first st", "ch 3, 2 hdc, 4 dc, sl st in first st"),
        ("12 sc, leave 4 sts unworked, turn", "12 sc, leave 4 sts unworked, turn"),
        ("with chalk 3 sc, with slate 5 hdc", "with slate 5 hdc, with chalk 3 sc"),
        ("BLO: 2 sc, dec", "BLO: dec, 2 sc"),
        (
            "ch 6, sc in 2nd ch from hook, 3 sc, 3 sc in last ch, on the other side: 3 sc, inc",
            "ch 6, sc in 2nd ch from hook, 3 sc, 3 sc in last ch, on the other side: 3 sc, inc",
        ),
        ("6 sc in magic ring", "6 sc in magic ring"),
    ],
)
def test_a_round_the_other_way_about(typed: str, mirrored: str) -> None:
    assert written(turned_about(read_work(typed)[0]), Terms.US) == mirrored


def test_a_yarn_goes_with_its_stitches() -> None:
    """Begun in slate: the stitches before the change are slate, and come last."""
    tree = turned_about(read_work("inc, with chalk 5 sc")[0], "slate", "slate")
    assert written(tree, Terms.US) == "with chalk 5 sc, with slate inc"


def test_a_yarn_in_hand_need_not_be_named() -> None:
    tree = turned_about(read_work("2 sc, with slate inc, 4 sc")[0], "chalk", "slate")
    assert written(tree, Terms.US) == "4 sc, inc, with chalk 2 sc"
