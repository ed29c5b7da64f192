"""SARIF held against the schema that the standard publishes, and against what it says in words."""

from __future__ import annotations

import json
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

from jsonschema import Draft4Validator, FormatChecker

SCHEMA = Path(__file__).with_name("published") / "sarif-schema-2.1.0.json"


@cache
def validator() -> Draft4Validator:
    """Addresses are looked at too: a format whose checker is not installed would pass unseen."""
    formats = FormatChecker(["uri", "uri-reference"])
    return Draft4Validator(json.loads(SCHEMA.read_text("utf-8")), format_checker=formats)


def valid_log(text: str) -> dict[str, Any]:
    """The log of a text, which must be valid; AssertionError with every fault in it."""
    log: dict[str, Any] = json.loads(text)
    faults = [f"{list(e.absolute_path)}: {e.message}" for e in validator().iter_errors(log)]
    assert not faults, "\n".join(faults)[:2000]
    (run,) = log["runs"]
    assert list(_faults(run)) == []
    return log


def _faults(run: dict[str, Any]) -> Iterator[str]:
    """What a schema cannot say: indices that lead to their rule, addresses that have a root,
    prints that tell results of a file apart."""
    rules = run["tool"]["driver"]["rules"]
    if len({rule["id"] for rule in rules}) < len(rules):
        yield "a rule stands twice"
    prints = set()
    for result in run["results"]:
        if rules[result["ruleIndex"]]["id"] != result["ruleId"]:
            yield f"{result['ruleId']}: its index leads to another rule"
        (location,) = result["locations"]
        file = location["physicalLocation"]["artifactLocation"]
        absolute = file["uri"].startswith("file:///")
        if absolute == (file.get("uriBaseId") in run["originalUriBaseIds"]):
            yield f"{file}: relative without a root, or whole with one"
        if ".." in file["uri"].split("/"):
            yield f"{file}: leads upwards"
        print_ = (file["uri"], *result["partialFingerprints"].items())
        if print_ in prints:
            yield f"{result['ruleId']}: two results in one file have one print"
        prints.add(print_)
