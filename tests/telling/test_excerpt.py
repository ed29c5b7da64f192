"""The marks stand under exactly the words, whatever the line is made of."""

from __future__ import annotations

import pytest

from roundproof.source import Source
from roundproof.telling.cells import cells, width
from roundproof.telling.excerpt import Excerpt, excerpt


def marked(text: str, words: str, columns: int = 60) -> Excerpt:
    source = Source("p.yaml", text)
    start = text.index(words)
    part = excerpt(source.span(start, start + len(words)), columns)
    assert part is not None
    return part


def under(part: Excerpt) -> str:
    """The characters of the line that the marks stand under."""
    start = len(part.marks) - len(part.marks.lstrip())
    out, column = "", 0
    for char, wide in cells(part.line):
        if start <= column < len(part.marks):
            out += char
        column += wide
    return out


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("      R7: (4 sc, inc) x 6 (36)", "(4 sc, inc) x 6"),
        ("R1: 6 sc in magic ring (7)", "7"),
        ("\tR1:\t6 sc", "6 sc"),
        ("糸の色: 紺色 with", "紺色"),
        ("cafe\u0301 in R6", "R6"),
        ("🧶🧶 blip", "blip"),
    ],
)
def test_marks_stand_under_the_words(line: str, words: str) -> None:
    part = marked(f"a: |\n{line}\nb", words)
    assert part.number == 2
    assert under(part) == words


@pytest.mark.parametrize("at", [0, 1, 30, 80, 150, 194])
def test_a_long_line_is_cut_around_the_words(at: int) -> None:
    line = ("x" * at) + " blip " + ("y" * (200 - at))
    part = marked(line, "blip", columns=40)
    assert under(part) == "blip"
    assert width(part.line) <= 40
    assert width(part.line) >= 35, "no room is wasted"
    assert part.line.startswith("…") == (at > 34)


def test_words_longer_than_the_line_are_cut_and_marked_to_the_end() -> None:
    part = marked("a: " + "x" * 500, "x" * 500, columns=40)
    assert width(part.line) <= 40
    assert set(under(part)) == {"x"}


def test_a_line_of_two_million_characters_is_cut_without_reading_it_all() -> None:
    line = "x" * 1_000_000 + " blip " + "y" * 1_000_000
    assert under(marked(line, "blip", columns=40)) == "blip"


def test_several_lines_are_marked_to_the_end_of_the_first() -> None:
    part = marked("a: >\n  one\n  two\nb: 1", ">\n  one\n  two")
    assert (part.line, part.marks, part.more) == ("a: >", "   ^", 2)


def test_an_empty_place_still_gets_a_mark() -> None:
    source = Source("p.yaml", "title: Pebble")
    part = excerpt(source.span(0, 0), 60)
    assert part == Excerpt(1, "title: Pebble", "^", 0)


def test_no_line_is_shown_where_there_is_none() -> None:
    assert excerpt(Source("p.yaml", "").span(0, 0), 60) is None
    assert excerpt(Source("p.yaml", "a\n\n").span(2, 2), 60) is None


def test_plain_signs_stand_in_where_the_console_has_no_others() -> None:
    source = Source("p.yaml", "x" * 100 + " blip " + "y" * 100)
    part = excerpt(source.span(101, 105), 40, "...")
    assert part is not None
    assert part.line.startswith("...") and part.line.endswith("...")
    assert under(part) == "blip"
