"""Hazards are seen by what is declared and by the names of things, and have to be named."""

from __future__ import annotations

import pytest

from proving import proved
from roundproof.findings import Severity
from roundproof.reference.hazards import Hazard, declared, hazards, hazards_of

PATTERN = """\
title: Pebble
terms: US
status: STATUS
notions:
  - {item: ITEM, hazard: HAZARD}
pieces:
  body: |
    R1: 6 sc in magic ring (6)
assembly:
  - insert: {item: ITEM, piece: body}
"""


def notes(item: str, hazard: str = "", note: str = "", status: str = "draft") -> list[str]:
    text = PATTERN.replace("STATUS", status).replace("ITEM", item)
    text = text.replace(", hazard: HAZARD", f", hazard: {hazard}" if hazard else "")
    if note:
        text += f"safety:\n  note: {note}\n"
    _, findings = proved(text)
    return [f"{f.severity}: {f.message}" for f in findings if f.check == "safety-note"]


# Common practice, no source, which things bring which hazard.
@pytest.mark.parametrize(
    ("item", "hazard"),
    [
        ("safety eyes", "small part"),
        ("glass beads", "small part"),
        ("Pom-poms", "small part"),
        ("florist's wire", "sharp end"),
        ("pipe cleaners", "sharp end"),
        ("disc magnets", "magnet"),
        ("hanging loop", "cord"),
        ("cotton cord", "cord"),
        ("button cells", "battery"),
        ("plastic pellets", "weight"),
        ("hot glue", "glue"),
        ("hot glue", "hot tool"),
        ("heat gun", "hot tool"),
    ],
)
def test_a_thing_is_known_by_its_name(item: str, hazard: str) -> None:
    assert hazard in [h.id for h in hazards_of(item)]
    assert notes(item)


# US 16 CFR 1501.4(b)(2): paper, fabric, yarn, fuzz, elastic and string are no small parts.
@pytest.mark.parametrize(
    "item", ["embroidered eyes", "felt eyes", "yarn pompom", "crocheted beads"]
)
def test_what_is_all_textile_is_no_small_part(item: str) -> None:
    assert notes(item) == []


@pytest.mark.parametrize(
    "item", ["tapestry needle", "needle with a large eye", "wire cutters", "pins"]
)
def test_tools_stay_outside_the_object(item: str) -> None:
    assert hazards_of(item) == ()


def test_a_declared_hazard_counts_where_the_name_tells_nothing() -> None:
    assert notes("teething ring") == []
    assert "small part" in notes("teething ring", "small parts")[0]


def test_a_hazard_in_the_designers_own_words_has_to_be_named_in_those_words() -> None:
    assert declared("mould spores").id == "mould spores"
    assert notes("moss", "mould spores", "Moss can carry mould spores.") == []
    assert "mould spores" in notes("moss", "mould spores", "Moss is damp.")[0]


@pytest.mark.parametrize("hazard", hazards(), ids=lambda hazard: hazard.id)
def test_our_own_line_names_the_hazard_and_young_children(hazard: Hazard) -> None:
    assert "young children" in hazard.warns
    assert hazard.named_in(hazard.warns)


def test_a_note_about_something_else_is_not_enough() -> None:
    (said,) = notes("magnets", note="Wash by hand.")
    assert said == "note: The safety note does not name the hazard of `magnets`: magnet."


def test_each_hazard_that_the_note_leaves_out_is_told() -> None:
    assert len(notes("magnet buttons", note="Wash by hand.")) == 2
    assert len(notes("magnet buttons", note="The magnets must stay inside.")) == 1


@pytest.mark.parametrize(("status", "severity"), [("draft", "note"), ("testing", "error")])
def test_it_weighs_an_error_from_testing_on(status: str, severity: str) -> None:
    (said,) = notes("magnets", status=status)
    assert said.startswith(f"{Severity(severity)}: ")


def test_what_is_glued_on_calls_for_a_note_too() -> None:
    text = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
  foot: |
    R1: 6 sc in magic ring (6)
assembly:
  - join: {edge: foot, to: body, by: glue}
"""
    _, findings = proved(text)
    assert "glue" in next(f.message for f in findings if f.check == "safety-note")


JOINED = """\
title: Pebble
status: testing
terms: US
summary: SUMMARY
safety: {note: "NOTE"}
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    Note: REMARK
"""


def told(remark: str = "", summary: str = "A stone.", note: str = "Sew all on well.") -> list[str]:
    text = JOINED.replace("SUMMARY", summary).replace("NOTE", note)
    _, findings = proved(text.replace("REMARK", remark or "Work tightly."))
    return [f"{f.severity} {f.span.text}" for f in findings if f.check == "safety-note"]


# Common practice, no source: what a step tells to use is used, listed or not.
@pytest.mark.parametrize(
    ("remark", "words"),
    [
        ("Wire the legs so that they bend.", "Wire"),
        ("Fix the beak with hot glue.", "glue"),
        ("Push two safety eyes through R1.", "safety eyes"),
        ("Slip a magnet inside.", "magnet"),
        ("Singe the ends of the cord.", "Singe"),
        ("The lamp runs on two button cells.", "button cells"),
    ],
)
def test_a_hazard_that_only_the_words_tell_of_is_asked_for(remark: str, words: str) -> None:
    assert f"warning {words}" in told(remark)


@pytest.mark.parametrize(
    "remark",
    [
        "Do not glue anything.",
        "It stands without wire.",
        "Use embroidered eyes instead of safety eyes.",
        "The nose is sewn, never a safety nose.",
        "A wiry tuft.",
        "Push the filling in with a skewer.",
    ],
)
def test_what_is_said_not_to_be_there_is_not_asked_for(remark: str) -> None:
    assert told(remark) == []


def test_what_the_summary_tells_counts_and_what_the_note_names_is_settled() -> None:
    assert told(summary="A gull on wired legs.") == ["warning wired"]
    assert told(summary="A gull on wired legs.", note="The wire is sharp.") == []


def test_what_may_be_taken_instead_brings_its_hazard_too() -> None:
    text = PATTERN.replace("STATUS", "testing").replace("hazard: HAZARD", "or: safety eyes")
    text = text.replace("ITEM", "embroidered eyes")
    _, findings = proved(text)
    assert [f.span.text for f in findings if f.check == "safety-note"] == ["safety eyes"]


def test_a_testers_copy_cannot_do_without_a_note() -> None:
    text = JOINED.replace('safety: {note: "NOTE"}\n', "").replace("REMARK", "Work tightly.")
    _, findings = proved(text)
    (found,) = [f for f in findings if "safety: note" in f.message]
    assert (found.check, found.severity) == ("value-missing", Severity.ERROR)
