import re
from itertools import pairwise
from pathlib import Path

import pytest

from drawing.sheets import every_piece, texts, walk
from rendering import proof_of
from roundproof.drawing.colour import GROUNDS, TEXT, contrast, pale
from roundproof.drawing.colours.rows import MOST_CELLS, Row, colour_rows
from roundproof.drawing.colours.sheet import CELL, colour_map
from roundproof.drawing.looks import looks
from roundproof.drawing.shapes import Group, Letters, Rect
from roundproof.drawing.sheet import Kind, Sheet
from roundproof.drawing.svg import write_file, write_svg
from roundproof.drawing.yarns import Marks, shades_of, yarn_marks
from roundproof.fabric.laid import laid
from roundproof.fabric.model import WorkedPiece

HERE = Path(__file__).parent
HEAD = """
terms: US
yarns:
  slate:
    colour: {name: slate, shade: "#6d7680"}
    weight: 3
    gauge: 20 sts x 20 rounds = 10 cm
  chalk: {like: slate, colour: {name: chalk, shade: "#eceae4"}}
pieces:
  cup:
    yarn: slate
    rounds: |
"""
SPOTS = """
      R1: 6 sc in magic ring (6)
      R2: inc x 6 (12)
      R3-R4: (2 sc, with chalk 2 sc, with slate 2 sc) x 2 (12)
      R5: with slate 5 sc, with chalk 7 sc (12)
      R6-R20: with slate sc around (12)
"""


def piece_of(rounds: str) -> tuple[WorkedPiece, Marks]:
    proof = proof_of(HEAD + rounds.lstrip("\n"))
    return proof.fabric.pieces["cup"], yarn_marks(proof.pattern)


def map_of(rounds: str, *, mirrored: bool = False) -> Sheet:
    found = colour_map(*piece_of(rounds), mirrored=mirrored)
    assert found is not None
    return found


def rows_of(rounds: str) -> tuple[Row, ...]:
    found = colour_rows(*piece_of(rounds))
    assert found is not None
    return found


def letters(sheet: Sheet) -> list[str]:
    """The letters of each row from left to right, the first row first."""
    found: dict[float, list[tuple[float, str]]] = {}
    for shape in walk(sheet.drawing.shapes):
        if isinstance(shape, Letters):
            found.setdefault(shape.y, []).extend(zip(shape.xs, shape.words, strict=True))
    rows = [sorted(found[y]) for y in sorted(found, reverse=True)]
    assert all(b[0] - a[0] == CELL for row in rows for a, b in pairwise(row))
    return ["".join(letter for _, letter in row) for row in rows]


# ---- held against the fabric ----
def test_a_row_has_the_stitches_and_yarns_of_its_round() -> None:
    """All pieces that there are, against the stitches as they lie."""
    seen = 0
    for slug, proof, piece in every_piece():
        marks = yarn_marks(proof.pattern)
        rows = colour_rows(piece, marks)
        if rows is None:
            for worked in piece.rounds:
                assert len({stitch.yarn for stitch in laid(worked) if stitch.number}) <= 1, slug
            continue
        seen += 1
        by_number = {n: row for row in rows for n in range(row.first, row.last + 1)}
        assert len(by_number) == sum(worked.rounds for worked in piece.rounds)
        for worked in piece.rounds:
            row = by_number[worked.round.label.first]
            assert len(row.cells) == worked.run[0][1], (slug, row.label)
            told = [(marks[s.yarn or ""], s.made) for s in worked.stretches]
            if len(worked.run) == 1:
                assert list(row.stretches) == told, (slug, row.label)
    assert seen >= 10


def test_a_sheet_has_a_cell_a_stitch() -> None:
    for _, proof, piece in every_piece():
        marks = yarn_marks(proof.pattern)
        sheet, rows = colour_map(piece, marks), colour_rows(piece, marks)
        assert (sheet is None) == (rows is None)
        if sheet is None or rows is None:
            continue
        assert sheet.kind is Kind.COLOURS and sheet.piece == piece.piece.key
        assert [len(row) for row in letters(sheet)] == [len(row.cells) for row in rows]
        rects = [s for s in walk(sheet.drawing.shapes) if isinstance(s, Rect)]
        cells = [r for r in rects if "band" in r.css and r.height == CELL]
        key = len({mark for row in rows for mark in row.cells})
        wide = sum(float(str(r.width)) for r in cells) / CELL - key
        assert wide == sum(len(row.cells) for row in rows)


