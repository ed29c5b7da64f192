"""Steps held against their entries and against one another: one mistake, one finding."""

from __future__ import annotations

import pytest

from proving import proved
from roundproof.fabric.stands import evenly, steps_of
from roundproof.findings import Finding, Severity

PATTERN = """\
title: Example
terms: US
left_right: wearer
notions: [tapestry needle, fibrefill 5 g, pins, black thread, "coated wire",
  {{item: safety eyes, count: 2, hazard: small part}}]
safety:
  note: The eyes are small parts that can be swallowed by young children, and wire can prick.
yarns:
  ivory: {{gauge: 25 sts x 25 rounds = 10 cm}}
pieces:
  body:
    yarn: ivory
    marks: {{front: R5 between 6 and 7, nose: R4 st 3}}
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: inc x 6 (12)
      R3: (sc, inc) x 6 (18)
      R4-R9: sc around (18)
      R10: (sc, dec) x 6 (12)
      R11: dec x 6 (6)
      {end}
  left arm:
    yarn: ivory
    rounds: |
      R1: 4 sc in magic ring (4)
      R2-R6: sc around (4)
      Fasten off, leaving a 20 cm tail.
  right arm: {{mirror: left arm}}
assembly:
{steps}
"""
QUIET = ("value-missing", "material-unused", "piece-unjoined")


def found(*steps: str, end: str = "Fasten off, leaving a 20 cm tail.") -> list[Finding]:
    lines = "\n".join("  - " + step.replace("\n", "\n    ") for step in steps)
    _, findings = proved(PATTERN.format(steps=lines, end=end))
    return [f for f in findings if f.check not in QUIET]


def only(*steps: str, end: str = "Fasten off, leaving a 20 cm tail.") -> Finding:
    (finding,) = found(*steps, end=end)
    return finding


def sewn(arm: str, at: str = "R5-R5", st: int = 2, width: int = 1, more: str = "") -> str:
    return (
        f"join: {{edge: {arm}, to: body, at: {{footprint: {at}, stitches: {width}}},"
        f" around: {{st: {st}}}, by: whipstitch}}{more}"
    )


# ---- where things stand ----
def test_five_over_22_are_spread_as_published() -> None:
    # common practice, no source: 22 stitches in 5 are gaps of 4, 4, 4, 5 and 5, in any order
    assert sorted(steps_of(5, 22)) == [4, 4, 4, 5, 5]
    assert sum(steps_of(5, 22)) == 22 and evenly(4, 22) == (0, 5, 11, 16)


def test_two_pieces_side_by_side_share_nothing() -> None:
    assert found(sewn("left arm", st=2), sewn("right arm", st=11)) == []


def test_two_pieces_on_the_same_stitches_are_told() -> None:
    one = sewn("left arm", "R5-R6", 4, 2)
    findings = found(one, sewn("right arm", "R6-R7", 5, 2))
    (finding,) = [f for f in findings if f.check == "place-shared"]
    assert finding.severity is Severity.WARNING and finding.span.text == "right arm"
    assert finding.message == (
        "right arm stands on stitches 5 to 6 of body, R6-R7, and left arm on stitches 4 to 5,"
        " R5-R6: 1 of them in common."
    )
    for clear in (sewn("right arm", "R6-R7", 6, 2), sewn("right arm", "R7-R8", 5, 2)):
        assert "place-shared" not in [f.check for f in found(one, clear)]


def test_an_eye_within_a_limb_shares_its_place() -> None:
    eye = "place: {item: black beads, piece: body, between: [R5, R6], around: {st: 6}}"
    arm = sewn("left arm", "R5-R7", 5, 3)
    ids = [f.check for f in found(arm, eye)]
    assert "place-shared" in ids
    eye = eye.replace("st: 6", "st: 5")  # at the very edge
    assert "place-shared" not in [f.check for f in found(arm, eye)]


EYES = "{place: {item: safety eyes, piece: body, between: [R5, R6], around: {%s}}, after: body R7}"


@pytest.mark.parametrize(
    ("around", "message"),
    [
        ("mark: front, apart: 3", "3 stitches cannot lie evenly about the mark front of body"),
        ("mark: front, apart: 4", ""),
        ("mark: nose, apart: 4", "4 stitches cannot lie evenly about the mark nose of body"),
        ("mark: nose, apart: 3", ""),
        ("mark: front, free: [4, 14]", ""),
        ("mark: front, free: [3, 15]", "3 stitches cannot lie evenly"),
        ("st: 3, apart: 3", ""),
    ],
)
def test_a_pair_stands_evenly_about_its_mark(around: str, message: str) -> None:
    findings = found(EYES % around)
    assert [f.check for f in findings] == (["place-lopsided"] if message else [])
    assert all(message in f.message for f in findings)


