"""The fabric agrees with stitches worked one by one."""

from __future__ import annotations

import ast
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from fabric.oracle import Ran, by_hand
from notation.texts import read_work
from roundproof.fabric.once import worked
from roundproof.notation.tree import Fill, Instruction, Item, Repeat, Stitches, Unit
from roundproof.notation.units import named
from roundproof.notation.writer import written
from roundproof.pattern.model import Terms
from roundproof.source import Source

_SPAN = Source("x", "").span(0, 0)

units = st.sampled_from(
    [
        Unit((("sc", 1),)),
        named([("sc", 2)], 1),
        named([("sc", 1)], 2),
        named([("sc", 1)], 3),
        Unit((("sc", 1),), 2, "inv dec"),
        named([("sc", 1), ("hdc", 1), ("dc", 1)], 1),
        named([("dc", 3)], 1),
        Unit((), 1),
        Unit((("sl st", 1),)),
    ]
)
single = st.builds(Stitches, units, st.integers(1, 6), st.just(_SPAN))
group = st.recursive(
    single,
    lambda inner: st.builds(
        Repeat,
        st.lists(inner, min_size=1, max_size=3).map(tuple),
        st.integers(2, 4),
        st.just(_SPAN),
    ),
    max_leaves=6,
)
rounds = st.lists(group, min_size=1, max_size=5)


@given(rounds, st.integers(0, 3))
@settings(max_examples=300)
def test_counted_repeats_use_and_make_what_unrolled_ones_do(items: list[Item], spare: int) -> None:
    loose = worked(Instruction((*items,)), 10**9, None, False)
    try:
        used, left, made = by_hand(items, loose.used + spare)
    except Ran:  # the two must agree on what is needed
        raise AssertionError(f"needs more than {loose.used}") from None
    out = worked(Instruction(tuple(items)), loose.used + spare, None, False)
    assert (out.used, out.left, out.made) == (used, left, made)
    assert out.spare == spare and out.over == 0


@given(st.lists(single, min_size=1, max_size=3), st.integers(1, 8), st.integers(0, 3))
def test_a_group_that_fills_the_round(body: list[Stitches], times: int, before: int) -> None:
    uses = sum(i.unit.uses * i.times for i in body if isinstance(i.times, int))
    if uses == 0:
        return
    items = [Repeat(tuple(body), Fill(before), _SPAN)]
    out = worked(Instruction(tuple(items)), uses * times + before, None, False)
    assert (out.used, out.left, out.made) == by_hand(items, uses * times + before)
    assert out.uneven is None and out.spare == before


@given(rounds)
@settings(max_examples=300)
def test_what_is_written_is_read_back_with_the_same_counts(items: list[Item]) -> None:
    tree = Instruction(tuple(items))
    for terms in Terms:
        back = read_work(written(tree, terms), terms)[0]
        out, again = (worked(t, 10**6, None, False) for t in (tree, back))
        assert (out.used, out.made, out.tally) == (again.used, again.made, again.tally)


def test_the_oracle_shares_only_the_tree() -> None:
    source = ast.parse(Path(__file__).with_name("oracle.py").read_text("utf-8"))
    imported = {n.module for n in ast.walk(source) if isinstance(n, ast.ImportFrom)}
    assert {m for m in imported if m and m.startswith("roundproof")} == {"roundproof.notation.tree"}
