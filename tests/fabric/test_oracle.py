"""The fabric agrees with stitches worked one by one."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator, Sequence
from itertools import groupby
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from corpus.score import pieces
from fabric.hand import Ran, by_hand
from fabric.oracle import ByHand
from notation.texts import read_work
from proving import proved
from roundproof.checks import all_checks
from roundproof.fabric.model import Stretch, WorkedPiece
from roundproof.fabric.once import worked as work_once
from roundproof.notation.own import context_of, own_words
from roundproof.notation.reader import read_script
from roundproof.notation.tree import Fill, Instruction, Item, Onto, Repeat, Script, Stitches, Unit
from roundproof.notation.units import named
from roundproof.notation.writer import written
from roundproof.pattern.model import Terms
from roundproof.proof import Proof
from roundproof.source import Source

_SPAN = Source("x", "").span(0, 0)
_EXAMPLE = re.compile(r"^```yaml\n(.*?)^```", re.MULTILINE | re.DOTALL)


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
    loose = work_once(Instruction((*items,)), 10**9, None, False)
    try:
        used, left, made = by_hand(items, loose.used + spare)
    except Ran:  # the two must agree on what is needed
        raise AssertionError(f"needs more than {loose.used}") from None
    out = work_once(Instruction(tuple(items)), loose.used + spare, None, False)
    assert (out.used, out.left, out.made) == (used, left, made)
    assert out.spare == spare and out.over == 0


@given(st.lists(single, min_size=1, max_size=3), st.integers(1, 8), st.integers(0, 3))
def test_a_group_that_fills_the_round(body: list[Stitches], times: int, before: int) -> None:
    uses = sum(i.unit.uses * i.times for i in body if isinstance(i.times, int))
    if uses == 0:
        return
    items = [Repeat(tuple(body), Fill(before), _SPAN)]
    out = work_once(Instruction(tuple(items)), uses * times + before, None, False)
    assert (out.used, out.left, out.made) == by_hand(items, uses * times + before)
    assert out.uneven is None and out.spare == before


@given(rounds)
@settings(max_examples=300)
def test_what_is_written_is_read_back_with_the_same_counts(items: list[Item]) -> None:
    tree = Instruction(tuple(items))
    for terms in Terms:
        back = read_work(written(tree, terms), terms)[0]
        out, again = (work_once(t, 10**6, None, False) for t in (tree, back))
        assert (out.used, out.made, out.tally) == (again.used, again.made, again.tally)


ROOT = Path(__file__).parents[2]


def texts() -> Iterator[tuple[str, str]]:
    """Whole patterns: those of the project, of its documents, of its checks, of the corpus."""
    for path in sorted(ROOT.glob("patterns/*/pattern.yaml")):
        yield path.parent.name, path.read_text("utf-8")
    for path in sorted(ROOT.glob("tests/clean/*/pattern.yaml")):
        yield path.parent.name, path.read_text("utf-8")
    for path in sorted(ROOT.glob("tests/planted/*/pattern.yaml")):
        yield f"planted {path.parent.name}", path.read_text("utf-8")
    for document in (*ROOT.glob("*.md"), *ROOT.glob("theme/pages/*.md")):
        for number, text in enumerate(_EXAMPLE.findall(document.read_text("utf-8"))):
            if "pieces:" in text and "terms:" in text:
                yield f"{document.name} {number}", text
    for check in all_checks().values():
        yield f"{check.id} good", check.good
        yield f"{check.id} bad", check.bad
    for piece in pieces():
        yield f"{piece.file} {piece.writer}/{piece.name}", piece.draft()


CASES = list(texts())
CLEAN = sorted([*ROOT.glob("patterns/*/pattern.yaml"), *ROOT.glob("tests/clean/*/pattern.yaml")])


@pytest.mark.parametrize(("name", "text"), CASES, ids=[name for name, _ in CASES])
def test_every_round_comes_to_what_it_does_by_hand(name: str, text: str) -> None:
    """Whatever the tool finds sound is sound by hand, with the same numbers; and the other way
    about."""
    assert _disagreements(text) == []


@pytest.mark.parametrize("path", CLEAN, ids=lambda path: path.parent.name)
def test_clean_patterns_are_worked_by_hand_to_their_end(path: Path) -> None:
    proof, _ = proved(path.read_text("utf-8"))
    assert proof is not None
    for piece in proof.fabric.pieces.values():
        if not piece.of:
            rows = _by_hand(proof, piece).whole()
            assert len(rows) == len(piece.rounds)
            assert all(row is not None and not row.faults for row in rows)


def _disagreements(text: str) -> list[str]:
    proof, _ = proved(text)
    if proof is None:
        return []
    found = []
    for piece in proof.fabric.pieces.values():
        if piece.of or piece.piece.key in proof.fabric.differing:
            continue
        hand = _by_hand(proof, piece)
        rows = hand.whole()
        for worked, mine in zip(piece.rounds, rows, strict=False):
            if not worked.round.readings:
                break
            if mine is None or mine.faults:
                if worked.sound and worked.instead is None:
                    found.append(f"{piece.piece.key} {worked.label}: sound, and not by hand")
                break
            theirs = (worked.available, worked.used, worked.unworked, worked.made)
            ours = (mine.available, mine.used, mine.left, len(mine.made))
            if worked.available is None:  # nothing says what there is to work into
                ours = (None, *ours[1:])
            if not worked.sound:
                if theirs != ours:
                    found.append(f"{piece.piece.key} {worked.label}: sound by hand: {ours}")
                break
            if theirs != ours:
                found.append(f"{piece.piece.key} {worked.label}: {theirs}, by hand {ours}")
            elif _runs(worked.stretches) != _alike(mine.yarns) and len(worked.stretches) < 300:
                found.append(f"{piece.piece.key} {worked.label}: yarns differ")
        else:
            if len(rows) == len(piece.rounds) and all(r and not r.faults for r in rows):
                free = {(r.round, r.loop.value): r.count for r in piece.free}
                taken = {c.piece for c in proof.fabric.claims}
                if free != hand.free() and piece.piece.key not in taken:
                    found.append(f"{piece.piece.key}: free {free}, by hand {hand.free()}")
    return found


def _by_hand(proof: Proof, piece: WorkedPiece) -> ByHand:
    own, _ = own_words(proof.pattern)
    key = piece.piece.key
    rounds = piece.piece.rounds
    script = Script(())
    if rounds is not None:
        script, _ = read_script(rounds, context_of(proof.pattern, key, own))
    yarn = piece.piece.yarn
    first = proof.pattern.yarn(yarn.value) if yarn else None
    only = proof.pattern.yarns[0].key if len(proof.pattern.yarns) == 1 else None
    start = None
    if piece.piece.starts is not None or piece.piece.path is not None:
        start = piece.rounds[0].available if piece.rounds else None

    def edge(onto: Onto) -> int | None:
        for line in piece.rounds:
            for place, _, there in line.onto:
                if place == onto:
                    return there
        return None

    counts = piece.piece.chain_counts
    return ByHand(
        script,
        first.key if first else (yarn.value if yarn else only),
        counts.value if counts else None,
        start,
        edge,
    )


def _runs(stretches: Sequence[Stretch]) -> list[tuple[str | None, int]]:
    return [(s.yarn, s.made) for s in stretches]


def _alike(yarns: Sequence[str | None]) -> list[tuple[str | None, int]]:
    return [(yarn, len(list(same))) for yarn, same in groupby(yarns)]


@pytest.mark.parametrize("name", ["hand.py", "oracle.py"])
def test_the_oracle_shares_only_the_tree(name: str) -> None:
    source = ast.parse(Path(__file__).with_name(name).read_text("utf-8"))
    imported = {n.module for n in ast.walk(source) if isinstance(n, ast.ImportFrom)}
    assert {m for m in imported if m and m.startswith("roundproof")} == {"roundproof.notation.tree"}
    assert {m for m in imported if m and m.startswith("fabric")} <= {"fabric.hand"}