def test_gaps_that_differ_on_the_two_sides_are_told() -> None:
    beads = (
        "place: {item: beads, piece: body, between: [R5, R6], around: {mark: front, free: [%s]}}"
    )
    assert [f.check for f in found(beads % "4, 3, 8, 3")] == ["material-unlisted"]
    ids = [f.check for f in found(beads % "4, 2, 8, 4")]
    assert sorted(ids) == ["material-unlisted", "place-lopsided"]


def test_a_mirror_image_stands_at_the_mirrored_place() -> None:
    # the mark lies behind stitch 6: one arm on stitch 3 is 3.5 away, its like on stitch 10
    assert found(sewn("left arm", st=3), sewn("right arm", st=10)) == []
    finding = only(sewn("left arm", st=3), sewn("right arm", st=11))
    assert finding.check == "place-lopsided"
    assert finding.mend == "Begin right arm at stitch 10."
    finding = only(sewn("left arm", st=3), sewn("right arm", "R6-R6", 10))
    assert "it stands on R6 over 1 stitch of body, and left arm on R5" in finding.message


def test_a_number_that_is_a_slip_takes_no_time() -> None:
    beads = "place: {item: beads, piece: body, between: [R5, R6], around: {evenly: 999999999}}"
    assert {f.check for f in found(beads)} >= {"place-count"}
    assert evenly(10**9, 10**9) == steps_of(10**9, 10**9) == ()


# ---- order ----
def test_eyes_come_before_the_end_is_drawn_shut() -> None:
    eyes = "place: {item: safety eyes, piece: body, between: [R5, R6], around: {st: 3, apart: 4}}"
    shut = "Fasten off and draw the last round shut."
    finding = only(eyes, end=shut)
    assert finding.check == "order-closed" and finding.severity is Severity.ERROR
    assert finding.message == (
        "`safety eyes`, fastened from inside, comes after body is closed: it is drawn shut after"
        " R11."
    )
    assert finding.mend == "Say at which round it is done, `after: body R10`."
    assert found(eyes, "close: {edge: body, by: gather}") == []
    assert found("{" + eyes + ", after: body R9}", end=shut) == []


@pytest.mark.parametrize(
    "inside",
    [
        "stuff: {piece: body}",
        "insert: {item: coated wire, piece: body, length: 3 cm}",
    ],
)
def test_what_goes_inside_comes_before_the_closing_step(inside: str) -> None:
    close = "close: {edge: body, by: gather}"
    assert found(inside, close) == []
    finding = only(close, inside)
    assert finding.check == "order-closed"
    assert "step 1 of the assembly closes it" in finding.message
    assert finding.mend.startswith("Move it before that step")


def test_sewn_on_beads_may_come_last() -> None:
    beads = "place: {item: black thread, piece: body, between: [R5, R6], around: {st: 3, apart: 4}}"
    assert found("close: {edge: body, by: gather}", beads) == []


def test_a_step_cannot_name_rounds_to_come() -> None:
    finding = only(EYES.replace("R7", "R5") % "st: 3, apart: 4")
    assert finding.check == "order-early" and finding.span.text == "R6"
    assert finding.mend == "Say `after: body R6`, or a later round."


# ---- lines, joints, inserts ----
LINE = "embroider: {piece: body, with: black thread, strands: 2, lines: [%s]}"


@pytest.mark.parametrize(
    ("lines", "check", "says"),
    [
        ("{from: R4 st 3, to: R4 st 9}", "", ""),
        ("{name: mouth, from: R4 st 3, to: between R5 and R6 st 9}, {from: mouth, to: front}",
         "", ""),
        ("{from: R4 st 3, to: R4 st 19}", "edge-unknown", "no stitch 19 in R4 of body: it has 18"),
        ("{from: R4 st 3, to: R14 st 9}", "edge-unknown", "There is no R14 in body."),
        ("{from: R4 st 3, to: smile}", "edge-unknown", "`smile` is no point on body."),
        ("{from: mouth, to: front}, {name: mouth, from: R4 st 3, to: R4 st 9}", "edge-unknown",
         "`mouth` is no point on body."),
        ("{from: R4 st 3, to: R4 st 3}", "embroidery-line", "same point"),
        ("{from: R4 st 3}", "embroidery-line", "Where this line ends is not said."),
    ],
)  # fmt: skip
def test_lines_run_between_points_that_are_there(lines: str, check: str, says: str) -> None:
    findings = found(LINE % lines)
    assert [f.check for f in findings] == ([check] if check else [])
    assert all(says in f.message for f in findings)


