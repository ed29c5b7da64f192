"""What an editor looks at is settled: by checks there are, by construction that tests hold, or by
a question to a person."""

from __future__ import annotations

from pathlib import Path

import pytest

from roundproof.checks import all_checks
from roundproof.checks._items import Item, items

ROOT = Path(__file__).parents[2]
EACH = pytest.mark.parametrize("item", items(), ids=lambda item: str(item.number))


def test_every_number_is_there_once() -> None:
    assert [item.number for item in items()] == list(range(1, 107))


def test_no_two_say_the_same() -> None:
    assert len({item.about for item in items()}) == 106


@EACH
def test_an_item_names_checks_that_there_are(item: Item) -> None:
    assert item.mark in ("M", "M+", "W", "P")
    assert set(item.checks) <= set(all_checks())
    assert len(set(item.checks)) == len(item.checks)


@EACH
def test_what_is_made_so_is_held_by_tests(item: Item) -> None:
    assert bool(item.made_so) == bool(item.tests)
    assert item.made_so == "" or item.made_so.endswith(".")
    assert [name for name in item.tests if not (ROOT / name).is_file()] == []


@EACH
def test_the_machine_settles_what_it_can(item: Item) -> None:
    if item.mark != "P":
        assert item.checks or item.made_so


@EACH
def test_a_person_is_asked_what_is_left_to_one(item: Item) -> None:
    asked = item.mark == "P" or item.number in (31, 36, 59, 79, 90, 94, 103)
    assert item.asks.endswith("?") or not asked
    assert item.asks == "" or item.asks.endswith("?")
