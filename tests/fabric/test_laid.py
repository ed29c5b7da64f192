"""Every stitch as it lies agrees with the counts, which are reckoned without unrolling."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fabric.pieces import one_piece, worked
from notation.trees import SPAN, fan, plain, single_unit, skipped
from roundproof.fabric.laid import Into, laid
from roundproof.fabric.model import WorkedRound
from roundproof.fabric.once import worked as work_once
from roundproof.notation.tree import Chain, Instruction, Item, Repeat, Stitches, Where
from roundproof.notation.writer import written
from roundproof.pattern.model import Terms
from roundproof.pipeline import prove

ROOT = Path(__file__).parents[2]
PATTERNS = sorted([*ROOT.glob("patterns/*/pattern.yaml"), *ROOT.glob("tests/clean/*/pattern.yaml")])


def agrees(round_: WorkedRound) -> None:
    stitches = list(laid(round_))
    counted = [s for s in stitches if s.number]
    assert [s.number for s in counted] == list(range(1, len(counted) + 1))
    if round_.made != len(counted):  # chains that nobody works into count for nothing
        assert round_.made == sum(s.kind != "ch" for s in counted)
    below = [f.number for s in stitches for f in s.feet if f.into in (Into.STITCH, Into.POST)]
    chains = [f.number for s in stitches for f in s.feet if f.into is Into.CHAIN]
    if round_.used and not round_.onto and not round_.folded and not round_.chains:
        assert set(below) <= set(range(1, (round_.available or 0) + 1))
        lifted = {1} if round_.lifted else set()  # the chain stands on the first stitch
        assert len({*below} | lifted) == round_.used or chains


@pytest.mark.parametrize("path", PATTERNS, ids=lambda p: p.parent.name)
def test_every_round_of_a_pattern(path: Path) -> None:
    proof = prove(str(path)).files[0].proof
    assert proof is not None
    for piece in proof.fabric.pieces.values():
        for round_ in piece.rounds:
            if round_.sound and len(round_.run) == 1:
                agrees(round_)


single = st.builds(Stitches, single_unit | fan | skipped, st.integers(1, 5), st.just(SPAN))
shared = st.builds(Stitches, plain, st.just(1), st.just(SPAN), where=st.just(Where.SAME))
chain = st.builds(Chain, st.integers(1, 4), st.just(SPAN))
rounds = st.lists(
    st.recursive(
        st.one_of(single, single, single, shared, chain),
        lambda inner: st.builds(
            Repeat,
            st.builds(lambda a, b: (a, *b), single, st.lists(inner, max_size=3)),
            st.integers(2, 4),
            st.just(SPAN),
        ),
        max_leaves=6,
    ),
    min_size=1,
    max_size=5,
)


@given(rounds)
@settings(max_examples=300)
def test_any_round_that_holds_makes_as_many_stitches_as_were_reckoned(items: list[Item]) -> None:
    """A round worked into just as many stitches as it needs is the same, unrolled or not."""
    tree = Instruction((*items,))
    needs = work_once(tree, 10_000, None, False)
    round_ = one_piece.into(written(tree, Terms.US), needs.used + needs.left)
    if round_ is not None and round_.sound:
        agrees(round_)


def test_what_a_stitch_goes_into() -> None:
    piece = worked("R1: 6 sc in magic ring\nR2: BLO: sc, inc, dec, 2 sc\nR3: sc in first st")
    first, second = piece.rounds[:2]
    assert {f.into for s in laid(first) for f in s.feet} == {Into.RING}
    feet = [[f.number for f in s.feet] for s in laid(second)]
    assert feet == [[1], [2], [2], [3, 4], [5], [6]]
    assert {f.loop for s in laid(second) for f in s.feet} == {"back"}


def test_both_sides_of_a_chain() -> None:
    piece = worked(
        "R1: ch 5, sc in 2nd ch from hook, 2 sc, 3 sc in last ch, on the other side: 2 sc, inc"
    )
    stitches = [s for s in laid(piece.rounds[0]) if s.kind == "sc"]
    assert [(f.into, f.number) for s in stitches for f in s.feet] == [
        *((Into.CHAIN, n) for n in (1, 2, 3, 4, 4, 4)),
        *((Into.FAR_SIDE, n) for n in (1, 2, 3, 3)),
    ]


def test_chains_and_the_spaces_under_them_are_told_from_stitches() -> None:
    start = "R1: 6 sc in magic ring (6)\nR2: (sc, ch 2, sk 1) x 3 (9)\nR3: {}"
    each = worked(start.format("sc around (9)")).rounds
    feet = [s.feet[0].into for s in laid(each[2], each[1])]
    assert feet == [Into.STITCH, Into.CHAIN, Into.CHAIN] * 3
    spaces = worked(start.format("(sc, 3 sc in next ch-2 sp) x 3 (12)")).rounds
    feet = [s.feet[0].into for s in laid(spaces[2], spaces[1])]
    assert feet == [Into.STITCH, Into.SPACE, Into.SPACE, Into.SPACE] * 3


def test_a_round_too_long_to_keep_is_looked_into() -> None:
    piece = worked("R1: 6 sc in magic ring\nR2: 10000000 sc in next st")
    stitches = laid(piece.rounds[1])
    assert [next(stitches).number for _ in range(3)] == [1, 2, 3]
