"""The package's `dataclass` behaves as the standard one does for frozen values."""

from __future__ import annotations

import dataclasses
import pickle
from functools import cached_property
from typing import Any, Generic, TypeVar

import pytest

from roundproof import frozen

T = TypeVar("T")


@frozen.dataclass(frozen=True, slots=True)
class Point:
    """A place."""

    x: int
    y: int = 2
    note: str = frozen.field(default="", compare=False, repr=False)
    more: dict[str, int] = frozen.field(default_factory=dict)

    @property
    def sum(self) -> int:
        return self.x + self.y


@frozen.dataclass(frozen=True, slots=True)
class Held(Generic[T]):
    value: T


@frozen.dataclass(frozen=True)
class Cached:
    name: str

    @cached_property
    def loud(self) -> str:
        return self.name.upper()


@frozen.dataclass()
class Growing:
    count: int = 0
    seen: list[str] = frozen.field(default_factory=list)


def test_values_are_made_by_place_and_by_name_with_defaults() -> None:
    assert (Point(1).x, Point(1).y, Point(1).more) == (1, 2, {})
    assert Point(1, y=3).sum == 4
    assert Point(1).more is not Point(1).more
    with pytest.raises(TypeError):
        Point()  # type: ignore[call-arg]


@pytest.mark.parametrize("value", [Point(1), Held(1), Cached("a")])
def test_nothing_can_be_changed(value: Any) -> None:
    name = dataclasses.fields(value)[0].name
    with pytest.raises(AttributeError, match="frozen"):
        setattr(value, name, 5)
    with pytest.raises(AttributeError, match="frozen"):
        delattr(value, name)


def test_equal_values_are_equal_and_hash_alike() -> None:
    assert Point(1, note="a") == Point(1, note="b")
    assert Point(1) != Point(2)
    assert Held(Point(1)) != Point(1)  # type: ignore[comparison-overlap]
    assert len({Held(1), Held(1), Held(2)}) == 2
    with pytest.raises(TypeError):
        hash(Point(1))  # it holds a dict


def test_slots_leave_no_room_for_anything_else() -> None:
    assert not hasattr(Point(1), "__dict__")
    assert Cached("a").loud == "A"


def test_the_standard_library_knows_them() -> None:
    assert dataclasses.is_dataclass(Point)
    assert dataclasses.replace(Point(1), y=9) == Point(1, 9)
    assert [f.name for f in dataclasses.fields(Held)] == ["value"]
    match Point(1, 7):
        case Point(x, y):
            assert (x, y) == (1, 7)


def test_they_print_as_they_are_made() -> None:
    assert repr(Point(1)) == "Point(x=1, y=2, more={})"


def test_what_grows_can_be_changed_and_has_no_hash() -> None:
    growing = Growing()
    growing.count += 1
    growing.seen.append("a")
    assert growing == Growing(1, ["a"])
    with pytest.raises(TypeError):
        hash(growing)


@pytest.mark.parametrize("before", [0, 2 * frozen.FEW])
def test_the_first_values_are_made_like_all_later_ones(before: int) -> None:
    @frozen.dataclass(frozen=True, slots=True)
    class Pair:
        left: int
        right: int = 2
        more: list[int] = frozen.field(default_factory=list)

    for number in range(before):
        Pair(number)
    pair: Any = Pair
    assert repr([Pair(1), Pair(1, 3), pair(right=4, left=5, more=[6])]).count("Pair(left=") == 3
    assert (Pair(1).right, Pair(1, 3).right, pair(right=4, left=5).left) == (2, 3, 5)
    assert Pair(1).more is not Pair(1).more
    for args, named in [((), {}), ((1, 2, [], 4), {}), ((1,), {"left": 2}), ((1,), {"other": 2})]:
        with pytest.raises(TypeError, match="argument"):
            pair(*args, **named)


def test_values_go_to_another_process_and_leave_behind_what_was_worked_out() -> None:
    for value in (Point(1, note="a", more={"b": 2}), Held(Point(3)), Cached("reef")):
        again = pickle.loads(pickle.dumps(value))
        assert again == value and type(again) is type(value)
    assert pickle.loads(pickle.dumps(Point(1, note="a"))).note == "a"
    reef = Cached("reef")
    assert reef.loud
    assert vars(pickle.loads(pickle.dumps(reef))) == {"name": "reef"}
