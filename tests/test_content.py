"""The real content: `patterns/` holds together, and each planted mistake is named at its words.

A folder of tests/planted has one mistake; its row in expected.yaml says which check names it, at
which words, and with what in the message.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

from roundproof.checks import listed_ids
from roundproof.findings import Severity
from roundproof.measure.model import Verdict
from roundproof.pattern.model import Status
from roundproof.pipeline import prove
from roundproof.proof import Proof

ROOT = Path(__file__).parents[1]
PLANTED = ROOT / "tests" / "planted"
EXPECTED: dict[str, dict[str, Any]] = YAML(typ="safe").load(PLANTED / "expected.yaml")
PATTERNS = ("sea-urchin", "moon-jelly", "shore-crab")
FIRST_CHECKS = {
    "count-stated", "count-overrun", "count-leftover", "repeat-divides", "round-order",
    "join-count", "join-fit", "material-unlisted", "material-unused", "safety-note",
    "terms-mixed", "abbreviation-unknown", "photo-missing", "photo-alt",
}  # fmt: skip


def proof_of(folder: Path) -> Proof:
    (result,) = prove(folder).files
    assert result.proof is not None
    return result.proof


# ---- the collection ----
def test_the_collection_is_whole() -> None:
    assert {p.parent.name for p in (ROOT / "patterns").glob("*/pattern.yaml")} == set(PATTERNS)


def test_the_collection_is_without_any_finding() -> None:
    results = prove(ROOT / "patterns")
    assert [(f.check, f.message) for f in results.findings] == []
    assert results.exit_code(fail_on=Severity.NOTE) == 0


@pytest.mark.parametrize("slug", PATTERNS)
def test_every_pattern_is_published_with_every_count_stated(slug: str) -> None:
    proof = proof_of(ROOT / "patterns" / slug)
    assert proof.pattern.status is Status.PUBLISHED
    for piece in proof.fabric.pieces.values():
        for worked in piece.rounds:
            assert worked.round.repeats or worked.stated == worked.made, (slug, worked.label)


@pytest.mark.parametrize("slug", PATTERNS)
def test_every_statement_about_the_animal_has_a_reference(slug: str) -> None:
    specimen = proof_of(ROOT / "patterns" / slug).pattern.specimen
    assert specimen is not None and specimen.statements
    for statement in specimen.statements:
        assert statement.source is not None
        assert 1 <= statement.source.value <= len(specimen.references)


@pytest.mark.parametrize("slug", PATTERNS)
def test_every_piece_stands_for_a_part_that_is_told_of(slug: str) -> None:
    pattern = proof_of(ROOT / "patterns" / slug).pattern
    assert pattern.specimen is not None and pattern.specimen.parts is not None
    stands_for = {p.stands_for.value for p in pattern.pieces if p.stands_for}
    assert stands_for == set(pattern.specimen.parts)


def test_the_urchin_keeps_within_a_stitch_of_the_sphere() -> None:
    # Counts of a sphere of N rounds, 2 (N + 1) sin(i pi / (N + 1)) where stitches are as high as
    # wide: published for N = 12 and found to hold within 1 (crochettycrochet.blogspot.com, 2021).
    from math import pi, sin

    proof = proof_of(ROOT / "patterns" / "sea-urchin")
    made = [w.made for w in proof.fabric.pieces["test"].rounds for _ in range(w.rounds)]
    count = len(made) + 1
    ideal = [2 * count * sin(i * pi / count) for i in range(1, count)]
    assert all(m is not None and abs(m - x) < 1 for m, x in zip(made, ideal, strict=True))


def test_the_moon_jelly_fits_with_unequal_counts() -> None:
    (fit,) = proof_of(ROOT / "patterns" / "moon-jelly").measures.fits
    assert fit.counts == (72, 60)
    assert fit.lengths_mm[0] == pytest.approx(fit.lengths_mm[1])
    assert fit.verdict is Verdict.FITS


def test_the_shore_crab_is_an_oval_on_a_chain() -> None:
    # Oval counts 14, 20, 26, 32 on a chain of 7: offthehookcrochetdesign.com, "oval".
    body = proof_of(ROOT / "patterns" / "shore-crab").fabric.pieces["body"]
    assert [w.made for w in body.rounds[:4]] == [14, 20, 26, 32]


# ---- planted mistakes ----
def test_every_planted_folder_has_a_row() -> None:
    assert {p.parent.name for p in PLANTED.glob("*/pattern.yaml")} == set(EXPECTED)


@pytest.mark.parametrize("name", EXPECTED)
def test_a_planted_mistake_is_named_at_its_words(name: str) -> None:
    row = EXPECTED[name]
    (finding,) = prove(PLANTED / name).findings
    assert finding.check == row["check"]
    assert finding.severity == row.get("severity", "error")
    words = finding.span.text
    assert words.startswith(row["begins"]) if "begins" in row else words == row["words"]
    assert row["says"] in finding.message
    assert row.get("mend", "") in finding.mend
    assert finding.mend
    assert finding.piece == row.get("piece")
    assert finding.round == row.get("round")


@pytest.mark.parametrize("name", EXPECTED)
def test_a_planted_mistake_decides_the_exit_code(name: str) -> None:
    row = EXPECTED[name]
    code = row.get("exit", 1 if row.get("severity", "error") == "error" else 0)
    assert prove(PLANTED / name).exit_code() == code


def test_the_first_checks_are_all_planted() -> None:
    assert {row["check"] for row in EXPECTED.values()} >= FIRST_CHECKS


def test_every_planted_check_is_listed() -> None:
    assert {row["check"] for row in EXPECTED.values()} <= set(listed_ids())