def test_the_yarn_in_hand_goes_on_into_the_next_round_of_a_range() -> None:
    rows = rows_of("      R1: 6 sc in magic ring (6)\n      R2-R4: 3 sc, with chalk 3 sc (6)\n")
    assert ["".join(m.letter for m in row.cells) for row in rows] == ["AAAAAA", "AAABBB", "BBBBBB"]
    assert [row.label for row in rows] == ["R1", "R2", "R3-R4"]


def test_a_range_whose_counts_change_has_a_row_for_each() -> None:
    rounds = (
        "      R1: 8 sc in magic ring (8)\n      R2-R3: (with slate sc, with chalk inc) around\n"
    )
    rows = rows_of(rounds + "      R4: with slate sc around\n")
    assert [len(row.cells) for row in rows] == [8, 12, 18, 18]


# ---- what is read ----
def test_rounds_are_read_from_right_to_left_and_equal_ones_are_one_row() -> None:
    sheet = map_of(SPOTS)
    assert letters(sheet) == [
        "AAAAAA",
        "AAAAAAAAAAAA",
        "AABBAAAABBAA",
        "BBBBBBBAAAAA",
        "AAAAAAAAAAAA",
    ]
    labels = [words for words in texts(sheet) if words.startswith("R")]
    assert labels == ["R1", "R2", "R3-R4", "R5", "R6-R20"]


def test_for_the_left_hand_cells_are_mirrored_and_letters_stay() -> None:
    right, left = map_of(SPOTS), map_of(SPOTS, mirrored=True)
    assert letters(left) == [row[::-1] for row in letters(right)]
    assert letters(left)[3] == "AAAAABBBBBBB"
    assert "from the left" in left.words[1] and "from the right" in right.words[1]
    assert "scale" not in write_svg(left.drawing)


def test_rows_go_to_and_fro() -> None:
    rows = "      Row 1: ch 5, sc in 2nd ch from hook, sc, with chalk 2 sc (4)\n"
    rows += "      Row 2: ch 1, turn, with slate sc, with chalk 3 sc (4)\n"
    rows += "      Row 3: ch 1, turn, with slate sc, with chalk 3 sc (4)\n"
    sheet = map_of(rows)
    assert letters(sheet) == ["BBAA", "ABBB", "BBBA"]
    sides = {
        text.words: float(str(text.x)) > 0
        for shape in sheet.drawing.shapes
        if isinstance(shape, Group) and shape.css == "strong"
        for text in shape.shapes
    }
    assert sides == {"R1": True, "R2": False, "R3": True}
    assert "each row from the end that its number stands at" in sheet.words[1]


ROWS = """
      Row 1: ch 5, sc in 2nd ch from hook, sc, with chalk 2 sc (4)
      Row 2: ch 1, sc across (4)
"""


@pytest.mark.parametrize(
    ("rounds", "back"),
    [
        (ROWS + "      Row 3: ch 1, turn, sc across (4)\n", "F B F"),  # turned once, said or not
        (ROWS + "      R3: sc around (4)\n      R4: sc around (4)\n", "F B B B"),  # goes on so
        ("      R1: 3 sc, with chalk 3 sc in magic ring, sl st in first st, ch 1, turn (6)\n"
         "      R2: sc around (6)\n", "F B"),
        ("      R1: 3 sc, with chalk 3 sc in magic ring (6)\n      Turn.\n"
         "      R2-R4: sc around (6)\n", "F B B B"),
        ("      R1: 3 sc, with chalk 3 sc in magic ring (6)\n"
         "      R2-R4: ch 1, turn, sc around (6)\n", "F B F B"),
    ],
)  # fmt: skip
def test_the_direction_follows_the_turns(rounds: str, back: str) -> None:
    rows = rows_of(rounds.lstrip("\n"))
    each = ["FB"[row.back] for row in rows for _ in range(row.first, row.last + 1)]
    assert each == back.split()


