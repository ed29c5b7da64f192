"""Planted mistakes are caught, at their own round, and nothing is said of the pieces without one.
A sample; `python tests/seeded/run.py` plants them all."""

from __future__ import annotations

import pytest

from seeded.run import Score, pieces, score
from seeded.run import _findings as findings

CLEAN = pieces()


@pytest.fixture(scope="module")
def counted() -> Score:
    return score(CLEAN, some_counts=False, most=140)


@pytest.fixture(scope="module")
def some_counted() -> Score:
    return score(CLEAN, some_counts=True, most=140)


def test_nothing_is_said_of_the_clean_pieces() -> None:
    assert len(CLEAN) > 40
    assert [piece.name for piece in CLEAN if findings(piece.draft())] == []


def test_every_kind_of_mistake_is_planted(counted: Score) -> None:
    assert len(counted.planted) >= 10
    assert sum(counted.planted.values()) > 100


def test_where_every_round_states_its_count_all_are_caught(counted: Score) -> None:
    assert [(m.kind, m.piece.name, m.told) for m in counted.survivors] == []
    assert counted.share(counted.placed) >= 0.98


def test_where_a_quarter_of_the_counts_is_missing_nearly_all_are(some_counted: Score) -> None:
    assert some_counted.share(some_counted.caught) >= 0.95
    assert some_counted.share(some_counted.placed) >= 0.9
