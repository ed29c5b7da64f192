"""Edges and rounds in words."""

from __future__ import annotations

import pytest

from roundproof.notation.edges import (
    EdgeKind,
    EdgeName,
    piece_of,
    read_edge,
    read_label,
    read_range,
)

PIECES = ("upper", "claw", "band", "foot", "upper left", "left claw")


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("upper", EdgeName("upper", EdgeKind.ROUND)),
        ("upper R6", EdgeName("upper", EdgeKind.ROUND, 6)),
        ("upper Rnd 6", EdgeName("upper", EdgeKind.ROUND, 6)),
        ("upper last round", EdgeName("upper", EdgeKind.ROUND)),
        ("upper R6 free front loops", EdgeName("upper", EdgeKind.FRONT_LOOPS, 6)),
        ("upper R6 back loops", EdgeName("upper", EdgeKind.BACK_LOOPS, 6)),
        ("upper free loops", EdgeName("upper", EdgeKind.LOOPS)),
        ("claw R12 unworked sts", EdgeName("claw", EdgeKind.UNWORKED, 12)),
        ("claw unworked stitches", EdgeName("claw", EdgeKind.UNWORKED)),
        ("band row ends", EdgeName("band", EdgeKind.ROW_ENDS)),
        ("band left row ends", EdgeName("band", EdgeKind.LEFT_ROW_ENDS)),
        ("band right row ends", EdgeName("band", EdgeKind.RIGHT_ROW_ENDS)),
        ("foot far side", EdgeName("foot", EdgeKind.FAR_SIDE)),
        ("foot foundation", EdgeName("foot", EdgeKind.FOUNDATION)),
        ("  Upper   r6 ", EdgeName("upper", EdgeKind.ROUND, 6)),
    ],
)
def test_an_edge_in_words(words: str, expected: EdgeName) -> None:
    assert read_edge(words, PIECES) == expected


def test_the_longest_key_wins() -> None:
    assert read_edge("upper left R3", PIECES) == EdgeName("upper left", EdgeKind.ROUND, 3)
    assert read_edge("left claw", PIECES) == EdgeName("left claw", EdgeKind.ROUND)
    assert piece_of("upper left", PIECES) == "upper left"


@pytest.mark.parametrize(
    "words",
    ["", "uppers", "upperR6", "upper top", "upper R", "foot R3 foundation", "band R2 row ends"],
)
def test_other_words_name_no_edge(words: str) -> None:
    assert read_edge(words, PIECES) is None


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("R8-R11", (8, 11)),
        ("R8–R11", (8, 11)),
        ("R8-11", (8, 11)),
        ("Rounds 8 to 11", (8, 11)),
        ("R8", (8, 8)),
        ("R11-R8", None),
        ("8-11", None),
    ],
)
def test_a_range_in_words(words: str, expected: tuple[int, int] | None) -> None:
    assert read_range(words) == expected


@pytest.mark.parametrize(
    ("words", "expected"), [("R4", 4), ("row 4", 4), ("rnd. 4", 4), ("4", None)]
)
def test_a_label_in_words(words: str, expected: int | None) -> None:
    assert read_label(words) == expected
