"""Joins, places and what steps name: one mistake gives one finding, at its words."""

from __future__ import annotations

import pytest

from proving import ids_of, proved
from roundproof.findings import Finding, Severity

PATTERN = """\
title: Example
terms: US
notions: [tapestry needle, safety eyes 2]
safety: {{note: The eyes are small parts that can be swallowed by young children.}}
yarns:
  ivory: {{gauge: 23 sts x 25 rounds = 10 cm}}
  glass: {{gauge: 19 sts x 20 rounds = 10 cm}}
pieces:
  upper:
    yarn: {upper}
    marks: {{front: R2 between 3 and 4}}
    rounds: |
      R1: 12 sc in magic ring (12)
      R2: inc x 12 (24)
      R3: sc around (24)
      R4: sc in BLO around (24)
  under:
    yarn: ivory
    {more}
    rounds: |
      R1: 12 sc in magic ring (12)
      {under}
assembly:
{steps}
"""
WHIP = "join: {edge: under, to: upper, by: whipstitch}"


def found(
    *steps: str, under: str = "R2: inc x 12 (24)", upper: str = "ivory", more: str = "make: 1"
) -> list[Finding]:
    lines = "\n".join(f"  - {step}" for step in steps or (WHIP,))
    text = PATTERN.format(under=under, upper=upper, more=more, steps=lines)
    quiet = ("value-missing", "material-unused")
    return [f for f in proved(text)[1] if f.check not in quiet]


def only(*steps: str, **more: str) -> Finding:
    (finding,) = found(*steps, **more)
    return finding


# ---- counts ----
def test_equal_counts_in_one_gauge_are_silent() -> None:
    assert found() == []


def test_unlike_counts_in_one_gauge_are_a_matter_of_counts() -> None:
    finding = only(under="R2: sc around (12)")
    assert (finding.check, finding.severity) == ("join-count", Severity.ERROR)
    assert finding.span.text == "under" and finding.piece == "under"
    assert finding.message == "under has 12 stitches and upper has 24: 12 are left over (100 %)."
    assert "End under with 24, or upper with 12" in finding.mend


def test_a_small_difference_is_spread() -> None:
    finding = only(under="R2: 11 inc, sc (23)")
    assert (finding.check, finding.severity) == ("join-count", Severity.NOTE)
    assert finding.mend == (
        "End under with 24, or upper with 23; or double one stitch of under."
        " After R2 of under, 22 sc, inc makes 24."
    )


def test_how_a_piece_comes_to_a_count_that_fits_is_told() -> None:
    # 24 stitches of glass are 126.3 mm, 29 of ivory; twelves make 24 or 36: neither fits
    finding = only(upper="glass")
    assert finding.mend == "29 stitches of ivory would fit, or 20 of glass."
    # 30 in sixes; after 24 one round of six more
    rounds = "R2: (sc, inc) x 6 (18)\n      R3: (2 sc, inc) x 6 (24)"
    upper = "R4: sc in BLO around (24)"
    text = PATTERN.format(under=rounds, upper="ivory", more="make: 1", steps=f"  - {WHIP}")
    text = text.replace(upper, "R4: (3 sc, inc) x 6 (30)")
    (found,) = [f for f in proved(text)[1] if f.check == "join-count"]
    assert "After R3 of under, (3 sc, inc) x 6 makes 30." in found.mend
    assert "R3 of upper has 24." in found.mend


def test_unlike_counts_that_fit_come_with_the_plan_that_spreads_them() -> None:
    # 22 and 24: two stitches of the shorter are doubled, half way round from each other
    finding = only(under="R2: 10 inc, 2 sc (22)")
    assert "or double every 11th stitch of under, twice." in finding.mend


def test_an_odd_edge_cannot_be_folded_flat() -> None:
    step = "join: {edge: under, to: upper, fold: flat, at: {between: [R3, R4]}}"
    finding = only(step, under="R2: 3 inc, 9 sc (15)")
    assert (finding.check, finding.severity) == ("join-count", Severity.WARNING)
    assert "End under with 14 or 16." in finding.mend


def test_a_crocheted_join_has_as_many_stitches_as_an_edge() -> None:
    crochet = "join: {edge: under, to: upper, by: crochet, stitch: sc, count: %d, front: upper}"
    assert found(crochet % 24) == []
    finding = only(crochet % 20)
    assert finding.check == "join-count" and finding.span.text == "20"
    assert finding.mend == "Join with 24."


def test_a_gathered_edge_may_be_longer() -> None:
    gathered = "join: {edge: under, to: upper, by: whipstitch, ease: gathered}"
    assert found(gathered, under="R2: (3 sc in next st) x 12 (36)") == []
    finding = only(gathered, under="R2: inc x 12 (24)")
    assert (finding.check, finding.severity) == ("join-fit", Severity.NOTE)


# ---- lengths ----
def test_equal_counts_in_two_gauges_are_a_matter_of_length() -> None:
    # 24 x 100 / 23 = 104 mm, 24 x 100 / 19 = 126 mm; 126.3 / 4.35 = 29, 104.3 / 5.26 = 19.8
    finding = only(upper="glass")
    assert (finding.check, finding.severity) == ("join-fit", Severity.ERROR)
    assert finding.message == (
        "24 stitches of ivory are 10.4 cm and 24 stitches of glass are 12.6 cm:"
        " under is 17 % short."
    )
    assert finding.mend == "29 stitches of ivory would fit, or 20 of glass."


