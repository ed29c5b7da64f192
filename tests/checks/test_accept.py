"""`accept:` sets findings aside: those it names, no others, and none that concerns safety."""

from __future__ import annotations

from proving import proved

PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc in each st around (13)
  foot: |
    R1: 6 sc in magic ring (6)
    R2: inc in each st around (12)
    R3-R4: sc around (13)
accept:
  - {check: count-stated, at: AT, because: It is printed so in the book.}
"""


def aside(at: str) -> list[tuple[str, str | None]]:
    _, findings = proved(PATTERN.replace("AT", at))
    return [(f.check, f.round) for f in findings if f.accepted]


def test_a_piece_sets_aside_what_is_found_in_it_alone() -> None:
    assert aside("body") == [("count-stated", "R2")]


def test_a_round_within_a_range_is_enough() -> None:
    assert aside("foot R4") == [("count-stated", "R3-R4")]
    assert aside("foot R3-R4") == [("count-stated", "R3-R4")]


def test_a_round_without_a_finding_sets_nothing_aside_and_is_told() -> None:
    _, findings = proved(PATTERN.replace("AT", "foot R2"))
    assert not any(f.accepted for f in findings)
    (stale,) = [f for f in findings if f.check == "accept-stale"]
    assert "foot R2" in stale.message


def test_the_words_at_the_place_can_be_named() -> None:
    text = PATTERN.replace("AT", '"13"')
    _, findings = proved(text)
    assert [f.round for f in findings if f.accepted] == ["R2", "R3-R4"]


def test_an_unknown_check_is_told_with_the_nearest_one() -> None:
    _, findings = proved(PATTERN.replace("AT", "body").replace("count-stated", "counts-stated"))
    (stale,) = [f for f in findings if f.check == "accept-stale"]
    assert stale.mend == "Write `count-stated`."
    assert [edit.text for edit in stale.edits] == ["count-stated"]


def test_what_concerns_safety_stays_whatever_the_file_says() -> None:
    text = """\
title: Pebble
terms: US
notions:
  - {item: magnets, hazard: magnet}
pieces:
  body: |
    R1: 6 sc in magic ring (6)
assembly:
  - insert: {item: magnets, piece: body}
accept:
  - {check: safety-note, because: Everyone knows.}
"""
    _, findings = proved(text)
    found = {f.check: f.accepted for f in findings if f.check != "value-missing"}
    assert found == {"safety-note": False, "accept-final": False}


def test_a_long_cord_that_is_meant_can_be_set_aside() -> None:
    text = """\
title: Bell rope
terms: US
yarns:
  slate: {gauge: 20 sts x 20 rounds = 10 cm}
pieces:
  rope: |
    R1: ch 80 (80)
    Fasten off.
accept:
  - {check: cord-long, at: rope, because: It hangs from a ceiling.}
"""
    _, findings = proved(text)
    assert [(f.check, f.accepted) for f in findings if f.check != "value-missing"] == [
        ("cord-long", True)
    ]
