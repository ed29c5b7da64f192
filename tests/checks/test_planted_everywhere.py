"""Whatever the machine settles is shown to be settled: every check that an item names has a pattern
with just that mistake, which it finds at its words."""

from __future__ import annotations

from pathlib import Path

import pytest
from ruamel.yaml import YAML

from roundproof.checks._items import Item, items

TESTS = Path(__file__).parents[1]
FILES = (TESTS / "planted" / "expected.yaml", *(TESTS / "planted_in_clean").glob("*.yaml"))
READ = YAML(typ="safe")
PLANTED = {row["check"] for file in FILES for row in READ.load(file).values()}


@pytest.mark.parametrize(
    "item", [i for i in items() if i.mark in ("M", "M+")], ids=lambda item: str(item.number)
)
def test_each_check_of_what_is_computed_has_a_planted_mistake(item: Item) -> None:
    assert set(item.checks) - PLANTED == set()