@pytest.mark.parametrize(
    ("path", "check", "says"),
    [
        ("left arm R2 st 1, body R7 st 3, right arm R2 st 1", "", ""),
        ("left arm R2 st 9, body R7 st 3", "edge-unknown", "no stitch 9 in R2 of left arm"),
        ("leg R2 st 1, body R7 st 3", "edge-unknown", "There is no piece `leg"),
        ("body R7 st 3, body R7 st 9", "joint-path", "through body alone"),
    ],
)
def test_a_joint_goes_through_points_that_are_there(path: str, check: str, says: str) -> None:
    findings = found(f"joint: {{with: black thread, path: [{path}], passes: 3}}")
    assert [f.check for f in findings] == ([check] if check else [])
    assert all(says in f.message for f in findings)


def test_wire_longer_than_its_piece_has_to_say_what_becomes_of_the_rest() -> None:
    # R2 to R6 of the arm are 5 rounds of 4 mm and the first closes its end: about 2.4 cm
    wire = "insert: {item: coated wire, piece: left arm, length: %s%s}"
    assert found(wire % ("2.4 cm", "")) == []
    assert only(wire % ("5 cm", "")).check == "insert-long"
    assert found(wire % ("5 cm", ", ends: doubled")) == []
    assert only(wire % ("20 cm", ", ends: doubled")).check == "insert-long"


# ---- words against the entry ----
ARM = sewn("left arm", "R5-R7", 3, 2, "\nstep: {}")


@pytest.mark.parametrize(
    ("step", "said"),
    [
        ("Whipstitch the arm to R5 to R7, from stitch 3.", ""),
        ("Whipstitch the arm to R5 to R8.", "R5 to R8"),
        ("Sew the arm to R4.", "R4"),
        ("Sew the arm down over 2 stitches.", ""),
        ("Sew the arm down over 5 stitches.", "5 stitches"),
        ("Leave three stitches free in front.", ""),
        ("Leave five stitches free in front.", "five stitches"),
        ("Sew the four stitches of the arm down.", ""),
        ("Sew the arm on in mattress stitch.", "mattress stitch"),
        ("Pin the arm, then whipstitch, not backstitch.", ""),
    ],
)
def test_a_typed_step_is_held_against_its_entry(step: str, said: str) -> None:
    findings = [f for f in found(ARM.replace("{}", step)) if f.check == "step-differs"]
    assert [said] * bool(said) == [f.message.split(", and the entry")[0][14:] for f in findings]


@pytest.mark.parametrize(
    ("entry", "step", "says"),
    [
        ("join: {edge: left arm, to: body R11, by: whipstitch, stuffed: no}",
         "Whipstitch, stuffing lightly.", "stuffed: no"),
        ("join: {edge: left arm, to: body R11, by: whipstitch, stuffed: while closing}",
         "Whipstitch the arm and leave it empty.", "stuffed: while closing"),
        ("join: {edge: left arm, to: body R11, by: whipstitch, facing: wrong sides together}",
         "Whipstitch, right sides together.", "wrong sides together"),
        ("insert: {item: coated wire, piece: body, length: 4 cm, ends: bent}",
         "Push 6 cm of wire into it.", "4.0 cm"),
        ("insert: {item: coated wire, piece: body, length: 4 cm, ends: bent}",
         "Cut 6 CM of wire.", "4.0 cm"),
        ("joint: {with: black thread, path: [left arm R2, body R7], passes: 3}",
         "Go through both 4 times.", "and the entry 3"),
        (LINE % "{from: R4 st 3, to: R4 st 6}",
         "With 3 strands sew the mouth.", "and the entry 2"),
    ],
)  # fmt: skip
def test_every_kind_of_claim_is_held_against_the_entry(entry: str, step: str, says: str) -> None:
    findings = [f for f in found(f"{entry}\nstep: {step}") if f.check == "step-differs"]
    assert len(findings) == 1 and says in findings[0].message
