"""Edges found in worked pieces."""

from __future__ import annotations

import pytest

from fabric.pieces import one_piece
from roundproof.fabric.edges import EdgeProblem, find_edge, in_rows
from roundproof.fabric.model import Edge, Fabric

UPPER = """\
R1: 6 sc in magic ring (6)
R2: inc x 6 (12)
R3: sc around (12)
R4: sc in BLO around (12)
R5-R6: sc around (12)
"""
BAND = "Row 1: ch 11, sc in 2nd ch from hook, sc 9 (10)\nRows 2-5: ch 1, turn, sc in each st (10)"
OVAL = "R1: ch 6, sc in 2nd ch from hook, sc 3, 3 sc in last ch, other side sc 3, 2 sc in last ch"
CLAW = "R1: 12 sc in magic ring (12)\nR2: 6 sc, leave 6 sts unworked (6)"


@pytest.fixture(scope="module")
def fabric() -> Fabric:
    pieces = {"upper": UPPER, "band": BAND, "oval": OVAL, "claw": CLAW, "bare": ""}
    return one_piece.fabric({**pieces, "lost": "R1: 6 sc in magic ring (6)\nR2: wibble"})


def edge(fabric: Fabric, words: str) -> Edge:
    found = find_edge(fabric, words)
    assert isinstance(found, Edge)
    return found


@pytest.mark.parametrize(
    ("words", "kind", "count", "number"),
    [
        ("upper", "round", 12, 6),
        ("upper R1", "round", 6, 1),
        ("upper R5", "round", 12, 5),
        ("upper R3 free front loops", "front loops", 12, 3),
        ("upper free loops", "front loops", 12, 3),
        ("claw R2 unworked sts", "unworked", 6, 2),
        ("claw unworked", "unworked", 6, 2),
        ("band row ends", "row ends", 5, None),
        ("band left row ends", "row ends", 5, None),
        ("band far side", "far side", 10, None),
        ("band foundation", "foundation", 10, None),
        ("lost R1", "round", 6, 1),
        ("lost", "round", None, 2),
    ],
)
def test_an_edge_and_its_count(
    fabric: Fabric, words: str, kind: str, count: int | None, number: int | None
) -> None:
    found = edge(fabric, words)
    assert (found.kind, found.count, found.round, found.text) == (kind, count, number, words)


def test_row_ends_are_counted_by_rows(fabric: Fabric) -> None:
    assert edge(fabric, "band row ends").per_row
    assert not edge(fabric, "band").per_row


@pytest.mark.parametrize(
    ("words", "message", "mend"),
    [
        ("uper", "There is no piece `uper`.", "upper?"),
        ("uper R3", "There is no piece `uper`.", "upper?"),
        ("wing", "There is no piece `wing`.", "The pieces are: upper, band"),
        ("upper R9", "There is no R9 in upper.", "go up to R6."),
        ("band R9", "There is no R9 in band.", "The rows of band go up to R5."),
        ("upper top", "`top` is not an edge of upper.", "upper R6 free front loops"),
        ("upper R5 free front loops", "R5 of upper leaves no front loops free.", "R3 (12 front"),
        ("upper R3 free back loops", "R3 of upper leaves no back loops free.", "R3 (12 front"),
        ("claw R2 free front loops", "R2 of claw leaves no front loops free.", "in BLO"),
        ("upper R3 unworked sts", "No stitches are left unworked in R3 of upper.", "leave 6"),
        ("claw R1 unworked sts", "No stitches are left unworked in R1 of claw.", "R2 (6)"),
        ("upper row ends", "upper is worked in rounds", "worked: rows"),
        ("upper far side", "upper does not start from a chain", ""),
        ("oval far side", "Both sides of the foundation chain of oval are worked", ""),
        ("bare", "bare has no rounds yet", ""),
    ],
)
def test_what_is_not_there_and_what_is(fabric: Fabric, words: str, message: str, mend: str) -> None:
    found = find_edge(fabric, words)
    assert isinstance(found, EdgeProblem)
    assert message in found.message and mend in found.mend


def test_a_chain_neither_joined_nor_worked_round_is_the_start_of_rows(fabric: Fabric) -> None:
    assert in_rows(fabric.pieces["band"])
    assert not in_rows(fabric.pieces["oval"])
    ring = one_piece("R1: ch 12, join with sl st, sc around (12)")
    small = one_piece("R1: ch 2, 6 sc in 2nd ch from hook (6)")
    assert not in_rows(ring) and not in_rows(small)


def test_the_yarn_of_an_edge_is_that_of_most_of_its_stitches(fabric: Fabric) -> None:
    two = one_piece.fabric({"a": "R1: 12 sc in magic ring\nR2: with slate 3 sc, with chalk 9 sc"})
    assert edge(two, "a").yarn == "chalk"
