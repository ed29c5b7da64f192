"""Places on a piece, and whether what is put there comes out even."""

from __future__ import annotations

import pytest

from proving import proved
from roundproof.fabric.places import at_site, copies
from roundproof.fabric.placing import misplaced, placings, wrong_marks
from roundproof.pattern.model import Around, At, Join

PATTERN = """\
title: Example
terms: US
pieces:
  body:
    marks: {{front: R4 between 9 and {mark}}}
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: inc x 6 (12)
      R3: (sc, inc) x 6 (18)
      R4-R9: (2 sc) x 9 (18)
      R10: (sc, dec) x 6 (12)
  leg:
    make: 4
    rounds: |
      R1: 6 sc in magic ring (6)
assembly:
  - {step}
"""


def fault(step: str, mark: int = 10) -> str:
    """What is wrong with the only placing of a step, or nothing."""
    proof, _ = proved(PATTERN.format(step=step, mark=mark))
    assert proof is not None
    found = [misplaced(placing) for placing in placings(proof.pattern, proof.fabric)]
    return " ".join(f"{f.message} {f.mend}" for f in found if f)


def join(around: str, at: str = "{between: [R7, R8], stitches: 2}", to: str = "body") -> str:
    where = f"at: {at}, " if at else ""
    return f"join: {{edge: leg, to: {to}, {where}around: {{{around}}}}}"


# 18 stitches; four pieces of 2 leave 10
@pytest.mark.parametrize(
    ("step", "says"),
    [
        (join("mark: front, free: [3, 2, 3, 2]"), ""),
        (join("mark: front, free: [3, 2, 3, 3]"), "come to 19 stitches, and R7-R8 of body have 18"),
        (join("mark: front, free: [3, 2, 3, 3]"), "The gaps must come to 10."),
        (join("st: 1, free: [0, 0, 0, 0, 0, 0, 0, 0, 0, 0]"), "10 pieces of 2 do not go round"),
        (join("mark: front, free: [5, 4]", at="", to="body R7"), "what is left cannot be shared"),
        (join("mark: front, free: [5, 5]", at="", to="body R7"), ""),
        (join("mark: front, apart: 14"), ""),
        (join("mark: front, apart: 15"), "15 stitches apart and the two cover 4"),
        (join("evenly: 9, from: st 1"), ""),
        (join("evenly: 10, from: st 1"), "10 spread evenly take 20 stitches"),
        (join("st: 18"), ""),
        (join("st: 19"), "There is no stitch 19"),
        (join("st: 1", at="{between: [R7, R8], stitches: 19}"), "19 stitches wide"),
        ("place: {item: eyes, piece: body, between: [R4, R5], around: {st: 1, apart: 18}}", ""),
        (
            "place: {item: eyes, piece: body, between: [R4, R5], around: {st: 1, apart: 19}}",
            "19 stitches apart, and R4-R5 of body have 18",
        ),
        # where the rounds differ it is enough to come out in one of them
        (join("mark: front, free: [2, 2]", at="{between: [R9, R10], stitches: 4}"), ""),
    ],
)
def test_what_is_put_round_a_piece_comes_out_even(step: str, says: str) -> None:
    assert says in fault(step) if says else fault(step) == ""


def test_a_mark_beyond_its_round_is_named() -> None:
    good, _ = proved(PATTERN.format(step=join("st: 1"), mark=10))
    bad, _ = proved(PATTERN.format(step=join("st: 1"), mark=19))
    assert good is not None and bad is not None
    assert list(wrong_marks(good.fabric.pieces["body"])) == []
    (found,) = wrong_marks(bad.fabric.pieces["body"])
    assert found.message == "The mark front is at stitch 19, and R4 of body has 18."
    assert found.span.text == "R4 between 9 and 19"


def at_of(step: str) -> tuple[At | None, Around | None]:
    proof, _ = proved(PATTERN.format(step=step, mark=10))
    assert proof is not None
    verb = proof.pattern.assembly[0].verb
    assert isinstance(verb, Join)
    return verb.at, verb.around


@pytest.mark.parametrize(
    ("at", "kind", "count"),
    [
        # 4 rounds and 5 stitches take 18: each corner counted on both its sides
        ("{footprint: R8-R11, stitches: 5}", "footprint", 18),
        ("{between: [R17, R18], stitches: 5}", "between", 5),
        ("{between: [R14, R18], stitches: 5}", "footprint", 18),
        ("{up: R3-R14}", "up", 12),
    ],
)
def test_where_on_a_piece(at: str, kind: str, count: int) -> None:
    said, _ = at_of(join("st: 1", at=at))
    assert said is not None
    site = at_site("body", said)
    assert site is not None and (site.kind, site.count) == (kind, count)


@pytest.mark.parametrize(
    ("around", "count"),
    [
        ("mark: front", 1),
        ("mark: front, apart: 8", 2),
        ("mark: front, free: [8, 10, 8, 10]", 4),
        ("evenly: 12, from: st 1", 12),
        ("st: 10", 1),
    ],
)
def test_how_many_go_round(around: str, count: int) -> None:
    _, said = at_of(join(around))
    assert copies(said) == count
