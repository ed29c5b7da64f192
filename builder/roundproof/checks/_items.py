"""What an editor looks at, and which check or construction settles it, from items.toml. Read by
pages alone: `check` has no use for it."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from roundproof.frozen import dataclass
from roundproof.tables import load


@dataclass(frozen=True, slots=True)
class Item:
    """One thing to look at. `mark`: M or M+ (the machine settles it, the latter once a key is
    filled in), W (a hint, then a person), P (a person). `tests` hold what `made_so` says; `asks`
    is the question left to a person."""

    number: int
    mark: str
    about: str
    checks: tuple[str, ...] = ()
    made_so: str = ""
    tests: tuple[str, ...] = ()
    asks: str = ""


@cache
def items() -> tuple[Item, ...]:
    """All of them in order."""
    return tuple(_item(row) for row in load(Path(__file__).with_name("items.toml"))["item"])


def _item(row: Mapping[str, Any]) -> Item:
    lists = {key: tuple(row.get(key, ())) for key in ("checks", "tests")}
    return Item(**{**row, **lists})
