"""Places of their own: pieces joined on the hook, stitches taken up, mirrored pieces, paths."""

from __future__ import annotations

import pytest

from loading import loaded
from proving import ids_of
from roundproof.fabric.model import Fabric, WorkedRound
from roundproof.fabric.work import work
from roundproof.notation.tree import Act, Action

LEG = """\
  leg:
    make: 2
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: inc x 6 (12)
      R3: sc around (12)
"""


def fabric(pieces: str, head: str = "terms: US\n") -> Fabric:
    found, _ = work(loaded(f"{head}pieces:\n{pieces}"))
    return found


def of(made: Fabric, piece: str, number: int) -> WorkedRound:
    worked = made.pieces[piece].at(number)
    assert worked is not None
    return worked


def checks(pieces: str) -> list[str]:
    return ids_of(f"terms: US\nleft_right: wearer\npieces:\n{pieces}")


@pytest.mark.parametrize(
    ("round_", "available", "made"),
    [
        # A + B + 2c, the trade's arithmetic for joined legs: 12 + 3 + 12 + 3 = 30
        ("12 sc around first leg, ch 3, 12 sc around second leg, 3 sc along ch (30)", 24, 30),
        ("sc around first leg, ch 3, sc around second leg, sc in each ch (30)", 24, 30),
        ("12 sc around first leg, ch 3, 12 sc around second leg (27)", 24, 27),
        ("12 sc around first leg, 12 sc around second leg (24)", 24, 24),
        ("(sc, inc) x 6 around first leg, sc around second leg (30)", 24, 30),
        ("sc in next 9 sts of first leg, sc around second leg, 3 sc around first leg", 24, 24),
    ],
)
def test_legs_joined_on_the_hook(round_: str, available: int, made: int) -> None:
    worked = of(fabric(f"{LEG}  torso: |\n    R1: {round_}\n"), "torso", 1)
    assert (worked.available, worked.used, worked.made) == (available, available, made)
    assert worked.sound


def test_the_other_side_of_the_chain_may_be_worked_a_round_later() -> None:
    torso = (
        "  torso: |\n"
        "    R1: 12 sc around first leg, ch 3, 12 sc around second leg (27)\n"
        "    R2: 12 sc, 3 sc in ch, 12 sc, 3 sc in other side of ch (30)\n"
    )
    worked = of(fabric(LEG + torso), "torso", 2)
    assert (worked.available, worked.used, worked.made) == (27, 27, 30)
    assert worked.sound


def test_an_arm_pinched_flat_is_used_up_by_half_as_many_stitches() -> None:
    torso = "  torso: |\n    R1: 24 sc in magic ring (24)\n    R2: {} (24)\n"
    both = "6 sc through first leg and body, 6 sc, 6 sc through second leg and body, 6 sc"
    assert checks(LEG + torso.format(both)) == []
    claims = fabric(LEG + torso.format(both)).claims
    assert [(c.piece, c.copy, c.count) for c in claims] == [("leg", 1, 12), ("leg", 2, 12)]
    front = both.replace("through first", "through front of first")
    assert checks(LEG + torso.format(front)) == ["edge-open"]


def test_stitches_are_taken_up_once() -> None:
    split = (
        "  hand: |\n"
        "    R1: 6 sc in magic ring (6)\n"
        "    R2: inc x 6 (12)\n"
        "    R3: 8 sc, leave 4 sts unworked (8)\n"
        "    R4: sc around (8)\n"
        "    R5: 4 sc in unworked sts of R3 (4)\n"
    )
    assert checks(split) == []
    assert checks(split + "    R6: 4 sc in unworked sts of R3 (4)\n") == ["count-overrun"]
    assert checks(split.rpartition("    R5")[0]) == ["stitches-left"]
    part = split.replace("R5: 4 sc in unworked sts of R3 (4)", "R5: 3 sc in unworked sts of R3 (3)")
    assert checks(part) == ["stitches-left"]


def test_another_piece_may_take_them_up() -> None:
    hand = (
        "  hand: |\n    R1: 6 sc in magic ring (6)\n    R2: inc x 6 (12)\n"
        "    R3: 8 sc, leave 4 sts unworked (8)\n    R4: sc around (8)\n"
    )
    thumb = "  thumb:\n    starts: {in: hand R3 unworked sts}\n    rounds: |\n      R1: 4 sc (4)\n"
    assert checks(hand + thumb) == []
    assert of(fabric(hand + thumb), "thumb", 1).available == 4


