"""Instructions of every shape that the reader can come to, made by chance."""

from __future__ import annotations

from hypothesis import strategies as st

from roundproof.notation.loops import instruction_of
from roundproof.notation.tree import (
    Chain,
    Colour,
    FarSide,
    Fill,
    FreeLoops,
    Instruction,
    Item,
    JoinRound,
    Leave,
    Loop,
    Onto,
    Repeat,
    Spot,
    Stitches,
    Turn,
    Unit,
    Where,
)
from roundproof.notation.units import in_loop, joined, named
from roundproof.source import Source

SPAN = Source("x", "").span(0, 0)

_KINDS = st.sampled_from(["sc", "hdc", "dc", "tr", "sl st", "esc"])
_COUNT = st.integers(1, 9)
_FILL = st.builds(Fill, st.integers(0, 3))
_LOOP = st.sampled_from([None, None, None, *Loop])

plain = _KINDS.map(lambda kind: Unit(((kind, 1),)))
several = st.builds(lambda kind, n: named([(kind, n)], 1), _KINDS, st.integers(2, 5))
closed = st.builds(lambda kind, n: named([(kind, 1)], n), _KINDS, st.integers(2, 4))
hidden = _KINDS.map(lambda kind: Unit(((kind, 1),), 2, "inv dec"))
fan = st.lists(
    st.tuples(st.sampled_from(["sc", "hdc", "dc", "ch"]), st.integers(1, 3)),
    min_size=2,
    max_size=4,
).map(lambda made: named(made, 1))
skipped = st.just(Unit((), 1))

single_unit = st.one_of(plain, several, closed, hidden)


def _next(unit: Unit, times: int | Fill, loop: Loop | None, layers: int) -> Stitches:
    return Stitches(unit, times, SPAN, loop if unit.makes else None, layers=layers)


def _elsewhere(unit: Unit, where: Where, loop: Loop | None) -> Item:
    if unit.makes[0][0] == "sl st" and where is Where.FIRST:
        return JoinRound(SPAN)
    return Stitches(unit, 1, SPAN, loop, where)


stitches = st.one_of(
    st.builds(_next, st.one_of(single_unit, fan, skipped), _COUNT | _FILL, _LOOP, st.just(1)),
    st.builds(_next, single_unit, _COUNT | _FILL, _LOOP, st.just(2)),
    st.builds(
        _elsewhere,
        plain | several,
        st.sampled_from([Where.FIRST, Where.SAME, Where.LAST]),
        _LOOP,
    ),
)
places = st.one_of(
    st.builds(
        Onto,
        st.just(Spot.PIECE),
        st.sampled_from(["leg", "arm", "claw"]),
        st.integers(1, 4),
        both=st.booleans(),
    ),
    st.just(Onto(Spot.PIECE, "arm", 1, both=True, front=True)),
    st.builds(Onto, st.just(Spot.UNWORKED), round=st.integers(0, 9)),
    st.just(Onto(Spot.PATH)),
)
placed = st.builds(
    lambda unit, times, loop, onto: Stitches(
        unit, times, SPAN, loop if unit.makes else None, onto=onto
    ),
    st.one_of(single_unit, fan, skipped),
    _COUNT | st.just(Fill()),
    _LOOP,
    places,
)
others = st.one_of(
    st.builds(Chain, _COUNT, st.just(SPAN)),
    st.builds(Leave, _COUNT, st.just(SPAN)),
    st.builds(Colour, st.sampled_from(["slate", "chalk", "mauve"]), st.just(SPAN)),
    st.sampled_from([Turn(SPAN), FarSide(SPAN), JoinRound(SPAN)]),
)


def _can_repeat(body: list[Item]) -> bool:
    """A yarn alone is no work to repeat, and what is repeated begins with the next stitch."""
    first = body[0]
    starts = isinstance(first, Stitches) and first.where is Where.FIRST
    return not starts and not all(isinstance(i, Colour) for i in body)


items = st.recursive(
    st.one_of(stitches, stitches, stitches, placed, others),
    lambda inner: st.builds(
        lambda body, times: Repeat(tuple(joined(body)), times, SPAN),
        st.lists(inner, min_size=1, max_size=4).filter(_can_repeat),
        st.integers(1, 6) | _FILL,
    ),
    max_leaves=8,
)


def _ring(unit: Unit, times: int) -> list[Item]:
    return [Stitches(unit, times, SPAN, None, Where.RING)]


def _chain(count: int, unit: Unit, nth: int) -> list[Item]:
    return [Chain(count, SPAN), Stitches(unit, 1, SPAN, None, Where.HOOK, nth)]


starts = st.one_of(
    st.just([]),
    st.builds(_ring, plain, _COUNT),
    st.builds(_chain, st.integers(2, 20), plain | several, st.integers(2, 13)),
    st.builds(lambda n: [Chain(n, SPAN), JoinRound(SPAN)], st.integers(3, 40)),
)


def _instruction(
    start: list[Item], rest: list[Item], loop: Loop | None, into: FreeLoops | None
) -> Instruction:
    found = [*start, *rest]
    if loop:
        found = [in_loop(item, loop) for item in found]
    while len(found) == 1 and isinstance(only := found[0], Repeat) and only.times == 1:
        found = list(only.body)  # brackets that say nothing
    return instruction_of([*([into] if into else []), *found])


_into = st.builds(
    FreeLoops, st.sampled_from([Loop.FRONT, Loop.BACK]), st.integers(1, 30), st.just(SPAN)
)
instructions = st.builds(
    _instruction,
    starts,
    st.lists(items, min_size=1, max_size=5),
    st.sampled_from([None, None, Loop.FRONT, Loop.BACK]),
    st.none() | st.none() | _into,
)
