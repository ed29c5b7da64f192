"""Charts of whole pieces, held against the fabric."""

from __future__ import annotations

import gzip
import re
from math import cos, hypot, radians, sin
from pathlib import Path
from xml.etree import ElementTree

import pytest

from fabric.pieces import one_piece
from proving import proved
from roundproof.drawing.chart.layout import sections
from roundproof.drawing.chart.numbers import Numbers
from roundproof.drawing.chart.placed import Placed, Section
from roundproof.drawing.chart.sheet import MOST, chart, lay_out
from roundproof.drawing.chart.signs import tall
from roundproof.drawing.looks import looks
from roundproof.drawing.sheet import Sheet
from roundproof.drawing.svg import write_file
from roundproof.drawing.yarns import shades_of, yarn_marks
from roundproof.fabric.courses import Course, Ground, courses
from roundproof.fabric.edges import in_rows
from roundproof.fabric.laid import Into, laid
from roundproof.fabric.model import WorkedPiece
from roundproof.pattern.model import Terms
from roundproof.pipeline import prove
from roundproof.proof import Proof

ROOT = Path(__file__).parents[3]
PATTERNS = sorted([*ROOT.glob("patterns/*/pattern.yaml"), *ROOT.glob("tests/clean/*/pattern.yaml")])
REACH = 1.5
"""Stitch widths. A sign's foot, or where the legs of one over several meet, is no farther from the
stitches that it is worked into than one and a half stitches are wide."""


def sheet_of(proof: Proof, key: str, mirrored: bool = False) -> Sheet:
    pattern = proof.pattern
    own = {stitch.key: stitch.key for stitch in pattern.stitches}
    marks = yarn_marks(pattern)
    piece = proof.fabric.pieces[key]
    laid = lay_out(piece, marks)
    assert laid is not None
    return chart(laid, marks, pattern.written_in, proof.letter, own, mirrored)


def file_of(proof: Proof, sheet: Sheet) -> str:
    return write_file(sheet.drawing, looks(shades_of(proof.pattern)))


def laid_out(piece: WorkedPiece) -> tuple[tuple[Course, ...], tuple[Section, ...]]:
    found = courses(piece, MOST)
    assert found
    return found, sections(found, in_rows(piece), Numbers(found, {}).wide)


def foot_of(placed: Placed) -> tuple[float, float]:
    high, turn = tall(placed.stitch.kind), radians(placed.turn)
    return placed.top[0] - high * sin(turn), placed.top[1] + high * cos(turn)


@pytest.mark.parametrize("path", PATTERNS, ids=lambda p: p.parent.name)
def test_as_many_signs_as_the_fabric_has_stitches_each_over_its_own(path: Path) -> None:
    proof = prove(str(path)).files[0].proof
    assert proof is not None
    for key, piece in proof.fabric.pieces.items():
        found, drawn = laid_out(piece)
        made = sum(
            sum(s.kind != "sk" for s in laid(round_)) * round_.rounds for round_ in piece.rounds
        )
        assert sum(course.symbols for course in found) == made
        signs = sum(len(s.founded) + sum(len(line.placed) for line in s.lines) for s in drawn)
        assert signs == made
        assert shown(file_of(proof, sheet_of(proof, key))) == made
        for section in drawn:
            for line in section.lines:
                for placed in line.placed:
                    reaches(placed, f"{key} R{line.course.number}")


def shown(svg: str) -> int:
    """The signs in the groups of rounds: one element each."""
    root = ElementTree.fromstring(svg)
    name = "{http://www.w3.org/2000/svg}"
    groups = [g for g in root.iter(f"{name}g") if g.get("stroke-width") == "1.8"]
    signs = sum(len([e for e in g if e.tag in (f"{name}use", f"{name}path")]) for g in groups)
    return signs - len(root.findall(f"{name}g[@stroke-width='1.8']"))  # those of the key


def reaches(placed: Placed, where: str) -> None:
    if len(placed.feet) == 1:
        foot = foot_of(placed)
        assert hypot(foot[0] - placed.feet[0][0], foot[1] - placed.feet[0][1]) <= REACH, where
    for foot in placed.feet[1:] and placed.feet:
        far = hypot(placed.top[0] - foot[0], placed.top[1] - foot[1])
        assert far <= tall(placed.stitch.kind) + REACH, where


@pytest.mark.parametrize("path", PATTERNS, ids=lambda p: p.parent.name)
def test_a_stitch_is_led_to_the_very_stitches_it_goes_into(path: Path) -> None:
    """By the hook's own account (`laid`), where a round goes into all of the one before."""
    proof = prove(str(path)).files[0].proof
    assert proof is not None
    looked_at = 0
    for piece in proof.fabric.pieces.values():
        _, drawn = laid_out(piece)
        for section in drawn:
            for under, line in zip(section.lines, section.lines[1:], strict=False):
                course = line.course
                plain = all(s.number for s in under.course.stitches)
                if course.ground is not Ground.BELOW or course.back or not plain:
                    continue
                for placed in line.placed:
                    feet = [f.number for f in placed.stitch.feet if f.into is Into.STITCH]
                    if len(feet) == len(placed.feet) and course.room == len(under.placed):
                        assert list(placed.feet) == [under.placed[n - 1].up for n in feet]
                        looked_at += 1
    if path.parent.parent.name == "patterns":
        assert looked_at > 100


