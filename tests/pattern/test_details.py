"""Details that are missed: sizes of notions, gauges of pieces, whose a photo is, the scale."""

from __future__ import annotations

import pytest

from loading import COMPLETE, missed


def said(text: str) -> list[str]:
    return [finding.message for finding in missed(text)]


@pytest.mark.parametrize("notion", ["safety eyes", "black beads", "florist wire", "magnet"])
def test_a_notion_that_comes_in_sizes_says_its_own(notion: str) -> None:
    assert said(f"{COMPLETE}notions: [{notion}]\n") == [
        f"Notion `{notion}` does not say its `size`."
    ]


@pytest.mark.parametrize(
    "notion", ["safety eyes 6 mm", "6 mm black beads", "wire 40 cm", "tapestry needle", "felt eyes"]
)
def test_a_size_is_not_asked_for_twice_nor_of_tools(notion: str) -> None:
    assert said(f"{COMPLETE}notions: [{notion}]\n") == []


def test_a_photo_says_who_made_it() -> None:
    photo = "photos:\n  - {file: a.png, alt: A stone"
    assert said(f"{COMPLETE}{photo}}}\n") == ["Photo `a.png` does not say its `by`."]
    assert said(f"{COMPLETE}{photo}, by: Someone else, licence: CC0}}\n") == []


def test_a_photo_of_another_has_a_licence_of_its_own() -> None:
    photo = "photos:\n  - {file: a.png, alt: A stone, by: Someone else}\n"
    assert said(COMPLETE + photo) == ["Photo `a.png` does not say its `licence`."]


def test_the_licence_of_the_pattern_holds_for_the_designers_own_photos() -> None:
    designer = next(line[10:] for line in COMPLETE.splitlines() if line.startswith("designer: "))
    assert said(f"{COMPLETE}photos:\n  - {{file: a.png, alt: A stone, by: {designer}}}\n") == []


@pytest.mark.parametrize("key", ["hook: 5 mm", "strands: 2"])
def test_a_piece_worked_otherwise_has_a_gauge_of_its_own(key: str) -> None:
    piece = f"  rim:\n    yarn: slate\n    {key}\n    rounds: |\n      R1: 6 sc in magic ring (6)\n"
    text = COMPLETE.replace("pieces:\n", f"pieces:\n{piece}", 1)
    (finding,) = missed(text)
    assert (finding.message, finding.piece) == ("Piece `rim` does not say its `gauge`.", "rim")
    assert said(text.replace(key, f"{key}\n    gauge: 18 sts x 19 rounds = 10 cm")) == []
