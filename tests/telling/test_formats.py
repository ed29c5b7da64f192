"""What programs read: JSON, SARIF and annotations."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from proving import proved
from roundproof.checks.results import Result, Results
from roundproof.findings import Finding, Severity
from roundproof.source import Source
from roundproof.telling import github, json_, measures, sarif
from sarif_schema import valid_log

PEBBLE = """\
title: Pebble
terms: US
yarns:
  slate: {weight: 3, gauge: 20 sts x 20 rounds = 10 cm}
pieces:
  upper:
    yarn: slate
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: inc in each st around (12)
      R3-R5: sc around (12)
      R6: sc 5, leave 7 sts unworked (5)
      R7: blip around (6)
  arm:
    make: 2
    rounds: |
      R1: 6 sc in magic ring (6)
"""


def of(text: str) -> Results:
    proof, findings = proved(text)
    return Results((Result("patterns/p/pattern.yaml", None, proof, findings),))  # type: ignore[arg-type]


def test_json_holds_every_worked_round() -> None:
    (pattern,) = json.loads(json_.told(of(PEBBLE)))["patterns"]
    assert list(pattern) == ["file", "title", "pieces", "findings"]
    assert (pattern["file"], pattern["title"]) == ("patterns/p/pattern.yaml", "Pebble")
    upper = pattern["pieces"][0]
    assert upper["piece"] == "upper"
    names = ["label", "line", "available", "used", "unworked", "made", "stated"]
    assert all(list(each) == names for each in upper["rounds"])
    assert [list(each.values()) for each in upper["rounds"]] == [
        ["R1", 9, 0, 0, 0, 6, 6],
        ["R2", 10, 6, 6, 0, 12, 12],
        ["R3-R5", 11, 12, 12, 0, 12, 12],
        ["R6", 12, 12, 5, 7, 5, 5],
        ["R7", 13, 5, None, 0, None, 6],
    ]


def test_json_holds_every_finding_and_counts_those_not_set_aside(results: Results) -> None:
    told = json.loads(json_.told(results))
    assert told["summary"] == {"errors": 2, "warnings": 1, "notes": 0}
    assert [len(each["findings"]) for each in told["patterns"]] == [3, 1, 0]
    assert told["patterns"][0]["findings"][1] == {
        "check": "count-stated",
        "severity": "error",
        "file": "patterns/pebble/pattern.yaml",
        "line": 5,
        "column": 34,
        "end_line": 5,
        "end_column": 36,
        "piece": "upper",
        "round": "R2",
        "message": "R2 makes 12 stitches, and 13 are stated.",
        "mend": "Write (12).",
        "accepted": False,
    }


def test_json_of_a_file_that_cannot_be_used(results: Results) -> None:
    broken = json.loads(json_.told(results))["patterns"][1]
    assert (broken["title"], broken["pieces"]) == (None, [])


def test_columns_count_code_points() -> None:
    rounds = "    R1: 6 sc in magic ring (6) # 🧶\n    R2: blip\n"
    text = f'title: "🧶é"\nterms: US\npieces:\n  b: |\n{rounds}'
    found = json.loads(json_.told(of(text)))["patterns"][0]["findings"]
    blip = next(each for each in found if each["round"] == "R2")
    assert (blip["line"], blip["column"], blip["end_column"]) == (6, 9, 13)


def test_measures_in_centimetres_to_two_decimals() -> None:
    told = json.loads(measures.told(of(PEBBLE.replace("      R7: blip around (6)\n", ""))))
    (pattern,) = told["patterns"]
    arm, upper = pattern["pieces"]["arm"], pattern["pieces"]["upper"]
    assert (arm["make"], arm["stitches"], arm["rounds"]) == (2, 6, 1)
    assert (upper["stitches"], upper["rounds"]) == (6 + 12 + 36 + 5, 6)
    # 5 stitches of a gauge of 20 to 10 cm
    assert upper["edge_cm"] == 2.5
    assert len(upper["outline"]) == 6
    assert "working" not in json.dumps(told)


def test_what_cannot_be_measured_is_null_and_named() -> None:
    text = PEBBLE + "  band:\n    worked: rows\n    rounds: |\n      Ch 7.\n"
    text += "      Row 1: sc in 2nd ch from hook, 5 sc (6)\n      Row 2: ch 1, turn, 6 sc (6)\n"
    (pattern,) = json.loads(measures.told(of(text)))["patterns"]
    band = pattern["pieces"]["band"]
    assert band["volume_ml"] is None
    assert "rows" in band["unreliable"]["volume_ml"]


def test_how_figures_were_reached_is_told_on_demand() -> None:
    (pattern,) = json.loads(measures.told(of(PEBBLE), working=True))["patterns"]
    assert "20 stitches" in pattern["pieces"]["arm"]["working"]["gauge"]


def test_a_file_that_cannot_be_used_has_no_measures(results: Results) -> None:
    for each in json.loads(measures.told(results))["patterns"]:
        assert (each["pieces"], each["joins"], each["yarns"], each["hours"]) == ({}, [], {}, None)


# SARIF 2.1.0: sections 3.13 (log), 3.14 (run), 3.27 (result), 3.30 (region), 3.35 (suppression)
def test_sarif_has_what_the_standard_asks_for(results: Results) -> None:
    log: dict[str, Any] = valid_log(sarif.told(results))
    assert log["version"] == "2.1.0"
    (run,) = log["runs"]
    assert run["tool"]["driver"]["name"] == "Roundproof"
    assert run["columnKind"] == "unicodeCodePoints"
    assert {rule["id"] for rule in run["tool"]["driver"]["rules"]} == {
        "count-stated", "file-unusable", "material-unused", "round-unread",
    }  # fmt: skip
    aside, wrong, unused, broken = run["results"]
    assert [each["level"] for each in run["results"]] == ["error", "error", "warning", "error"]
    (location,) = wrong["locations"]
    assert location["physicalLocation"] == {
        "artifactLocation": {"uri": "patterns/pebble/pattern.yaml", "uriBaseId": "SRCROOT"},
        "region": {
            "startLine": 5,
            "startColumn": 34,
            "endLine": 5,
            "endColumn": 36,
            "snippet": {"text": "13"},
        },
    }
    (replacement,) = wrong["fixes"][0]["artifactChanges"][0]["replacements"]
    assert replacement["insertedContent"] == {"text": "12"}
    assert aside["suppressions"] == [{"kind": "inSource", "status": "accepted"}]
    assert "suppressions" not in wrong and "fixes" not in unused
    assert broken["message"]["text"] == "The file is empty. Write a pattern into it."


# Annotations: the workflow commands `error`, `warning` and `notice`, as GitHub Actions documents
# them, with `file`, `line`, `endLine`, `col`, `endColumn` and `title`. In the message % and line
# ends are escaped; in a property the colon and the comma as well.
def test_annotations_are_one_line_each_with_signs_escaped(results: Results) -> None:
    assert github.told(results).splitlines() == [
        "::error file=patterns/pebble/pattern.yaml,line=5,endLine=5,col=34,endColumn=36,"
        "title=count-stated%3A upper R2::R2 makes 12 stitches, and 13 are stated. Write (12).",
        "::warning file=patterns/pebble/pattern.yaml,line=6,endLine=6,col=11,endColumn=18,"
        "title=material-unused::`magnets` is not used: 100 %25.",
        "::error file=patterns/b/pattern.yaml,line=1,endLine=1,col=1,endColumn=1,"
        "title=file-unusable::The file is empty. Write a pattern into it.",
    ]


def understood(line: str) -> tuple[str, dict[str, str], str]:
    """A command as it is taken apart by the rules: name, properties and message."""
    signs = {"%0D": "\r", "%0A": "\n", "%3A": ":", "%2C": ",", "%25": "%"}

    def plain(text: str, *known: str) -> str:
        return re.sub("|".join(known), lambda found: signs[found[0]], text)

    command, _, message = line.removeprefix("::").partition("::")
    name, _, rest = command.partition(" ")
    properties = dict(part.split("=", 1) for part in rest.split(","))
    return (
        name,
        {key: plain(value, *signs) for key, value in properties.items()},
        plain(message, "%25", "%0D", "%0A"),
    )


@pytest.mark.parametrize(
    "odd", ["a,b", "a:b", "a::b", "50%", "%0A", "a\nb", "a\r\nb", "a=b", "::error::"]
)
def test_no_sign_in_a_name_or_a_message_ends_an_annotation(odd: str) -> None:
    source = Source(f"patterns/{odd}/pattern.yaml", "one\ntwo\n")
    finding = Finding("count-stated", Severity.NOTE, source.span(1, 5), f"{odd}.", odd, odd, "R2")
    results = Results((Result(source.name, Path(source.name), None, (finding,)),))
    (line,) = github.told(results).removesuffix("\n").split("\n")
    assert "\r" not in line
    properties = {
        "file": f"patterns/{odd}/pattern.yaml",
        "line": "1",
        "endLine": "2",  # over several lines no columns are given: they are not understood there
        "title": f"count-stated: {odd} R2",
    }
    assert understood(line) == ("notice", properties, f"{odd}. {odd}")
