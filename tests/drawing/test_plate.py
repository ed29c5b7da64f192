from math import hypot

import pytest

from rendering import proof_of
from roundproof.drawing.places import seats, things
from roundproof.drawing.plate import Plate, draw_plate
from roundproof.drawing.shapes import Circle, Drawing, Group
from roundproof.drawing.svg import write_svg
from roundproof.drawing.things import eyes, hook
from roundproof.drawing.views import at_turn
from roundproof.proof import Proof

BEAST = """
terms: US
yarns:
  slate:
    colour: {name: slate, shade: "#6d7680"}
    weight: 3
    gauge: 20 sts x 20 rounds = 10 cm
notions:
  - {item: safety eyes, size: 6 mm, count: 2, hazard: small part}
pieces:
  body:
    yarn: slate
    rounds: |
      R1: 8 sc in magic ring (8)
      R2: inc x 8 (16)
      R3: (sc, inc) x 8 (24)
      R4: (2 sc, inc) x 8 (32)
      Mark front between sts 8 and 9.
      R5: sc around (32)
  leg:
    make: 4
    yarn: slate
    rounds: |
      R1: 4 sc in magic ring (4)
      R2-R9: sc around (4)
assembly:
  - place: {item: safety eyes, piece: body, between: [R3, R4], around: {mark: front, apart: 4}}
  - join:
      {edge: leg, to: body R5, at: {between: [R4, R5], stitches: 2}, around: {evenly: 4},
       by: whipstitch}
"""


def drawn(proof: Proof) -> Plate:
    plate = draw_plate(proof.pattern, proof.fabric, proof.measures, "plate", "A beast")
    assert plate is not None
    return plate


def groups(drawing: Drawing) -> list[Group]:
    return [shape for shape in drawing.shapes if isinstance(shape, Group)]


def test_limbs_point_out_from_their_places_round_a_flat_body() -> None:
    plate = drawn(proof_of(BEAST))
    assert plate.above
    assert plate.main == "body"
    legs = groups(plate.drawing)
    # They begin at the start of the round and are two stitches wide: a 32nd of a turn, 11.25°.
    assert sorted(-leg.turn % 90 for leg in legs) == pytest.approx([11.25] * 4)
    far = {round(hypot(leg.x, leg.y), 3) for leg in legs}
    assert len(far) == 1  # all on the edge of the body


def test_eyes_are_drawn_at_their_size_on_either_side_of_the_front() -> None:
    plate = drawn(proof_of(BEAST))
    left, right = sorted(
        (s for s in plate.drawing.shapes if isinstance(s, Circle)), key=lambda eye: eye.cx
    )
    assert left.r == right.r == 3
    assert left.cx == pytest.approx(-right.cx)
    assert left.cy == pytest.approx(right.cy) and left.cy < 0  # the front is at the top


def test_seats_are_shares_of_the_round_from_the_front() -> None:
    proof = proof_of(BEAST)
    (leg,) = seats(proof.pattern, proof.fabric)
    # Evenly four, the first on stitches 1 and 2, and the front is 8 stitches on of 32.
    assert leg.turns == (25 / 32, 1 / 32, 9 / 32, 17 / 32)
    (eye,) = things(proof.pattern, proof.fabric)
    assert eye.turns == (1 - 2 / 24, 2 / 24)  # in stitches of R3


def test_gaps_are_counted_from_the_middle_of_the_first() -> None:
    spaced = BEAST.replace("{evenly: 4}", "{mark: front, free: [8, 6, 4, 6]}")
    proof = proof_of(spaced)
    (leg,) = seats(proof.pattern, proof.fabric)
    assert leg.turns == (5 / 32, 13 / 32, 19 / 32, 27 / 32)


def test_a_tall_body_is_drawn_from_the_side_and_the_rest_below_it() -> None:
    plate = drawn(proof_of(BEAST.replace("R5: sc around", "R5-R30: sc around")))
    assert not plate.above
    tops = {leg.y for leg in groups(plate.drawing)}
    assert len(groups(plate.drawing)) == 4
    assert min(tops) > 100  # below 26 rounds of 5 mm


def test_from_the_side_later_stitches_are_to_the_right_of_the_front() -> None:
    # Worked right-handed, right side out, with the start at the top.
    tall = BEAST.replace("R5: sc around", "R5-R30: sc around")
    plate = drawn(proof_of(tall.replace("{mark: front, apart: 4}", "{st: 12}")))
    (eye,) = (shape for shape in plate.drawing.shapes if isinstance(shape, Circle))
    assert eye.cx > 0  # the front is after stitch 6 of 24 there


def test_without_a_gauge_the_pieces_are_drawn_from_their_counts() -> None:
    plate = drawn(
        proof_of(
            BEAST.replace("    gauge: 20 sts x 20 rounds = 10 cm\n", "").replace(
                "    weight: 3\n", ""
            )
        )
    )
    assert not plate.measured
    assert not any(isinstance(s, Circle) for s in plate.drawing.shapes)  # no eyes without mm


def test_hostile_numbers_give_a_small_drawing() -> None:
    vast = (
        BEAST.replace("R5: sc around (32)", "R5-R5004: sc around (32)")
        .replace("make: 4", "make: 100000")
        .replace("{evenly: 4}", "{evenly: 100000}")
    )
    plate = drawn(proof_of(vast))
    assert plate.fewer == ("leg",)
    assert len(write_svg(plate.drawing)) < 200_000


def test_nothing_to_draw_gives_nothing() -> None:
    proof = proof_of("terms: US\npieces:\n  a: |\n    Note: nothing yet.\n")
    assert draw_plate(proof.pattern, proof.fabric, proof.measures, "p", "t") is None


@pytest.mark.parametrize(
    ("turn", "x", "y", "out"),
    [
        (0, 0, -10, (0, -1)),
        (0.25, -15, 0, (-1, 0)),
        (0.5, 0, 10, (0, 1)),
        (0.75, 15, 0, (1, 0)),
    ],
)
def test_the_edge_of_a_stadium_starts_at_the_top_and_goes_left(
    turn: float, x: float, y: float, out: tuple[float, float]
) -> None:
    at = at_turn(turn, 10, 10)
    assert at == pytest.approx((x, y, *out), abs=1e-9)


def test_hooks_and_eyes_are_to_one_scale() -> None:
    thin, thick = hook(2), hook(6)
    assert thin and thick and thin.box and thick.box
    assert thin.box.width == thick.box.width
    assert hook(0.01) is None and hook(4000) is None
    pair = eyes(6, 2)
    assert pair is not None and len(pair.shapes) == 2
    crowd = eyes(6, 1000)
    assert crowd is not None and len(crowd.shapes) < 10
