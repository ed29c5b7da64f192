"""What is used is listed, what is listed is used, and the numbers agree."""

from __future__ import annotations

import pytest

from proving import proved

PATTERN = """\
title: Pebble
terms: US
yarns:
  slate: {colour: {name: slate grey}}
  chalk: {colour: {name: chalk}}
notions:
  - tapestry needle
  - fibrefill 10 g
  - {item: safety eyes, size: 6 mm, count: 2, hazard: small part}
safety: {note: The eyes are small parts.}
pieces:
  body:
    make: 1
    yarn: slate
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: inc in each st around (12)
      Change to chalk.
      R3: sc around (12)
      Stuff firmly.
assembly:
  - place: {item: safety eyes, piece: body, between: [R2, R3], around: {st: 3, apart: 2}}
  - close: {edge: body, by: gather}
"""


def said(*changes: tuple[str, str]) -> list[tuple[str, str, str]]:
    """Check, severity and words of what is found in the pattern with some changes."""
    text = PATTERN
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    _, findings = proved(text)
    return [
        (f.check, str(f.severity), f.span.text) for f in findings if f.check.startswith("material-")
    ]


def test_a_whole_pattern_gives_nothing() -> None:
    assert said() == []


@pytest.mark.parametrize(
    ("change", "finding"),
    [
        (("yarn: slate", "yarn: coral"), ("error", "coral")),
        (("Change to chalk.", "Change to coral."), ("error", "coral")),
        (("R3: sc", "R3: with coral sc"), ("error", "coral")),
        (("  - tapestry needle\n", ""), ("note", "gather")),
        (("  - fibrefill 10 g\n", ""), ("note", "Stuff firmly.")),
        (("count: 2", "count: 1"), ("error", "1")),
        (("make: 1", "make: 2"), ("error", "2")),
        (("apart: 2}", "evenly: 4}"), ("error", "2")),
    ],
)
def test_what_is_used_and_not_listed(change: tuple[str, str], finding: tuple[str, str]) -> None:
    assert ("material-unlisted", *finding) in said(change)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (("Change to chalk.", "Note: plain."), "chalk"),
        (("      Stuff firmly.\n", ""), "fibrefill"),
        (("count: 2", "count: 3"), "3"),
    ],
)
def test_what_is_listed_and_not_used(change: tuple[str, str], words: str) -> None:
    assert said(change) == [("material-unused", "note", words)]


def test_a_notion_that_no_step_places() -> None:
    start = PATTERN.index("  - place")
    step = PATTERN[start : PATTERN.index("\n", start) + 1]
    assert said((step, "")) == [("material-unused", "note", "safety eyes")]


def test_a_misspelling_is_one_finding_with_the_right_word() -> None:
    _, findings = proved(PATTERN.replace("yarn: slate", "yarn: slat"))
    (finding,) = [f for f in findings if f.check.startswith("material-")]
    assert finding.mend == "Write `slate`, or list `slat` under `yarns:`."
    assert [edit.text for edit in finding.edits] == ["slate"]


def test_an_item_misspelt_in_a_step_is_one_finding() -> None:
    assert said(("{item: safety eyes, piece", "{item: safty eyes, piece")) == [
        ("material-unlisted", "error", "safty eyes")
    ]


def test_a_yarn_that_only_an_unread_round_names_is_taken_for_used() -> None:
    changed = said(("Change to chalk.\n", ""), ("R3: sc around", "R3: with chalk blorp around"))
    assert changed == []


def test_a_yarn_that_embroidery_takes_is_used() -> None:
    lines = "lines: [{stitch: backstitch, from: R2 st 3, to: R2 st 6}]"
    step = "  - close:"
    new = f"  - embroider: {{piece: body, with: chalk, {lines}}}\n  - close:"
    assert said(("Change to chalk.", "Note: plain."), (step, new)) == []


def test_a_published_pattern_must_list_its_filling() -> None:
    changed = said(
        ("title: Pebble", "title: Pebble\nstatus: published"), ("  - fibrefill 10 g\n", "")
    )
    assert ("material-unlisted", "error", "Stuff firmly.") in changed
