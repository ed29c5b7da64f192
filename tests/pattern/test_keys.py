"""Unknown keys, values of the wrong kind, words outside closed lists: each named at its place."""

from __future__ import annotations

import pytest

from loading import BODY, COMPLETE, finding, findings, loaded
from roundproof.findings import Severity


def in_piece(line: str) -> str:
    rounds = "rounds: |\n      R1: 6 sc in magic ring (6)\n"
    return f"terms: US\npieces:\n  body:\n    {line}\n    {rounds}"


def in_yarn(line: str) -> str:
    return f"terms: US\nyarns:\n  slate:\n    {line}\n{BODY}"


def in_join(line: str) -> str:
    return f"terms: US\n{BODY}assembly:\n  - join: {{edge: body, to: body, {line}}}\n"


def test_the_whole_pattern_of_the_tests_has_no_fault() -> None:
    assert findings(COMPLETE) == []


# ---- unknown keys ----
@pytest.mark.parametrize(
    ("text", "right"),
    [
        (f"terms: US\nlicense: x\n{BODY}", "licence"),
        (f"terms: US\nauthor: x\n{BODY}", "designer"),
        (f"terms: US\nfinished size: {{height: 2 cm}}\n{BODY}", "size"),
        (f"Terms: US\n{BODY}", "terms"),
        (f"terms: US\nsumary: x\n{BODY}", "summary"),
        (in_yarn("color: {name: slate}"), "colour"),
        (in_yarn("colors: {sand: '#d9c7a3'}"), "colours"),
        (in_yarn("fiber: cotton"), "fibre"),
        (in_yarn("tension: 23 sts x 25 rounds = 10 cm"), "gauge"),
        (in_yarn("needle: 3 mm"), "hook"),
        (in_piece("open-edge: yes"), "open_edge"),
        (in_piece("quantity: 2"), "make"),
        (in_join("method: whipstitch"), "by"),
        (f"terms: US\n{BODY}assembly:\n  - sew: {{edge: body}}\n", "join"),
        (f"terms: US\n{BODY}photos:\n  - {{image: a.png}}\n", "file"),
    ],
)
def test_an_unknown_key_is_met_with_the_name_that_is_meant(text: str, right: str) -> None:
    found = finding(text)
    assert (found.check, found.severity) == ("key-unknown", Severity.ERROR)
    (edit,) = found.edits
    assert edit.text == right
    assert edit.span == found.span
    assert f"`{right}`" in found.mend


def test_a_misspelt_key_is_not_missed_as_well() -> None:
    text = COMPLETE.replace("licence:", "license:").replace("fibre:", "fiber:")
    assert [f.check for f in findings(text)] == ["key-unknown", "key-unknown"]
    assert loaded(text).licence is None


@pytest.mark.parametrize(
    ("key", "home"),
    [("hook: 3 mm", "a yarn or a piece"), ("make: 2", "a piece"), ("says: x", "a statement")],
)
def test_a_key_in_the_wrong_place_is_told_its_place(key: str, home: str) -> None:
    found = finding(f"terms: US\n{key}\n{BODY}")
    assert found.check == "key-unknown"
    assert home in found.mend


def test_a_key_like_no_other_is_told_what_there_is() -> None:
    found = finding(f"terms: US\nzzz: x\n{BODY}")
    assert "`title`" in found.mend and found.edits == ()


def test_a_finding_in_a_piece_bears_its_name() -> None:
    assert finding(in_piece("makes: 2")).piece == "body"


