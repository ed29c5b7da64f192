"""Findings in SARIF 2.1.0, the OASIS format for results of analysis tools."""

from __future__ import annotations

from typing import Any
from urllib.parse import quote

from roundproof import __version__
from roundproof.checks import all_checks
from roundproof.checks.results import Results
from roundproof.findings import Edit, Finding, Severity
from roundproof.source import Span
from roundproof.telling.json_ import dumped

_LEVELS = {Severity.ERROR: "error", Severity.WARNING: "warning", Severity.NOTE: "note"}


def told(results: Results) -> str:
    """One run with all findings; columns count code points."""
    driver = {"name": "Roundproof", "version": __version__, "rules": _rules(results)}
    run = {
        "tool": {"driver": driver},
        "columnKind": "unicodeCodePoints",
        "results": [_result(finding) for finding in results.findings],
    }
    schema = (
        "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
    )
    return dumped({"$schema": schema, "version": "2.1.0", "runs": [run]})


def _rules(results: Results) -> list[dict[str, Any]]:
    used = dict.fromkeys(finding.check for finding in results.findings)
    known = [check for id, check in all_checks().items() if id in used]
    return [
        {
            "id": check.id,
            "shortDescription": {"text": check.title},
            "fullDescription": {"text": check.why},
            "defaultConfiguration": {"level": _LEVELS[check.severity]},
        }
        for check in known
    ]


def _result(finding: Finding) -> dict[str, Any]:
    result: dict[str, Any] = {
        "ruleId": finding.check,
        "level": _LEVELS[finding.severity],
        "message": {"text": f"{finding.message} {finding.mend}".strip()},
        "locations": [
            {"physicalLocation": {"artifactLocation": _file(finding.span)} | _region(finding.span)}
        ],
    }
    if finding.accepted:
        result["suppressions"] = [{"kind": "inSource"}]
    if finding.edits:
        result["fixes"] = [
            {
                "description": {"text": finding.mend},
                "artifactChanges": [_change(edit) for edit in finding.edits],
            }
        ]
    return result


def _change(edit: Edit) -> dict[str, Any]:
    region = _region(edit.span)["region"]
    replacement = {"deletedRegion": region, "insertedContent": {"text": edit.text}}
    return {"artifactLocation": _file(edit.span), "replacements": [replacement]}


def _file(span: Span) -> dict[str, str]:
    return {"uri": quote(span.source.name)}


def _region(span: Span) -> dict[str, Any]:
    line, column = span.begins
    end_line, end_column = span.ends
    return {
        "region": {
            "startLine": line,
            "startColumn": column,
            "endLine": end_line,
            "endColumn": end_column,
        }
    }