@pytest.mark.parametrize("path", PATTERNS[::6], ids=lambda p: p.parent.name)
def test_a_chart_is_the_same_each_time_and_well_formed(path: Path) -> None:
    proof = prove(str(path)).files[0].proof
    again = prove(str(path)).files[0].proof
    assert proof is not None and again is not None
    for key in proof.fabric.pieces:
        svg = file_of(proof, sheet_of(proof, key))
        assert svg == file_of(again, sheet_of(again, key))
        ids = re.findall(r' id="([^"]+)"', svg)
        assert len(ids) == len(set(ids))
        uses = set(re.findall(r'href="#([^"]+)"', svg))
        assert uses <= set(ids)
        assert "style=" not in svg and "nan" not in svg and "inf" not in svg


BALL = """terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: (sc, inc) x 6 (18)
    R4: (sc, dec) x 6 (12)
    Fasten off.
"""


def ball() -> Proof:
    proof, _ = proved(BALL)
    assert proof is not None
    return proof


def test_a_small_chart() -> None:
    """As it is written, so that a change of it can be read."""
    proof = ball()
    svg = file_of(proof, sheet_of(proof, "body"))
    golden = Path(__file__).with_name("ball.svg")
    assert svg.replace("><", ">\n<") == golden.read_text("utf-8")


def test_what_a_chart_says_in_words() -> None:
    sheet = sheet_of(ball(), "body")
    assert sheet.drawing.title == "Chart of Body: 4 rounds, 48 stitches."
    assert sheet.words == (
        "R1: 6 sc in magic ring (6).",
        "R2: inc x 6 (12).",
        "R3: (sc, inc) x 6 (18).",
        "R4: (sc, dec) x 6 (12).",
    )
    assert "anticlockwise, from the middle outwards" in sheet.caption


def test_a_left_handed_chart_is_the_mirror_image_with_words_that_can_be_read() -> None:
    proof = ball()
    right, left = sheet_of(proof, "body"), sheet_of(proof, "body", mirrored=True)
    assert "clockwise, from the middle" in left.caption and "anti" not in left.caption
    places = [
        [(int(x), int(y)) for x, y in re.findall(r"translate\((-?\d+) (-?\d+)\)", each)]
        for each in (file_of(proof, right), file_of(proof, left))
    ]
    signs = [sorted(set(each)) for each in places]
    assert [(-x, y) for x, y in signs[0] if (-x, y) in signs[1]]
    assert "scale(" not in file_of(proof, left)


def test_every_sign_has_its_line_in_the_key() -> None:
    svg = file_of(ball(), sheet_of(ball(), "body"))
    said = " ".join(re.findall(r">([^<>]+)</text>", svg))  # long ones have two lines
    for words in (
        "single crochet (UK: double crochet)",
        "single crochet (UK: double crochet), one over 2 stitches",
        "the work begins",
        "the work ends, the yarn is cut",
    ):
        assert words in said


def big() -> str:
    """A ball of more than 3,000 stitches, up to 84 in a round."""
    rounds = ["R1: 6 sc in magic ring (6)", "R2: inc x 6 (12)"]
    rounds += [f"R{n}: ({n - 2} sc, inc) x 6 ({6 * n})" for n in range(3, 15)]
    rounds += ["R15-R36: sc around (84)"]
    rounds += [f"R{37 + 13 - n}: ({n - 1} sc, dec) x 6 ({6 * n})" for n in range(13, 1, -1)]
    lines = "\n".join(f"    {line}" for line in [*rounds, "R49: dec x 6 (6)"])
    return f"terms: US\npieces:\n  body: |\n{lines}\n"


def test_a_chart_of_three_thousand_stitches_is_light() -> None:
    proof, findings = proved(big())
    assert proof is not None
    assert not [f for f in findings if f.severity == "error"]
    assert (proof.fabric.pieces["body"].stitches or 0) >= 3000
    svg = file_of(proof, sheet_of(proof, "body"))
    assert len(gzip.compress(svg.encode(), 9, mtime=0)) <= 40_000


@pytest.mark.parametrize(
    "rounds",
    [
        "R1: 6 sc in magic ring (6)\n    R2: 5 pfd in each (30)",  # a round that cannot be read
        "R1: 6 sc in magic ring (6)\n    R2-R900000: sc around (6)",  # too many to draw
        "R1: 10000000 sc in magic ring",
    ],
)
def test_what_cannot_be_drawn_has_no_chart(rounds: str) -> None:
    proof, _ = proved(f"terms: US\npieces:\n  body: |\n    {rounds}\n")
    assert proof is not None
    piece = proof.fabric.pieces["body"]
    assert lay_out(piece, {}) is None


@pytest.mark.parametrize(
    "rounds",
    [
        "R1: 6 sc in magic ring (6)\nR2: 9 sc (9)",  # more than there are
        "R1: 6 sc in magic ring\nR2: 3 sc, sk 3",
        "R1: sc in magic ring (1)\nR2: inc (2)",
        "R1: ch 12",
        "R1: ch 12\nR2: ch 4, sk 3, sc in next ch",
        "R1: 6 sc in magic ring\nR2: sk 6\nR3: 6 sc",
        "R1: 6 sc in magic ring\nR2: (ch 20, sl st in 2nd ch from hook and in next 18 ch, sc) x 6",
        "R1: 8 dc in magic ring\nR2: 20 dc in next st, sk 6, sc",
    ],
)
def test_any_round_that_reads_is_drawn(rounds: str) -> None:
    piece = one_piece(rounds)
    laid = lay_out(piece, {})
    assert laid is not None
    found = chart(laid, {}, Terms.US, str, {})
    svg = write_file(found.drawing, looks({}))
    ElementTree.fromstring(svg)
    assert "nan" not in svg


def test_names_are_escaped() -> None:
    proof, _ = proved(BALL.replace("body:", "'<b>&\"':"))
    assert proof is not None
    (key,) = proof.fabric.pieces
    svg = file_of(proof, sheet_of(proof, key))
    assert "<b>" not in svg
    ElementTree.fromstring(svg)
