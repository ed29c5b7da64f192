"""What programs read: JSON, SARIF and annotations."""

from __future__ import annotations

import json
from typing import Any

from proving import proved
from roundproof.checks.results import Result, Results
from roundproof.telling import github, json_, measures, sarif

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
    log: dict[str, Any] = json.loads(sarif.told(results))
    assert log["version"] == "2.1.0"
    (run,) = log["runs"]
    assert run["tool"]["driver"]["name"] == "Roundproof"
    assert run["columnKind"] == "unicodeCodePoints"
    assert {rule["id"] for rule in run["tool"]["driver"]["rules"]} == {
        "count-stated", "file-unusable", "material-unused", "round-unread",
    }  # fmt: skip
    aside, wrong, unused, broken = run["results"]
    assert [each["level"] for each in run["results"]] == ["error", "error", "warning", "error"]
    assert wrong["locations"] == [
        {
            "physicalLocation": {
                "artifactLocation": {"uri": "patterns/pebble/pattern.yaml"},
                "region": {"startLine": 5, "startColumn": 34, "endLine": 5, "endColumn": 36},
            }
        }
    ]
    (replacement,) = wrong["fixes"][0]["artifactChanges"][0]["replacements"]
    assert replacement["insertedContent"] == {"text": "12"}
    assert aside["suppressions"] == [{"kind": "inSource"}]
    assert "suppressions" not in wrong and "fixes" not in unused
    assert broken["message"]["text"] == "The file is empty. Write a pattern into it."


def test_annotations_are_one_line_each_with_signs_escaped(results: Results) -> None:
    assert github.told(results).splitlines() == [
        "::error file=patterns/pebble/pattern.yaml,line=5,col=34,endColumn=36,title=count-stated"
        "::R2 makes 12 stitches, and 13 are stated. Write (12).",
        "::warning file=patterns/pebble/pattern.yaml,line=6,col=11,endColumn=18,"
        "title=material-unused::`magnets` is not used: 100 %25.",
        "::error file=patterns/b/pattern.yaml,line=1,col=1,endColumn=1,title=file-unusable"
        "::The file is empty. Write a pattern into it.",
    ]
