"""Texts know the place of each line, wherever that can be known."""

from __future__ import annotations

import pytest

from loading import source
from roundproof.pattern.nodes import Scalar, tree
from roundproof.pattern.texts import text_of
from roundproof.source import Text


def text(yaml: str) -> Text:
    root, _ = tree(source(yaml))
    assert root is not None
    value = root.entries[0].value
    assert isinstance(value, Scalar)
    return text_of(value)


BLOCKS = [
    "a: |\n  x y\n    z\n\n  w\n",
    "a: |\r\n  x y\r\n    z\r\n\r\n  w\r\n",
    "a: |2\n    x y\n    z\n\n  w\n",
    "a: |-\n  x y\n  z\n",
    "a: |+\n  x y\n\n\n",
    "a: |+2 # why\n   x y\n  z\n",
    "a: |\n\n\n  x y\n   \n  z\nb: c\n",
    "a: |\n  x y  \n  z\t\n",
    "a: |\n  # private\n  * 2 sc: [x]\n",
    "a: |\n  x y",
    "\ufeffa: |\n  x é 𝄞\n  y\n",
    "a: |\n  x y\n     \n",
]


@pytest.mark.parametrize("yaml", BLOCKS)
def test_each_line_of_a_bar_text_has_exactly_its_characters(yaml: str) -> None:
    read = text(yaml)
    assert read.lines is not None
    assert "\n".join(line.text for line in read.lines) == read.value
    for line in read.lines:
        assert line.span.text == line.text
    starts = [line.span.begins[0] for line in read.lines]
    assert starts == list(range(starts[0], starts[0] + len(starts)))


def test_lines_and_columns_of_a_bar_text() -> None:
    read = text("a: |2\r\n    R1: 6 sc\r\n  R2: inc x 6\r\n")
    assert read.lines is not None
    assert [(line.text, line.span.begins) for line in read.lines] == [
        ("  R1: 6 sc", (2, 3)),
        ("R2: inc x 6", (3, 3)),
    ]


def test_a_plain_line_has_its_place() -> None:
    read = text("a:   6 sc in magic ring  # six\n")
    assert read.lines is not None
    assert read.value == "6 sc in magic ring"
    assert read.lines[0].span.begins == (1, 6)


@pytest.mark.parametrize(
    ("yaml", "value"),
    [
        ("a: >\n  x\n  y\n", "x y"),
        ("a: >-\n  x\n\n  y\n", "x\ny"),
        ('a: "x\\ty"\n', "x\ty"),
        ("a: 'it''s'\n", "it's"),
        ("a: x\n  y\n", "x y"),
    ],
)
def test_folded_and_quoted_texts_have_no_places_inside(yaml: str, value: str) -> None:
    assert (text(yaml).value, text(yaml).lines) == (value, None)


def test_a_folded_text_is_shown_at_its_words() -> None:
    assert text("a: >-\n  x\n  y\nb: c\n").span.text == "x\n  y"


def test_no_mark_of_the_reader_is_left_in_a_folded_text() -> None:
    assert "\a" not in text("a: >\n  one\n  two\n    three\n  four\n").value
