"""Short words that a piece explains in its own lines, and letters that nothing explains."""

from __future__ import annotations

import pytest

from notation.texts import read
from proving import proved
from roundproof.notation.tree import Note
from roundproof.notation.writer import written
from roundproof.pattern.model import Terms

CODED = "R1: 6X in MR (6)\nR2: 6V (12)\nR3: (X, V)*6 (18)\nR4: (4X, D) X 3 (15)"
PLAIN = ["6 sc in magic ring", "inc x 6", "(sc, inc) x 6", "(4 sc, dec) x 3"]


@pytest.mark.parametrize(
    "key",
    [
        "X = sc, V = inc, D = dec",
        "Key: X - single crochet; V - increase; D \u2013 decrease",
        "X: sc\nV: inc\nD: sc2tog",
        "(X=sc / V=inc stitch / D=dec)",
    ],
)
def test_letters_are_read_as_they_are_explained(key: str) -> None:
    script, findings = read(f"{key}\n{CODED}")
    assert not findings
    assert [written(r.readings[0], Terms.US) for r in script.rounds] == PLAIN
    assert isinstance(script.entries[0], Note)


def test_a_yarn_may_be_explained_by_its_colour() -> None:
    script, findings = read("g = dark green, w = white. Stuff well.\nR1: 6g, inc w (8)")
    assert not findings
    assert written(script.rounds[0].readings[0], Terms.US) == "with g 6 sc, with w inc"


def test_what_is_known_keeps_its_meaning() -> None:
    script, _ = read("dec = inc, sc = single crochet\nR1: 6 sc in MR\nR2: dec x 3 (3)")
    assert written(script.rounds[1].readings[0], Terms.US) == "dec x 3"


def test_letters_that_nothing_explains_leave_their_rounds_uncounted() -> None:
    script, findings = read(CODED)
    assert not findings
    assert all(r.stray and not r.readings and r.stated for r in script.rounds)


def test_a_letter_is_no_excuse_for_another_fault() -> None:
    script, findings = read("R1: 2X, 3 frob (6)\nR2: (X, V x 6 (12)")
    assert [f.check for f in findings] == ["round-unread", "round-unread"]
    assert not any(r.stray for r in script.rounds)


@pytest.mark.parametrize(("last", "severity"), [("", "warning"), ("\n    R5: 3X, A", "error")])
def test_letters_are_one_finding_a_piece(last: str, severity: str) -> None:
    body = CODED.replace("\n", "\n    ")
    _, findings = proved(f"terms: US\npieces:\n  body: |\n    {body}{last}\n")
    (only,) = [f for f in findings if str(f.severity) != "note"]
    assert (only.check, str(only.severity)) == ("word-stray", severity)
    assert "`X`, `V`, `D`" in only.message
