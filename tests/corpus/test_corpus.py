"""The corpus of round lines is read, and read rightly, to the figures that are promised."""

from __future__ import annotations

from collections import Counter

import pytest

from corpus.score import Score, pieces, score


@pytest.fixture(scope="module")
def scored() -> Score:
    return score(pieces())


def share(part: Counter[str], whole: Counter[str]) -> float:
    return sum(part.values()) / sum(whole.values())


def test_the_corpus_is_wide(scored: Score) -> None:
    assert sum(scored.lines.values()) > 1500
    assert len({piece.writer for piece in pieces()}) > 100


def test_nearly_every_line_is_read_and_rightly(scored: Score) -> None:
    assert share(scored.read, scored.lines) >= 0.985
    assert share(scored.right, scored.lines) >= 0.975


def test_every_real_mistake_is_reported(scored: Score) -> None:
    assert scored.reported == scored.mistakes


def test_most_pieces_that_are_right_have_no_error(scored: Score) -> None:
    assert share(scored.clean, scored.pieces) >= 0.965
