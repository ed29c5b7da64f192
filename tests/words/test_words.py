"""Every sentence that the code asks for is there, and none is left over."""

from __future__ import annotations

import ast
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

import roundproof
from roundproof.words import count, listing, say

PACKAGE = Path(roundproof.__file__).parent
TABLES = tomllib.loads((PACKAGE / "words" / "en.toml").read_text("utf-8"))
KEYS = {f"{table}.{key}" for table, rows in TABLES.items() for key in rows if table != "nouns"}


def literals() -> Iterator[str]:
    """Every text in the code; of one with something filled in, what stands before that."""
    for path in PACKAGE.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                yield node.value


def asked() -> Iterator[str]:
    """Every key that `say` is called with outright."""
    for path in PACKAGE.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            match node:
                case ast.Call(func=ast.Name(id="say"), args=[ast.Constant(value=str() as key), *_]):
                    yield key


def test_every_sentence_asked_for_is_there() -> None:
    assert set(asked()) - KEYS == set()


def test_no_sentence_is_left_over() -> None:
    texts = set(literals())
    begun = {text for text in texts if text.endswith((".", "_"))}
    unused = {k for k in KEYS if k not in texts and not any(k.startswith(b) for b in begun)}
    assert unused == set()


def test_counts_and_listings_read_well() -> None:
    assert [count("error", n) for n in (0, 1, 2)] == ["0 errors", "1 error", "2 errors"]
    assert listing(["a"]) == "a"
    assert listing(["a", "b", "c"]) == "a, b and c"
    assert listing(["a", "b"], "or") == "a or b"
    assert listing([]) == ""


def test_a_sentence_that_is_not_there_is_a_fault_at_once() -> None:
    with pytest.raises(KeyError):
        say("check.nonsense")
