"""A report as it is read: its places, its versions, its decisions, and words of any kind."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reporting import HEAD, folder_of, report, reports
from roundproof.findings import Severity
from roundproof.testers.model import Kind, Standing, Verdict


def test_the_least_is_a_pattern_and_a_version() -> None:
    found = report(HEAD)
    assert (found.findings, found.standing, found.who) == ((), Standing.CURRENT, "a.yaml")


@pytest.mark.parametrize(
    ("version", "standing"),
    [
        ("1.1.1", Standing.CURRENT), ("1.1.0", Standing.WORDING), ("1.0.0", Standing.STALE),
        ("1.2.0", Standing.UNKNOWN), ("0.9.0", Standing.UNKNOWN), ("1.1.2", Standing.UNKNOWN),
    ],
)  # fmt: skip
def test_only_another_big_or_middle_number_makes_a_version_stale(
    version: str, standing: Standing
) -> None:
    found = report(f"pattern: planted\nversion: {version}\n")
    assert found.standing is standing
    assert bool(found.findings) is (standing is Standing.UNKNOWN)


# ---- places ----
@pytest.mark.parametrize(
    ("label", "place"),
    [("R3", "upper R3"), ("r3", "upper R3"), ("Round 3", "upper R3"), ("R4-R6", "upper R4-R6"),
     ("R4–R6", "upper R4-R6"), ("R5", "upper R4-R6"), ("R4-6", "upper R4-R6")],
)  # fmt: skip
def test_a_round_goes_by_the_label_it_is_printed_with(label: str, place: str) -> None:
    found = report(f"{HEAD}rounds: {{upper: {{{label}: Fine.}}}}\n")
    assert found.findings == ()
    assert [note.place.words for note in found.notes] == [place]


@pytest.mark.parametrize(
    ("where", "place"),
    [
        ("under R3", "under R3"), ("Under, round 3", "under R3"), ("UPPER R5", "upper R4-R6"),
        ("under", "under"), ("whole", "whole"), ("Whole", "whole"),
        ("step 2 of the assembly", "step 2 of the assembly"),
    ],
)  # fmt: skip
def test_a_correction_finds_its_place_or_keeps_its_words(where: str, place: str) -> None:
    found = report(f"{HEAD}corrections: [{{where: '{where}', kind: unclear, read: x}}]\n")
    assert found.findings == ()
    assert [note.place.words for note in found.notes] == [place]


def test_pieces_and_yarns_go_by_their_names_too() -> None:
    yarns = "yarns: {slate grey: {before: 3 g, after: 2 g}}"
    text = f"{HEAD}rounds: {{Upper: {{R2: Fine.}}}}\n{yarns}\n"
    found = report(text)
    assert found.findings == ()
    assert found.notes[0].place.piece == "upper" and found.yarns["slate"].grams == 1


def test_a_yarn_told_of_by_two_names_is_counted_once_and_said() -> None:
    yarns = "yarns: {slate: {before: 3 g, after: 2 g}, A: {before: 9 g, after: 2 g}}"
    found = report(f"{HEAD}{yarns}\n")
    (finding,) = found.findings
    assert (finding.check, finding.span.text) == ("key-doubled", "A")
    assert list(found.yarns) == ["slate"] and found.yarns["slate"].grams == 1


def test_plain_words_are_a_remark_and_a_list_holds_several() -> None:
    text = f"{HEAD}rounds:\n  upper:\n    R2: [Fine., {{kind: typing slip, read: aroud}}]\n"
    kinds = [note.kind for note in report(text).notes]
    assert kinds == [Kind.REMARK, Kind.TYPING_SLIP]


# ---- words ----
@pytest.mark.parametrize(
    "words",
    [
        '<script>alert("x")</script>',
        "<b>bold</b> & more",
        "\u202eback",
        "كتلة 12",
        "🦀 claw",
        "{{ x }}",
    ],
)
def test_a_remark_is_text_just_as_it_stands(words: str) -> None:
    found = report(f"{HEAD}guessed: |\n  {words}\n")
    said = found.notes[0].said.remark
    assert found.findings == () and said is not None and said.value == words


@given(st.text(max_size=200))
def test_nothing_raises(text: str) -> None:
    for whole in (
        text,
        HEAD + text,
        f"{HEAD}rounds: {{upper: {{R2: {text}}}}}",
        f"{HEAD}{text}: x",
    ):
        found = report(whole)
        assert found.readable or found.findings


# ---- decisions ----
GOOD = f"{HEAD}tester: '1'\nrounds: {{upper: {{R3: {{kind: unclear, read: x}}, R5: Fine.}}}}\n"


def test_decisions_stand_by_their_places(tmp_path: Path) -> None:
    text = (
        "upper R3: {decision: accepted, because: Yes., in: 1.1.2}\nupper R4-R6: {decision: later}\n"
    )
    found = reports(folder_of(tmp_path, a=GOOD, decisions=text))
    assert found.findings == ()
    assert [d.place.words for d in found.decisions] == ["upper R3", "upper R4-R6"]
    assert [d.verdict.value for d in found.decisions] == [Verdict.ACCEPTED, Verdict.LATER]


@pytest.mark.parametrize(
    ("text", "check", "severity", "says"),
    [
        ("upper R2: {decision: later}", "key-unknown", Severity.WARNING, "No tester wrote about"),
        ("upper R9: {decision: later}", "key-unknown", Severity.ERROR, "There is no R9 in upper"),
        ("claw R3: {decision: later}", "key-unknown", Severity.ERROR, "There is no piece `claw`"),
        ("upper R3: {decision: rejected}", "value-unknown", Severity.ERROR, "cannot be `rejected`"),
        ("upper R3: later", "value-kind", Severity.ERROR, "`decision`"),
        ("upper R3: {decision: later, why: x}", "key-unknown", Severity.ERROR, "`why`"),
        ("upper R4: {decision: later}\nupper R5: {decision: later}", "key-doubled", Severity.ERROR,
         "one place"),
        ("- upper R3", "file-unusable", Severity.ERROR, "does not start with keys"),
    ],
)  # fmt: skip
def test_a_decision_that_cannot_be_used_is_told(
    tmp_path: Path, text: str, check: str, severity: Severity, says: str
) -> None:
    (finding,) = reports(folder_of(tmp_path, a=GOOD, decisions=text)).findings
    assert (finding.check, finding.severity) == (check, severity)
    assert says in finding.message
    assert finding.span.source.name.endswith("testers/decisions.yaml")


def test_a_decision_about_what_nobody_wrote_of_is_kept(tmp_path: Path) -> None:
    found = reports(folder_of(tmp_path, a=GOOD, decisions="upper R2: {decision: later}"))
    assert [d.place.words for d in found.decisions] == ["upper R2"]
