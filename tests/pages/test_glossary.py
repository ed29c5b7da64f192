"""The glossary: steps that can be followed, in both terms."""

from __future__ import annotations

import re

import pytest

from roundproof.pages.glossary import glossary
from roundproof.reference import StitchKind, stitches

NUMBERS = {"twice": 2, "three times": 3, "four times": 4, "five times": 5, "six times": 6}
TOTALS = {"four": 4, "five": 5, "six": 6, "seven": 7}


def loops_of(kind: StitchKind) -> int:
    """Follows the steps from one loop on the hook, and holds each count that is told on the way;
    how many loops are on the hook at the end."""
    loops = 1
    for step in kind.steps:
        low = step.lower()
        first = re.match(r"yarn over(?: (\w+(?: times)?))?, insert", low)
        if first:
            loops += NUMBERS.get(first[1] or "", 1)
        loops += low.count("draw up a")
        if "draw them up" in low:
            loops += 2  # both strands of a loop stitch
        if again := re.search(r"through two loops; do this (\w+) times", low):
            loops -= TOTALS[again[1]]
        elif "through two loops" in low or "through both" in low:
            loops -= 1
        elif "through all three" in low:
            loops -= 2
        if told := re.search(r"(\d) loops on the hook|(\d) left|still (\d)", low):
            assert loops == int(next(filter(None, told.groups()))), (kind.id, step)
    return loops


PLAIN = [
    kind
    for kind in stitches().values()
    if not kind.vague and kind.id not in ("ch", "sl st") and kind.steps
]


@pytest.mark.parametrize("kind", PLAIN, ids=lambda kind: kind.id)
def test_the_steps_lead_from_one_loop_to_one(kind: StitchKind) -> None:
    assert loops_of(kind) == 1


@pytest.mark.parametrize(
    ("id", "loops"),
    # How many loops there are before the first is drawn through: one for the loop that was there,
    # one for each yarn over, one drawn up. A half double has three, a double three, a treble four.
    [("sc", 2), ("hdc", 3), ("dc", 3), ("tr", 4), ("dtr", 5), ("trtr", 6), ("qtr", 7)],
)
def test_the_most_loops_are_those_of_the_stitch(id: str, loops: int) -> None:
    assert f"{loops} loops on the hook" in stitches()[id].steps[1]


def test_every_stitch_has_steps_that_are_sentences() -> None:
    for kind in stitches().values():
        assert kind.steps, kind.id
        for step in kind.steps:
            assert step[0].isupper() and step.endswith("."), (kind.id, step)
            assert len(step.split()) <= 30, (kind.id, step)


def test_post_stitches_go_round_the_post() -> None:
    for id, first in (("FPdc", "front to the back"), ("BPdc", "back to the front")):
        assert f"round the post of the stitch below, from the {first}" in stitches()[id].steps[0]


def test_a_row_of_the_glossary_has_both_terms_in_its_steps() -> None:
    made = glossary()
    inc = next(row for row in made.words if row.id == "word-inc")
    assert inc.steps[0] == "Work 1 sc (UK: dc) in the next stitch."
    ring = next(row for row in made.words if row.id == "word-ring")
    assert len(ring.steps) == 4
    whip = next(row for row in made.techniques if row.id == "how-whipstitch")
    assert (whip.us, whip.uk) == ("whipstitch", "oversewing")
    ids = [row.id for row in (*made.stitches, *made.words, *made.techniques)]
    assert len(set(ids)) == len(ids)


def test_no_step_of_one_system_stands_alone_in_a_word_of_the_other() -> None:
    """Steps that both read name no stitch by a word that differs, unless they name it in both."""
    for kind in stitches().values():
        for step in kind.steps:
            for word in re.findall(r"\b(?:single|double|treble) crochet", step):
                assert "(UK: " in step, (kind.id, word)
