"""Rounds lost and doubled, and counts that are slips: the edits mend the pattern."""

from __future__ import annotations

import pytest

from proving import ids_of, proved
from roundproof.findings import Finding

BALL = """\
terms: US
pieces:
  ball: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: (sc, inc) x 6 (18)
    R4: (2 sc, inc) x 6 (24)
    R5: (3 sc, inc) x 6 (30)
    R6-R8: sc around (30)
    R9: (3 sc, dec) x 6 (24)
    R10: (2 sc, dec) x 6 (18)
    R11: (sc, dec) x 6 (12)
    R12: dec x 6 (6)
"""


def only(text: str) -> Finding:
    _, found = proved(text)
    (finding,) = [f for f in found if f.check != "value-missing"]
    return finding


def mended(text: str, finding: Finding) -> str:
    for edit in sorted(finding.edits, key=lambda e: -e.span.start):
        text = text[: edit.span.start] + edit.text + text[edit.span.end :]
    return text


def without(number: int, *, renumber: bool) -> str:
    lines = BALL.splitlines(keepends=True)
    at = next(i for i, line in enumerate(lines) if line.strip().startswith(f"R{number}:"))
    rest = lines[at + 1 :]
    if renumber:
        import re

        back = [re.sub(r"R(\d+)", lambda m: f"R{int(m[1]) - 1}", line) for line in rest]
        rest = back
    return "".join([*lines[:at], *rest])


@pytest.mark.parametrize("number", [3, 4, 9, 10, 11])
@pytest.mark.parametrize("renumber", [False, True], ids=["with a gap", "numbered on"])
def test_a_lost_round_is_found_and_put_in_again(number: int, renumber: bool) -> None:
    text = without(number, renumber=renumber)
    finding = only(text)
    assert finding.check == "round-lost"
    assert "6 each: a round is missing between them." in finding.message
    again = mended(text, finding)
    assert ids_of(again) == []
    assert again == BALL


def test_the_numbers_are_said() -> None:
    finding = only(without(10, renumber=False))
    assert finding.message == (
        "R11 needs 18 stitches and R9 makes 24; the rounds around it lose 6 each: a round is"
        " missing between them."
    )
    assert finding.mend == "Write it in: `R10: (2 sc, dec) x 6 (18)`."


def test_a_lost_round_in_the_pattern_s_own_terms() -> None:
    text = without(4, renumber=False).replace("terms: US", "terms: UK").replace("sc", "dc")
    assert "R4: (2 dc, inc) x 6 (24)" in only(text).mend


def test_a_count_that_fits_no_series_is_no_lost_round() -> None:
    text = BALL.replace("(3 sc, inc) x 6 (30)", "(3 sc, inc) x 7 (35)")
    assert "round-lost" not in ids_of(text)


@pytest.mark.parametrize("number", [3, 4, 10])
def test_a_doubled_round_is_found_and_taken_out(number: int) -> None:
    lines = BALL.splitlines(keepends=True)
    at = next(i for i, line in enumerate(lines) if line.strip().startswith(f"R{number}:"))
    text = "".join([*lines[: at + 1], lines[at], *lines[at + 1 :]])
    finding = only(text)
    assert finding.check == "round-doubled"
    assert mended(text, finding) == BALL


def test_a_slip_of_the_count_says_what_goes_on_from_it() -> None:
    text = BALL.replace("x 6 (24)\n    R5", "x 6 (25)\n    R5")
    finding = only(text)
    assert finding.check == "count-stated"
    assert finding.mend == "R5 works into 24: write (24)."
    assert mended(text, finding) == BALL


def test_words_at_fault_are_no_lost_round() -> None:
    assert "count-overrun" in ids_of(BALL.replace("R3: (sc, inc) x 6", "R3: 6 sc, 6 dec"))


def test_one_word_at_fault_is_exchanged() -> None:
    """An increase typed as a decrease uses one too many and makes too few."""
    text = """\
terms: US
pieces:
  a: |
    R1: 10 sc in magic ring (10)
    R2: 3 sc, {}, 6 sc (11)
    R3: sc around (11)
"""
    assert ids_of(text.format("inc")) == []
    finding = only(text.format("dec"))
    assert finding.check == "count-overrun"
    assert finding.mend == "With inc the round would make 11."
    assert mended(text.format("dec"), finding) == text.format("inc")


@pytest.mark.parametrize(
    ("right", "wrong"),
    [
        ("R2: (sc, 3 sc in next st) x 3 (12)", "R2: (sc, inc) x 3 (12)"),
        ("R2: 2 sc, inc x 2, 2 sc (8)", "R2: 2 sc, inc, dec, sc (8)"),
    ],
)
def test_a_count_that_the_next_round_works_into_is_the_right_one(right: str, wrong: str) -> None:
    after = {"12": "(sc, inc) x 6 (18)", "8": "sc around (8)"}[right.rpartition("(")[2][:-1]]
    text = (
        f"terms: US\npieces:\n  a: |\n    R1: 6 sc in magic ring (6)\n    {{}}\n    R3: {after}\n"
    )
    assert ids_of(text.format(right)) == []
    finding = only(text.format(wrong))
    assert finding.check == "count-stated"
    assert "R3 works into" in finding.mend


def test_a_round_that_differs_from_its_mirror_is_put_right() -> None:
    text = """\
terms: US
left_right: wearer
pieces:
  left: |
    R1: 6 sc in magic ring (6)
    R2: 2 inc, 4 sc (8)
  right:
    mirror: left
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: {} (8)
"""
    finding = only(text.format("3 sc, 2 inc, sc"))
    assert finding.check == "mirror-differs"
    assert mended(text.format("3 sc, 2 inc, sc"), finding) == text.format("4 sc, 2 inc")
