"""Characters as a terminal shows them: their width, and none that it would obey."""

from __future__ import annotations

import pytest

from roundproof.telling.cells import cells, clean, width, wrapped


@pytest.mark.parametrize(
    ("text", "columns"),
    [
        ("R1: 6 sc", 8),
        ("é", 1),
        ("e\u0301", 1),  # e and a combining accent
        ("糸", 2),
        ("ｓｃ", 4),  # full-width letters
        ("🧶", 2),
        ("", 0),
    ],
)
def test_width_counts_columns(text: str, columns: int) -> None:
    assert width(text) == columns


def test_a_tab_reaches_to_the_next_stop() -> None:
    assert [shown for shown, _ in cells("a\tb\t")] == ["a", "   ", "b", "   "]


@pytest.mark.parametrize("sign", ["\x1b", "\x07", "\x00", "\x9b", "\u202e", "\u2066", "\u2028"])
def test_nothing_a_terminal_obeys_gets_through(sign: str) -> None:
    assert sign not in clean(f"a{sign}b")


def test_lines_are_wrapped_by_columns_and_long_words_stay_whole() -> None:
    assert wrapped("one two three", 8) == ["one two", "three"]
    assert wrapped("糸糸 糸糸 糸", 9) == ["糸糸 糸糸", "糸"]
    assert wrapped("a " + "x" * 20, 8) == ["a", "x" * 20]
    assert wrapped("", 8) == [""]
