"""Cords and loops are measured from their rounds and held against the published limits."""

from __future__ import annotations

import pytest

from proving import proved
from roundproof.reference.hazards import limits

# 20 stitches and 20 rounds to 10 cm: a stitch is 5 mm wide, a round of single crochet 5 mm high.
HEAD = """\
title: Pebble
terms: US
yarns:
  slate: {gauge: 20 sts x 20 rounds = 10 cm}
"""


def told(rest: str) -> list[str]:
    _, findings = proved(HEAD + rest)
    return [f"{f.severity}: {f.message}" for f in findings if f.check == "cord-long"]


def piece(rounds: str, worked: str = "rows", more: str = "") -> str:
    lines = "".join(f"      {line}\n" for line in rounds.splitlines())
    return f"pieces:\n  lace:\n    worked: {worked}\n    rounds: |\n{lines}{more}"


def test_the_limits_are_those_published() -> None:
    # EN 71-1:2014+A1:2018: free cords 220 mm, loops 380 mm.
    assert {kind: limit.mm for kind, limit in limits().items()} == {"cord": 220, "loop": 380}


@pytest.mark.parametrize(
    ("rounds", "length"),
    [
        ("Row 1: ch 45, sl st in 2nd ch from hook and in each ch across (44)", None),
        ("Row 1: ch 46, sl st in 2nd ch from hook and in each ch across (45)", "22.5 cm"),
        ("R1: ch 80 (80)\nFasten off.", "40.0 cm"),
        ("Ch 80.\nFasten off.", "40.0 cm"),
        ("Row 1: ch 3, sc in 2nd ch from hook, sc (2)\nRows 2-44: ch 1, turn, 2 sc (2)", None),
        ("Row 1: ch 3, sc in 2nd ch from hook, sc (2)\nRows 2-50: ch 1, turn, 2 sc (2)", "25.0 cm"),
        ("Row 1: ch 5, sc in 2nd ch from hook, 3 sc (4)\nRows 2-90: ch 1, turn, 4 sc (4)", None),
    ],
)
def test_a_narrow_piece_is_a_cord_of_its_length(rounds: str, length: str | None) -> None:
    said = told(piece(rounds))
    assert [f"is a cord of {length}." in message for message in said] == [True] * bool(length)


@pytest.mark.parametrize(("last", "cords"), [(40, 0), (60, 1)])
def test_so_is_a_thin_tube(last: int, cords: int) -> None:
    rounds = f"R1: 4 sc in magic ring (4)\nR2-R{last}: sc around (4)"
    assert len(told(piece(rounds, "spiral"))) == cords
    thick = f"R1: 12 sc in magic ring (12)\nR2-R{last}: sc around (12)"
    assert told(piece(thick, "spiral")) == []


def test_it_says_the_rule_its_number_and_its_day() -> None:
    (said,) = told(piece("R1: ch 80 (80)"))
    assert said == (
        "warning: Lace is a cord of 40.0 cm. EN 71-1:2014+A1:2018, in force since 15 April 2020,"
        " lets a cord on toys for young children be 22.0 cm."
    )


def test_it_is_a_note_where_the_designer_has_named_the_danger() -> None:
    note = "safety: {note: The lace is long and can tangle round a neck.}\n"
    (said,) = told(piece("R1: ch 80 (80)", more=note))
    assert said.startswith("note:")


BODY = """\
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: (sc, inc) x 6 (18)
    R4: (2 sc, inc) x 6 (24)
    R5-R9: sc around (24)
"""
STRAP = "Row 1: ch 3, sc in 2nd ch from hook, sc (2)\nRows 2-{}: ch 1, turn, 2 sc (2)"
ENDS = """\
assembly:
  - join: {edge: lace, to: body, at: {between: [R5, R6], stitches: 2}, by: whipstitch}
  - join: {edge: lace foundation, to: body, at: {between: [R7, R8], stitches: 2}, by: whipstitch}
"""


def test_what_is_sewn_on_at_both_ends_is_a_loop() -> None:
    assert told(piece(STRAP.format(60), more=BODY + ENDS)) == []
    (said,) = told(piece(STRAP.format(90), more=BODY + ENDS))
    assert "Lace, with both its ends sewn on, is a loop of 45.0 cm round." in said
    assert "lets a loop on toys for young children be 38.0 cm round" in said


def test_what_is_sewn_down_along_its_length_is_none() -> None:
    sewn = "assembly:\n  - join: {edge: lace left row ends, to: body, by: whipstitch, ease: yes}\n"
    assert told(piece(STRAP.format(60), more=BODY + sewn)) == []


def test_what_grows_along_an_edge_is_none() -> None:
    fringe = """\
pieces:
  body:
    open_edge: yes
    rounds: |
      Row 1: ch 61, sc in 2nd ch from hook and in each ch across (60)
      Rows 2-9: ch 1, turn, 60 sc (60)
  edging:
    worked: rows
    starts: {in: body}
    rounds: |
      Row 1: sl st in each st across (60)
"""
    assert told(fringe) == []


def test_wire_keeps_a_piece_from_winding_round_anything() -> None:
    wired = "notions: [florist wire]\nassembly:\n  - insert: {item: florist wire, piece: lace}\n"
    assert told(piece(STRAP.format(60), more=wired)) == []


@pytest.mark.parametrize(("stitches", "loops"), [(70, 0), (90, 1)])
def test_a_free_ring_is_a_loop(stitches: int, loops: int) -> None:
    ring = f"R1: ch {stitches}, join with sl st to form a ring, sc in each ch around ({stitches})"
    said = told(piece(f"{ring}\nR2: sc around ({stitches})", "joined", "    open_edge: yes\n"))
    assert len(said) == loops
    assert all("is a loop of 45.0 cm round" in message for message in said)


def test_a_chain_that_hangs_from_a_round_is_measured_and_one_that_is_worked_on_is_not() -> None:
    free = "R1: 6 sc in magic ring (6)\nR2: sc, ch 60, sc in next 5 sts (6)"
    (said,) = told(piece(free, "spiral"))
    assert "The chain of 60 in R2 is a cord of 30.0 cm" in said
    assert told(piece(free.replace("60", "9"), "spiral")) == []


def test_chains_and_tails_told_in_words_are_measured_too() -> None:
    step = "assembly:\n  - close: {edge: lace, by: gather}\n    step: STEP\n"
    ball = "R1: 6 sc in magic ring (6)"
    steps = {
        "Hang it on a chain of 70.": 1,
        "Hang it on {ch 20}.": 0,
        "Leave the tail hanging, 30 cm.": 1,
        "Leave a 10 cm tail hanging.": 0,
        "Leave a 40 cm tail hanging outside for sewing.": 0,
    }
    for words, count in steps.items():
        text = piece(ball, "spiral", step.replace("STEP", f'"{words}"'))
        assert len(told(text)) == count, words


def test_a_cord_that_is_bought_is_held_against_the_limit_too() -> None:
    ball = piece("R1: 6 sc in magic ring (6)", "spiral")
    assert told(f"notions: [{{item: cotton cord, size: 20 cm}}]\n{ball}") == []
    (said,) = told(f"notions: [{{item: cotton cord, size: 40 cm}}]\n{ball}")
    assert "Cotton cord is a cord of 40.0 cm" in said
    use = "assembly:\n  - insert: {item: cotton cord, piece: lace, length: 50 cm}\n"
    (said,) = told(f"notions: [cotton cord]\n{ball}{use}")
    assert "50.0 cm" in said