def test_the_words_are_exact() -> None:
    assert list(map_of(SPOTS).words) == (HERE / "colours.txt").read_text().splitlines()


def test_every_round_can_be_worked_from_the_words() -> None:
    """Groups taken apart again give the stitches of the round."""
    for _, proof, piece in every_piece():
        marks = yarn_marks(proof.pattern)
        rows, sheet = colour_rows(piece, marks), colour_map(piece, marks)
        for row, line in zip(rows or (), sheet.words[3:] if sheet else (), strict=True):
            head, told = line.rstrip(".").split(": ")
            assert head == f"{row.label} ({len(row.cells)})"
            whole = re.sub(r"\((.*?)\) x (\d+)", lambda m: ", ".join([m[1]] * int(m[2])), told)
            assert "".join(
                letter * int(count) for count, letter in re.findall(r"(\d+) (\S)", whole)
            ) == "".join(mark.letter for mark in row.cells)


def test_letters_of_all_but_the_main_yarn_are_heavy() -> None:
    heavy = [
        s for s in map_of(SPOTS).drawing.shapes if isinstance(s, Letters) and s.css == "strong"
    ]
    assert {letter for shape in heavy for letter in shape.words} == {"B"}
    assert sum(len(shape.words) for shape in heavy) == 4 + 7


# ---- bounds ----
@pytest.mark.parametrize(
    "rounds",
    [
        "      R1: 6 sc in magic ring (6)\n      R2: with chalk inc x 6 (12)\n",
        "      R1: 6 sc in magic ring (6)\n      R2: inc x 6 (12)\n",
    ],
)
def test_no_map_where_no_round_has_two_yarns(rounds: str) -> None:
    assert colour_map(*piece_of(rounds)) is None


def test_no_map_of_too_many_stitches_and_no_time_lost_on_them() -> None:
    huge = f"      R1: ch {MOST_CELLS}, join\n      R2: (with slate sc, with chalk sc) around\n"
    assert colour_map(*piece_of(huge)) is None
    many = (
        "      R1: 6 sc in magic ring (6)\n      R2: (sc, with chalk sc, with slate sc) x 2 (6)\n"
    )
    long = map_of(many + "      R3-R9000: sc around (6)\n")
    assert texts(long).count("(6)") == 3
    assert len(write_svg(long.drawing)) < 9_000


# ---- what is written ----
def test_a_small_map_as_it_is_written() -> None:
    sheet = map_of("      R1: 3 sc, with chalk 3 sc in magic ring (6)\n")
    assert write_svg(sheet.drawing) == (HERE / "colours.svg").read_text().rstrip()


def test_two_runs_give_the_same_bytes() -> None:
    proof = proof_of(HEAD + SPOTS.lstrip("\n"))
    shades = looks(shades_of(proof.pattern))
    assert len({write_file(map_of(SPOTS).drawing, shades) for _ in range(2)}) == 1


def test_an_address_can_name_a_round() -> None:
    sheet = map_of(SPOTS)
    named = [s.id for s in sheet.drawing.shapes if isinstance(s, Group) and s.id]
    assert named == [f"r{n}" for n in range(1, 21)]


def test_hostile_names_stay_words() -> None:
    evil = "</text><script>alert(1)</script>"
    proof = proof_of(HEAD.replace("name: chalk", f"name: '{evil}'") + SPOTS.lstrip("\n"))
    sheet = colour_map(proof.fabric.pieces["cup"], yarn_marks(proof.pattern))
    assert sheet is not None
    for text in (write_svg(sheet.drawing), write_file(sheet.drawing, looks({}))):
        assert "<script" not in text and "&lt;script&gt;" in text


def test_letters_can_be_read_on_every_tone() -> None:
    """4.5 is what WCAG 2.x (W3C) sets for text; white and dark are the grounds of a file."""
    seen = 0
    for _, proof, piece in every_piece():
        if colour_rows(piece, yarn_marks(proof.pattern)) is None:
            continue
        for shade in shades_of(proof.pattern).values():
            for ground in GROUNDS:
                assert contrast(pale(shade, ground), ground.ink) >= TEXT
                seen += 1
    assert seen > 50
