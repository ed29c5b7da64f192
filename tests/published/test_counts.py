"""Counts of rounds against published ones."""

from __future__ import annotations

import pytest

from fabric.pieces import one_piece, worked


def made(written: str) -> list[int | None]:
    return [count for w in worked(written).rounds for rounds, count in w.run for _ in range(rounds)]


def test_six_increases_a_round_make_the_usual_disc() -> None:
    # six increases a round lie flat in single crochet: common practice, no source
    assert made(
        "R1: 6 sc in magic ring\nR2: inc x 6\nR3: (sc, inc) x 6\nR4: (2 sc, inc) x 6\n"
        "R5: (3 sc, inc) x 6\nR6: (4 sc, inc) x 6"
    ) == [6, 12, 18, 24, 30, 36]


def test_published_counts_of_an_oval() -> None:
    # An oval on a chain of 7, rounds 1 to 4: 14, 20, 26, 32 (a published oval tutorial,
    # offthehookcrochetdesign.com: "chain minus 3" stitches a side, six more a round)
    assert made(
        "R1: Ch 7. Sc in 2nd ch from hook, sc 4, 3 sc in last ch, on the other side sc 4,"
        " 2 sc in last ch\n"
        "R2: inc, sc 4, inc x 3, sc 4, inc x 2\n"
        "R3: sc, inc, sc 4, (sc, inc) x 3, sc 4, (sc, inc) x 2\n"
        "R4: 2 sc, inc, sc 4, (2 sc, inc) x 3, sc 4, (2 sc, inc) x 2"
    ) == [14, 20, 26, 32]


def test_published_counts_of_a_sphere_of_twelve_rounds() -> None:
    # 6 12 17 21 24 25 25 24 21 17 12 (crochettycrochet.blogspot.com, May 2021, on the ideal sphere)
    assert made(
        "R1: 6 sc in magic ring\nR2: inc x 6\nR3: sc, inc, (sc, inc) x 4, sc 2\n"
        "R4: (3 sc, inc) x 4, sc\nR5: (6 sc, inc) x 3\nR6: 23 sc, inc\nR7: sc around\n"
        "R8: 23 sc, dec\nR9: (6 sc, dec) x 3\nR10: (3 sc, dec) x 4, sc\n"
        "R11: sc, dec, (sc, dec) x 4, 2 sc"
    ) == [6, 12, 17, 21, 24, 25, 25, 24, 21, 17, 12]


@pytest.mark.parametrize(
    ("each", "expected"), [("inc x {}", [6, 12, 24, 48, 96, 192, 384, 768, 1536, 3072])]
)
def test_doubling_every_round(each: str, expected: list[int]) -> None:
    # 6 doubled each round: 6, 12, 24 ... 1536, 3072 (wooltribulations.blogspot.com, 23 Dec 2016)
    rounds = [f"R{n + 2}: {each.format(count)}" for n, count in enumerate(expected[:-1])]
    assert made("\n".join(["R1: 6 sc in magic ring", *rounds])) == expected


@pytest.mark.parametrize("usable", [4, 6, 10, 25])
def test_an_oval_with_three_in_each_end_begins_with_two_more_than_twice_its_chain(
    usable: int,
) -> None:
    # m usable chains, 3 stitches in each end chain: 2m + 2 (common practice, no source)
    sides = usable - 2
    assert made(
        f"R1: ch {usable + 1}, 3 sc in 2nd ch from hook, {sides} sc, 3 sc in last ch,"
        f" on the other side: {sides} sc"
    ) == [2 * usable + 2]


def test_legs_joined_with_chains_worked_on_both_sides() -> None:
    # 18 + 3 + 18 + 3 = 42 (ribbelmonster.us on joining legs); A + B + 2c: common practice
    pieces = {
        "leg": "R1: 6 sc in magic ring\nR2: inc x 6\nR3: (sc, inc) x 6\nR4: sc around",
        "torso": "R1: 18 sc around first leg, ch 3, 18 sc around second leg, 3 sc along ch (42)\n"
        "R2: sc around (42)",
    }
    torso = one_piece.fabric(pieces, make={"leg": 2}).pieces["torso"]
    assert [w.made for w in torso.rounds] == [42, 42]
    assert all(w.sound for w in torso.rounds)


def test_legs_joined_without_a_chain_are_the_sum_of_both() -> None:
    # no chain between them: A + B (chaicoffeecrochet.com on joining legs)
    leg = "R1: 6 sc in magic ring\nR2: inc x 6\nR3: sc around"
    torso = "R1: 12 sc around first leg, 12 sc around second leg"
    made_of = one_piece.fabric({"leg": leg, "torso": torso}, make={"leg": 2})
    assert [w.made for w in made_of.pieces["torso"].rounds] == [24]


def test_three_in_every_stitch_triples_the_round() -> None:
    # a frill of three in every stitch: 60 to 180 (craftorator.com, lesson 7190)
    assert made("R1: 60 sc in magic ring\nR2: 3 sc in each st around") == [60, 180]


def test_cones_of_three_and_of_one_in_two_rounds() -> None:
    # start 3, 3 more a round, 8 rounds: 24; alternating 1 and 0: 7 (revedreams.com, "On cones,
    # shaping, and one-loop stitching")
    three = ["R1: 3 sc in magic ring"]
    three += [f"R{n}: ({n - 2} sc, inc) x 3" if n > 2 else "R2: inc x 3" for n in range(2, 9)]
    assert made("\n".join(three))[-1] == 24
    slow = ["R1: 3 sc in magic ring"]
    slow += [f"R{n}: sc around" if n % 2 else f"R{n}: sc to last 1 st, inc" for n in range(2, 9)]
    assert made("\n".join(slow))[-1] == 7


def test_growth_by_a_fifth_each_row() -> None:
    # 20 stitches, an increase after every 5, counts rounded down each row: the outer rows hold
    # more than all the inner ones together (saucecoat note on the hyperbolic plane, 29 Dec 2022)
    assert made("R1: 20 sc in magic ring\nR2: *4 sc, inc; rep from * around\nR3: (5 sc, inc) x 4")[
        :2
    ] == [20, 24]
