import json
from collections import defaultdict

import pytest

from rendering import copy_for_testers, elements, proof_of, text_of_page
from roundproof.pages import tester
from roundproof.pages.pattern import pattern_page
from whole_patterns import PEBBLE


@pytest.fixture(scope="module")
def html() -> str:
    return copy_for_testers(PEBBLE)


def test_it_says_what_it_is_and_that_it_is_not_to_be_shared(html: str) -> None:
    words = text_of_page(html)
    assert "Pebble: test copy" in words
    assert "Not for sharing or publishing." in words
    assert "1.2.0" in words and "4 May 2026" in words and "errata@example.org" in words
    assert '<meta name="robots" content="noindex">' in html


def test_every_round_has_a_box_and_room_to_write(html: str) -> None:
    rows = [a["id"] for tag, a in elements(html) if tag == "li" and a.get("class") == "row round"]
    fields = {a.get("name") for tag, a in elements(html) if tag == "textarea"}
    assert len(rows) == 10
    for row in rows:
        assert f"{row}-note" in fields


def test_the_report_asks_for_all_that_testers_tell(html: str) -> None:
    # What testers measure and report: common practice, no single source.
    words = text_of_page(html)
    for asked in (
        "Your name or number", "Please report by", "Version tested",
        "Yarn, fibre, colour", "Put-up", "Before", "After", "You weigh in grams ounces",
        "Hook, mm", "Make of the hook", "Gauge, worked in the round", "Over",
        "You measure in centimetres inches",
        "Was the gauge met?", "Height", "Width", "Length",
        "Measured from where to where", "Crochet", "Assembly", "Stuffing used",
        "What kind?", "wrong count", "cannot go on", "unclear", "typing slip", "suggestion",
        "What you read", "What you did", "Better like this",
        "where did you have to guess?", "Materials that were missing",
        "Abbreviations that were missing", "enough pictures?", "How did it feel?",
        "Hand you hook with", "Reading aids", "front", "side", "back", "detail",
        "May they be shown?", "Name to thank",
    ):  # fmt: skip
        assert asked in words, asked


def test_every_field_has_a_name_that_is_read_out(html: str) -> None:
    labels = {a.get("for") for tag, a in elements(html) if tag == "label"}
    for tag, attributes in elements(html):
        if tag == "textarea" or (tag == "input" and attributes.get("type") == "text"):
            named = attributes.get("aria-label") or attributes.get("id") in labels
            assert named, attributes


def test_each_field_says_where_in_the_file_its_answer_stands(html: str) -> None:
    places = [json.loads(a["data-at"] or "") for _, a in elements(html) if "data-at" in a]
    for place in (
        ["rounds", "upper", "R1"], ["rounds", "upper", "R4-R6"], ["rounds", "foot", "R1"],
        ["stitches", "upper"], ["yarns", "slate", "after"], ["yarns", "chalk", "ball"],
        ["gauge", "chalk", "over"], ["size", "height"], ["size", "points"], ["time", "assembly"],
        ["corrections", 0, "where"], ["pictures", "taken"], ["tester"], ["hand"],
    ):  # fmt: skip
        assert place in places, place


def test_a_colour_of_a_yarn_and_a_round_whose_number_comes_back_have_places_of_their_own() -> None:
    text = PEBBLE.replace(
        '  chalk: {like: slate, colour: {name: chalk, shade: "#eceae4"}}',
        '  chalk: {like: slate, colours: {white: "#eceae4", sand: "#d9c7a3"}}',
    ).replace(
        "      R3: (sc, inc) x 6 (18)\n      Fasten off.",
        "      R1: sc around (12)\n      Fasten off.",
    )
    text = text.replace("Change to chalk", "Change to white").replace("with chalk", "with sand")
    text = text.replace("yarn: chalk", "yarn: white")
    proof = proof_of(text)
    copy = tester.tester_page(proof, pattern_page(proof))
    assert [key for key, _ in copy.yarns] == ["slate", "chalk/white", "chalk/sand"]
    assert copy.remarks["under-r1"] == ("rounds", "under", "R1")
    assert copy.remarks["under-r1-b"] == ("again", "under R1, time 2")


def test_the_boxes_of_the_settings_and_of_the_report_share_no_name(html: str) -> None:
    """Boxes to choose one of, by one name in one form, would take each other's mark away."""
    names = defaultdict[str, set[bool]](set)
    for tag, a in elements(html):
        if tag == "input" and a.get("type") == "radio":
            names[a["name"] or ""].add("data-at" in a or "data-kept" in a)
    assert all(len(where) == 1 for where in names.values()), names


def test_the_form_sends_nothing_anywhere(html: str) -> None:
    (form,) = [attributes for tag, attributes in elements(html) if tag == "form"]
    assert "action" not in form
    assert not [a for _, a in elements(html) if a.get("type") == "submit" or "formaction" in a]
    assert {a.get("type") for tag, a in elements(html) if tag == "button"} == {"button"}
    assert "form-action 'none'" in html


def test_totals_are_those_of_the_rounds() -> None:
    proof = proof_of(PEBBLE)
    copy = tester.tester_page(proof, pattern_page(proof))
    totals = {total.piece: total for total in copy.totals}
    upper = totals["Upper"]
    assert (upper.make, upper.rounds, upper.stitches) == ("1", "8", str(6 + 12 + 18 * 6))
    assert totals["Foot"].make == "3"
    assert copy.hook == "3\u00a0mm"


def test_ids_are_given_once(html: str) -> None:
    ids = [a["id"] for _, a in elements(html) if a.get("id")]
    assert len(ids) == len(set(ids))