def test_counts_that_fit_in_two_gauges_are_silent() -> None:
    # 29 x 4.348 = 126.1 mm against 126.3 mm
    assert found(under="R2: (3 sc in next st) x 5, 7 inc (29)", upper="glass") == []


def test_on_a_body_the_place_is_measured() -> None:
    step = "join: {edge: under, to: upper, at: {footprint: R2-R4, stitches: 4}, by: whipstitch}"
    finding = only(step, under="R2: sc around (12)")
    # 3 rounds of 4 mm and 4 stitches of 4.35 mm, twice: 58.8 mm, and 12 stitches are 52.2 mm
    assert finding.check == "join-fit"
    assert "the place on upper R2-R4 (14 rounds and stitches round) is 5.9 cm" in finding.message
    assert "14 stitches of under would fit" in finding.mend


def test_an_edge_whose_round_could_not_be_read_raises_nothing_more() -> None:
    assert [f.check for f in found(under="R2: wibble")] == ["abbreviation-unknown"]


# ---- names ----
EYES = "place: {item: safety eyes, piece: %s, between: [R2, %s], around: {mark: %s, apart: 2}}"


@pytest.mark.parametrize(
    ("step", "words", "message", "mend"),
    [
        ("join: {edge: undr, to: upper}", "undr", "There is no piece `undr`.", "under?"),
        ("join: {edge: under, to: upper R9}", "upper R9", "no R9 in upper", "up to R4"),
        ("join: {edge: under, to: upper R2 free back loops}", "upper R2 free back loops",
         "leaves no back loops free", "R3 (24 front loops)"),
        ("join: {edge: under, to: upper, at: {up: R3-R8}}", "R3-R8", "There is no R8", "R4"),
        (EYES % ("uper", "R3", "front"), "uper", "There is no piece `uper`.", "upper?"),
        (EYES % ("upper", "R7", "front"), "R7", "There is no R7 in upper.", "R4"),
        (EYES % ("upper", "R3", "frnt"), "frnt", "upper has no mark `frnt`.", "front?"),
        ("close: {edge: lower}", "lower", "There is no piece `lower`.", "upper"),
        ("stuff: {piece: uppr}", "uppr", "There is no piece `uppr`.", "upper?"),
        ("{stuff: {piece: upper}, after: upper R8}", "upper R8", "no R8", "R4"),
        ("embroider: {piece: upper, with: ivory, lines: [{from: R2 st 3, to: R6 st 3}]}",
         "R6 st 3", "There is no R6 in upper.", "R4"),
    ],
)  # fmt: skip
def test_what_a_step_names_must_exist(step: str, words: str, message: str, mend: str) -> None:
    steps = (step,) if step.startswith("join") else (WHIP, step)
    (finding,) = [f for f in found(*steps) if f.check == "edge-unknown"]
    assert finding.span.text == words and finding.severity is Severity.ERROR
    assert message in finding.message and mend in finding.mend


def test_a_host_that_is_not_there_is_told_once() -> None:
    step = "join: {edge: under, to: lowr, at: {footprint: R8-R9, stitches: 2}, around: {mark: x}}"
    assert [f.check for f in found(step)] == ["edge-unknown"]


GROWN = """\
title: Example
terms: US
pieces:
  bell: |
    R1: 12 sc in magic ring (12)
    R2: sc around (12)
    R3: sc in BLO around (12)
  rim:
    starts: {in: bell %s}
    rounds: |
      R1: sc around (12)
%s"""
FRINGE = """\
  fringe:
    starts: {in: bell R2 free front loops}
    rounds: |
      R1: inc around
"""


def test_a_piece_grows_out_of_loops_that_are_there() -> None:
    assert ids_of(GROWN % ("R2 free front loops", "")) == []
    _, findings = proved(GROWN % ("R1 free front loops", ""))
    (finding,) = [f for f in findings if f.check == "edge-unknown"]
    assert finding.span.text == "bell R1 free front loops" and finding.piece == "rim"
    assert "R2 (12 front loops)" in finding.mend


def test_loops_are_worked_into_once() -> None:
    _, findings = proved(GROWN % ("R2 free front loops", FRINGE))
    (finding,) = [f for f in findings if f.check == "edge-unknown"]
    assert finding.piece == "fringe" and "worked into already, by rim" in finding.message


# ---- pieces and copies ----
LEGS = "join: {edge: under, to: upper, around: {%s}, at: {between: [R3, R4], stitches: 1}}"


def test_more_copies_joined_than_made_is_an_error_and_fewer_a_warning() -> None:
    legs = "R2: (sc2tog) x 6 (6)"
    for evenly, severity in (
        ("evenly: 9, from: st 1", Severity.ERROR),
        ("st: 3", Severity.WARNING),
    ):
        findings = found(LEGS % evenly, under=legs, more="make: 8")
        (finding,) = [f for f in findings if f.check == "piece-unjoined"]
        assert finding.severity is severity and "is made 8 times" in finding.message
    findings = found(LEGS % "evenly: 8, from: st 1", under=legs, more="make: 8")
    assert "piece-unjoined" not in [f.check for f in findings]


def test_a_pattern_without_assembly_is_not_asked_where_its_pieces_go() -> None:
    pieces = "title: Example\nterms: US\npieces:\n  a: |\n    6 sc in magic ring\n"
    assert ids_of(pieces + "  b: |\n    6 sc in magic ring\n") == []