# ---- wrong kinds ----
@pytest.mark.parametrize(
    ("text", "check", "words", "expects"),
    [
        (in_yarn("hook: 3"), "unit-missing", "3", "a length"),
        (in_yarn("hook: 3 g"), "value-kind", "3 g", "a length"),
        (in_yarn("weight: DK"), "value-kind", "DK", "0 to 7"),
        (in_yarn("ball: 50 g"), "unit-missing", "50 g", "grams and length"),
        (in_yarn("ball: {grams: 50, length: 125}"), "unit-missing", "125", "a length"),
        (in_yarn("gauge: tight"), "value-kind", "tight", "stitches and rounds"),
        (in_yarn("gauge: {stitches: 0, rounds: 2, over: 1 cm}"), "value-kind", "0", "above 0"),
        (in_yarn("balls: a few"), "value-kind", "a few", "a whole number"),
        (in_yarn("letter: AB"), "value-kind", "AB", "one capital letter"),
        (in_yarn("colour: {shade: grey}"), "value-kind", "grey", "a shade"),
        (in_yarn("hook: [3 mm]"), "value-kind", "[3 mm]", "this is a list"),
        (in_yarn("hook: {mm: 3}"), "value-kind", "{mm: 3}", "a group of keys"),
        (in_piece("make: two"), "value-kind", "two", "a whole number"),
        (in_piece("make: 0"), "value-kind", "0", "a whole number"),
        (f"terms: US\ndate: 4.5.2026\n{BODY}", "value-kind", "4.5.2026", "a date"),
        (f"terms: US\nversion: first\n{BODY}", "value-kind", "first", "three numbers"),
        (f"terms: US\nsize: tall\n{BODY}", "value-kind", "tall", "`height`"),
        (f"terms: US\nsize: {{with: rim}}\n{BODY}", "value-kind", "{with: rim}", "no measure"),
        (f"terms: US\nphotos: a.png\n{BODY}", "value-kind", "a.png", "a list"),
        (f"terms: US\nsummary: [a]\n{BODY}", "value-kind", "[a]", "a text"),
        (in_join("at: {up: R2-R4, between: [R2, R3]}"), "value-kind", None, "one of `footprint`"),
        (in_join("around: {apart: 2}"), "value-kind", "{apart: 2}", "a place to count from"),
        (in_join("at: {between: [R2]}"), "value-kind", "[R2]", "a list of 2"),
    ],
)
def test_a_wrong_value_is_told_what_is_expected(
    text: str, check: str, words: str | None, expects: str
) -> None:
    found = finding(text)
    assert (found.check, found.severity) == (check, Severity.ERROR)
    assert words is None or found.span.text == words
    assert expects in found.message


def test_what_a_value_should_be_comes_with_one_way_to_write_it() -> None:
    found = finding(in_yarn("hook: 6"))
    assert found.message == (
        "`hook` should be a length with its unit, and this is `6`: its unit is missing."
    )
    assert found.mend == "Write it like this: `hook: 6 mm`."


def test_a_value_that_can_be_put_right_is() -> None:
    found = finding(f"terms: US\nversion: '1.0'\n{BODY}")
    assert [edit.text for edit in found.edits] == ["1.0.0"]


def test_an_empty_value_is_as_good_as_none() -> None:
    text = f"terms: US\nsummary:\nsize: ~\nopen: null\nnotions: []\nyarns: {{}}\n{BODY}"
    assert findings(text) == []
    assert loaded(text).summary is None


# ---- closed lists ----
@pytest.mark.parametrize(
    ("text", "words", "near"),
    [
        (f"terms: US\nstatus: publshed\n{BODY}", "publshed", "published"),
        (f"terms: US\nlevel: beginner\n{BODY}", "beginner", "basic"),
        (f"terms: american\n{BODY}", "american", "US"),
        (f"terms: us\n{BODY}", "us", "US"),
        (f"terms: US\nshow: all of it\n{BODY}", "all of it", None),
        (f"terms: US\nformat: 2\n{BODY}", "2", None),
        (f"terms: US\nleft_right: makers\n{BODY}", "makers", None),
        (in_piece("worked: in a spiral"), "in a spiral", None),
        (in_piece("worked: joint"), "joint", "joined"),
        (in_piece("open_edge: maybe"), "maybe", None),
        (in_join("by: whip stitch"), "whip stitch", "whipstitch"),
        (in_join("ease: gather"), "gather", "gathered"),
        (in_join("stuffed: after"), "after", None),
        (in_join("fold: double"), "double", None),
        (f"terms: US\n{BODY}assembly:\n  - close: {{edge: body, by: gathr}}\n", "gathr", "gather"),
    ],
)
def test_a_word_outside_its_list_is_met_with_the_nearest(
    text: str, words: str, near: str | None
) -> None:
    found = finding(text)
    assert (found.check, found.span.text) == ("value-unknown", words)
    assert [edit.text for edit in found.edits] == ([near] if near else [])


@pytest.mark.parametrize(("word", "value"), [("yes", True), ("no", False), ("true", True)])
def test_yes_and_no_are_words(word: str, value: bool) -> None:
    (piece,) = loaded(in_piece(f"open_edge: {word}")).pieces
    assert piece.open_edge is not None
    assert piece.open_edge.value is value


# ---- all in one run ----
def test_five_mistakes_give_five_findings() -> None:
    text = (
        COMPLETE.replace("level: easy", "level: simple")
        .replace("fibre:", "fiber:")
        .replace("hook: 3 mm", "hook: 3")
        .replace("2026-05-04", "4.5.2026")
        .replace("care:", "care: Keep dry.\ncare:")
    )
    checks = [f.check for f in findings(text)]
    assert checks == ["value-unknown", "key-unknown", "unit-missing", "key-doubled", "value-kind"]
