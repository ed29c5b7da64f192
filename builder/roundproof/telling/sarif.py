"""Findings in SARIF 2.1.0, the OASIS format for results of analysis tools."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from roundproof import __version__
from roundproof.checks import all_checks
from roundproof.checks.base import Check
from roundproof.checks.results import Results
from roundproof.telling.json_ import dumped
from roundproof.telling.sarif_result import LEVELS, ROOT, notification, result_values
from roundproof.words import say

SCHEMA = (
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
)


def told(results: Results, site: str = "") -> str:
    """One run with all findings; columns count code points. With the address of a `site`, each
    check leads to its page there."""
    return dumped({"$schema": SCHEMA, "version": "2.1.0", "runs": [_run(results, site)]})


def _run(results: Results, site: str) -> dict[str, Any]:
    used = {finding.check for finding in results.findings}
    checks = [check for id, check in all_checks().items() if id in used]
    places = {check.id: place for place, check in enumerate(checks)}
    return {
        "tool": {
            "driver": {
                "name": "Roundproof",
                "version": __version__,
                "semanticVersion": __version__,
                "rules": [_rule(check, site) for check in checks],
            }
        },
        "invocations": [_invocation(results, places)],
        "originalUriBaseIds": {ROOT: {"description": {"text": say("sarif.root")}}},
        "columnKind": "unicodeCodePoints",
        "results": [each for file in results.files for each in result_values(file, places)],
    }


def _rule(check: Check, site: str) -> dict[str, Any]:
    source = say("explain.source", source=check.source)
    more = say("sarif.more", check=check.id)
    rule = {
        "id": check.id,
        "shortDescription": {"text": check.title},
        "fullDescription": {"text": check.why},
        "help": {
            "text": f"{check.why}\n\n{source}\n\n{more}",
            "markdown": f"{check.why}\n\n{source}\n\n{more}",
        },
        "defaultConfiguration": {"level": LEVELS[check.severity]},
    }
    return rule | ({"helpUri": f"{site}checks/{check.id}.html"} if site else {})


def _invocation(results: Results, places: Mapping[str, int]) -> dict[str, Any]:
    """Whether every file could be used, and what was in the way with those that could not."""
    faults = [finding for file in results.unusable for finding in file.findings]
    values: dict[str, Any] = {"executionSuccessful": not results.unusable}
    if faults:
        values["toolExecutionNotifications"] = [notification(each, places) for each in faults]
    return values