def test_a_short_row_is_gone_back_to() -> None:
    flap = (
        "  flap: |\n"
        "    Row 1: ch 11, sc in 2nd ch from hook, 9 sc, turn (10)\n"
        "    Row 2: 6 sc, leave 4 sts unworked, turn (6)\n"
        "    Row 3: 6 sc, turn (6)\n"
        "    Row 4: 6 sc, 4 sc in unworked sts of R2, turn (10)\n"
        "    Row 5: 10 sc (10)\n"
    )
    assert checks(flap) == []


def test_copies_take_their_runs_of_the_loops() -> None:
    body = (
        "  body: |\n    R1: 6 sc in magic ring (6)\n    R2: inc x 6 (12)\n"
        "    R3: BLO: sc around (12)\n"
    )
    petal = (
        "  petal:\n    make: 3\n    open_edge: yes\n"
        "    starts: {{in: body R2 free front loops{}}}\n"
        "    rounds: |\n      R1: 4 sc (4)\n"
    )
    made = fabric(body + petal.format(""))
    assert [(c.first, c.count) for c in made.claims] == [(1, 4), (5, 4), (9, 4)]
    assert made.pieces["body"].free == ()
    assert checks(body + petal.format(", each: 5")) == ["loops-shared", "count-leftover"]
    assert "loops-shared" in checks(body + petal.format(", each: 4, first: [1, 3, 9]"))


def test_a_mirrored_piece_has_its_marks_on_the_other_side() -> None:
    claw = (
        "  left: |\n    R1: 6 sc in magic ring (6)\n    R2: 2 inc, 4 sc (8)\n"
        "    Mark thumb between sts 2 and 3.\n  right: {mirror: left}\n"
    )
    made = fabric(claw)
    (mark,) = [e for e in made.pieces["right"].entries if isinstance(e, Action)]
    assert mark.act is Act.MARK and mark.between == (6, 7)
    assert made.pieces["right"].of == "left"


def test_a_pair_written_out_is_held_against_its_mirror() -> None:
    claw = (
        "  left: |\n    R1: 6 sc in magic ring (6)\n    R2: 2 inc, 4 sc (8)\n"
        "    R3: sc around (8)\n"
        "  right:\n    mirror: left\n    rounds: |\n      R1: 6 sc in magic ring (6)\n      {}\n"
        "      R3: 8 sc (8)\n"
    )
    assert checks(claw.format("R2: 4 sc, inc, inc (8)")) == []
    assert checks(claw.format("R2: 3 sc, inc, inc, sc (8)")) == ["mirror-differs"]


def test_a_path_gives_one_stitch_a_round() -> None:
    shell = "  shell: |\n    R1: 6 sc in magic ring (6)\n    R2-R9: sc around (6)\n"
    crest = (
        "  crest:\n    worked: surface\n    path: {piece: shell, from: R8, to: R3}\n"
        "    open_edge: yes\n"
    )
    assert checks(shell + crest + "    rounds: |\n      R1: 6 sc along path (6)\n") == []
    assert checks(shell + crest + "    rounds: |\n      R1: 6 sc (6)\n") == []
    assert checks(shell + crest + "    rounds: |\n      R1: 7 sc along path (7)\n") == [
        "count-overrun"
    ]


def test_three_in_one_loop_closed_again_add_no_width() -> None:
    made = fabric(
        "  body: |\n    R1: 6 sc in magic ring (6)\n    R2: inc x 6 (12)\n"
        "    R3: 3 sc in each st around (36)\n    R4: sc3tog x 12 (12)\n    R5: sc around (12)\n"
    )
    assert [of(made, "body", n).absorbed for n in range(1, 6)] == [0, 0, 24, 0, 0]


def test_pieces_that_name_each_other_are_no_circle() -> None:
    made = fabric("  a: |\n    R1: sc around first b\n  b: |\n    R1: sc around first a\n")
    assert set(made.pieces) == {"a", "b"}
    assert set(fabric("  a: {mirror: b}\n  b: {mirror: a}\n").pieces) == {"a", "b"}
