"""The sentences of commands and pages, by key: one file a language."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

from roundproof import tables


def say(key: str, **values: object) -> str:
    """The sentence of a key ("check.nothing") with its values filled in. KeyError where there is
    none."""
    table, _, name = key.partition(".")
    sentence: str = _sentences()[table][name]
    return sentence.format(**values)


def count(noun: str, number: int) -> str:
    """A number of things: "1 error", "2 errors"."""
    one, many = _sentences()["nouns"][noun]
    return f"{number} {one if number == 1 else many}"


def listing(words: list[str], last_by: str = "and") -> str:
    """Several words in one breath: "a, b and c", or "a, b or c"."""
    if not words:
        return ""
    *most, last = words
    return f"{', '.join(most)} {_sentences()['nouns'][last_by]} {last}" if most else last


@cache
def _sentences() -> dict[str, Any]:
    return tables.load(Path(__file__).with_name("en.toml"))
