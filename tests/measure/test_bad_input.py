"""What cannot be is found, and everything else is measured all the same."""

from __future__ import annotations

import pytest

from measure.made import pattern, piece
from proving import proved
from roundproof.findings import Finding
from roundproof.measure.model import Measures

GOOD = "gauge: 20 sts x 20 rounds = 10 cm"
ROUNDS = ("R1: 6 sc in magic ring (6)", "R2: inc x 6 (12)", "R3: sc around (12)")
JOIN = "join: {edge: a, to: b, by: whipstitch}"


def found(
    a: str, slate: str = GOOD, steps: tuple[str, ...] = (), **more: str
) -> tuple[Measures, list[Finding]]:
    """A piece in question in slate, and a sound one, `b`, in chalk, which is always measured."""
    pieces = {"a": a, "b": piece("chalk", *ROUNDS), **more}
    proof, findings = proved(pattern(pieces, {"slate": slate, "chalk": GOOD}, steps))
    assert proof is not None
    sound = proof.measures.pieces["b"]
    assert sound.height_mm == pytest.approx(7.97, abs=0.01) and not sound.unreliable
    assert proof.measures.yarns["chalk"].metres is not None
    return proof.measures, list(findings)


@pytest.mark.parametrize(
    ("gauge", "word"),
    [
        ('"0 sts x 20 rounds = 10 cm"', "gauge"),
        ('"-3 sts x 20 rounds = 10 cm"', "gauge"),
        ('"20 sts x 0 rounds = 10 cm"', "gauge"),
        ('"20 sts x 20 rounds = 0 cm"', "gauge"),
        ("{stitches: 0, rounds: 20, over: 10 cm}", "stitches"),
        ("{stitches: -4, rounds: 20, over: 10 cm}", "stitches"),
        ("{stitches: .nan, rounds: 20, over: 10 cm}", "stitches"),
        ("{stitches: 20, rounds: .inf, over: 10 cm}", "rounds"),
        ("{stitches: 20, rounds: 20, over: 0 cm}", "over"),
        ("{stitches: 20, rounds: 20, over: -10 cm}", "over"),
    ],
)
def test_a_gauge_that_cannot_be(gauge: str, word: str) -> None:
    measures, findings = found(piece("slate", *ROUNDS), f"gauge: {gauge}", (JOIN,))
    (wrong,) = [f for f in findings if f.check == "value-kind"]
    assert wrong.message.startswith(f"`{word}` should be") and wrong.mend
    assert measures.pieces["a"].height_mm is None
    assert "no gauge" in measures.pieces["a"].unreliable["height"]
    assert measures.fits[0].fit is None


@pytest.mark.parametrize(
    "rounds",
    [
        ("R1: 1000000000 sc in magic ring (1000000000)",),
        ("R1: 6 sc in magic ring (6)", "R2: inc x 1000000000"),
        ("R1: 6 sc in magic ring (6)", "R2: sc around (1000000000)"),
        ("R1: 6 sc in magic ring (6)", "R2: wibble (1000000000)", "R3: sc around (1000000000)"),
    ],
)
def test_a_thousand_million_stitches(rounds: tuple[str, ...]) -> None:
    measures, findings = found(piece("slate", *rounds), steps=(JOIN,))
    assert {"round-unread", "count-stated"} & {f.check for f in findings}
    size = measures.pieces["a"]
    assert size.diameter_mm is None or size.diameter_mm < 100
    assert size.edge_mm is None or size.edge_mm < 100
    assert measures.stuffing_g is not None and measures.stuffing_g < 1


def test_an_edge_joined_to_itself() -> None:
    measures, findings = found(
        piece("slate", *ROUNDS), steps=("join: {edge: a, to: a, by: whipstitch}",)
    )
    (wrong,) = [f for f in findings if f.check == "join-itself"]
    assert wrong.message == "`a` is to be joined to itself, and there is only one `a`."
    assert measures.pieces["a"].height_mm is not None


def test_the_two_sides_of_a_band_may_be_joined() -> None:
    rows = ("Row 1: ch 11, sc in 2nd ch from hook, sc 9, turn (10)", "Row 2: ch 1, sc across (10)")
    step = "join: {edge: a left row ends, to: a right row ends, by: whipstitch}"
    _, findings = found(piece("slate", *rows), steps=(step,))
    assert "join-itself" not in {f.check for f in findings}


def grown(host: str) -> str:
    rounds = ("R1: sc around (12)", "R2: sc around (12)", "R3: sc in BLO around (12)")
    return piece("slate", *rounds, more=f"starts: {{in: {host} R2 free front loops}}")


def test_pieces_that_start_from_each_other() -> None:
    measures, findings = found(grown("c"), c=grown("a"))
    (wrong,) = [f for f in findings if f.check == "start-circle"]
    assert "a from c and c from a" in wrong.message
    assert set(measures.pieces) == {"a", "b", "c"}


def test_a_piece_that_starts_from_itself() -> None:
    _, findings = found(grown("a"))
    (wrong,) = [f for f in findings if f.check == "start-circle"]
    assert wrong.message.startswith("a is to grow from itself")


def test_a_yarn_that_is_not_listed() -> None:
    measures, findings = found(piece("moss", *ROUNDS), steps=(JOIN,))
    assert any(f.check == "material-unlisted" and "`moss`" in f.message for f in findings)
    assert measures.pieces["a"].unreliable["height"] == "no gauge and no weight is given for moss"
    assert measures.hours is not None
