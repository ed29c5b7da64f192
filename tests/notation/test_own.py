"""Words of a pattern's own: declared letters and special stitches."""

from __future__ import annotations

import pytest

from proving import ids_of, proved
from roundproof.notation.writer import written
from roundproof.pattern.model import Terms

LETTERS = """\
terms: US
letters: {X: sc, V: inc, A: dec, W: 3 sc in next st, T: hdc, "CH": ch}
pieces:
  body: |
    R1: 6X in MR (6)
    R2: 6V (12)
    R3: (X, V)*6 (18)
    R4: (1X, 1V, 1X) X 6 (24)
    R5: 24X
    R6: (2X, A)x6 (18)
    R7: W, 17 T (20)
"""

STITCHES = """\
terms: US
stitches:
  frond: {uses: 1, makes: 1, height: 4, how: "ch 4, sl st back down the ch"}
  wave crest: {uses: 2, makes: 3, height: 2, how: "two stitches taken up, three left"}
  3-dc bobble: {height: 2, how: "three dc closed as one"}
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: (frond, 2 sc) x 4 (12)
    R4: wave crest x 6 (18)
    R5: (3-dc bobble, 2 sc) x 6 (18)
    R6: 18 fronds (18)
"""


def rounds_of(text: str) -> list[tuple[str, int | None]]:
    proof, findings = proved(text)
    assert proof is not None
    assert {f.check for f in findings} <= {"value-missing"}, [f.message for f in findings]
    (piece,) = proof.fabric.pieces.values()
    assert all(r.instruction is not None for r in piece.rounds)
    return [(written(r.instruction, Terms.US), r.made) for r in piece.rounds if r.instruction]


def test_letters_stand_for_stitches_and_an_x_between_bracket_and_number_for_times() -> None:
    assert rounds_of(LETTERS) == [
        ("6 sc in magic ring", 6),
        ("inc x 6", 12),
        ("(sc, inc) x 6", 18),
        ("(sc, inc, sc) x 6", 24),
        ("24 sc", 24),
        ("(2 sc, dec) x 6", 18),
        ("3 sc in next st, 17 hdc", 20),
    ]


def test_declared_stitches_use_and_make_what_they_say() -> None:
    assert rounds_of(STITCHES) == [
        ("6 sc in magic ring", 6),
        ("inc x 6", 12),
        ("(frond, 2 sc) x 4", 12),
        ("wave crest x 6", 18),
        ("(3-dc bobble, 2 sc) x 6", 18),
        ("18 frond", 18),
    ]


def test_the_height_of_a_declared_stitch_counts() -> None:
    proof, _ = proved(STITCHES)
    assert proof is not None
    heights = [r.height for r in proof.fabric.pieces["body"].rounds]
    assert heights[2] == pytest.approx((4 * 4 + 8) / 12) and heights[5] == 4


def test_an_undeclared_letter_is_no_stitch() -> None:
    found = ids_of("terms: US\npieces:\n  b: |\n    R1: 6X in MR (6)\n")
    assert found and set(found) <= {"round-unread", "abbreviation-unknown", "word-stray"}


@pytest.mark.parametrize("meant", ["frobnicate", "sc, sc", "R3", "", "6 sc in magic ring"])
def test_a_letter_that_is_not_one_stitch_is_named(meant: str) -> None:
    text = f'terms: US\nletters: {{Q: "{meant}"}}\npieces:\n  b: "R1: 6 sc in magic ring"\n'
    _, findings = proved(text)
    assert any(f.check in ("value-unknown", "value-kind", "value-missing") for f in findings)
    named = [f for f in findings if f.check == "value-unknown"]
    assert not named or "`Q` stands for" in named[0].message
