"""One file's findings as results of SARIF 2.1.0. Numbers of sections are those of the standard."""

from __future__ import annotations

import json
import os
import re
from collections import Counter
from collections.abc import Mapping
from pathlib import Path, PurePosixPath
from typing import Any
from urllib.parse import quote

from roundproof.checks.results import Result
from roundproof.findings import Edit, Finding, Severity
from roundproof.source import Span

LEVELS = {Severity.ERROR: "error", Severity.WARNING: "warning", Severity.NOTE: "note"}
ROOT = "SRCROOT"
"""What relative addresses count from: the folder the command ran in."""
FINGERPRINT = "checkPlaceWords/v1"
"""Says how the print of a finding is made; another way of making it gets another number."""
_MOST_QUOTED = 200
"""Longer words in question are not quoted: the region says where they are."""
_LINK = re.compile(r"\[(?=[^\[\]]*\]\()")
Values = dict[str, Any]


def result_values(file: Result, places: Mapping[str, int]) -> list[Values]:
    """The findings of one file; `places` says where in the list of rules each check stands."""
    seen: Counter[str] = Counter()
    return [_result(finding, places, seen) for finding in file.findings]


def notification(finding: Finding, places: Mapping[str, int]) -> Values:
    """The same finding as word of what kept the run from its work (3.58)."""
    return {
        "level": LEVELS[finding.severity],
        "message": _message(finding),
        "locations": [_location(finding)],
        "associatedRule": {"id": finding.check, "index": places[finding.check]},
    }


def _result(finding: Finding, places: Mapping[str, int], seen: Counter[str]) -> Values:
    result: Values = {
        "ruleId": finding.check,
        "ruleIndex": places[finding.check],
        "level": LEVELS[finding.severity],
        "message": _message(finding),
        "locations": [_location(finding)],
        "partialFingerprints": {FINGERPRINT: _print(finding, seen)},
    }
    if finding.accepted:
        result["suppressions"] = [_suppression(finding)]
    if finding.edits:
        result["fixes"] = [_fix(finding)]
    return result


def _message(finding: Finding) -> Values:
    """Plain text, in which nothing is to be taken for a link (3.11.6)."""
    said = f"{finding.message} {finding.mend}".strip()
    return {"text": _LINK.sub(r"\\[", said)}


def _print(finding: Finding, seen: Counter[str]) -> str:
    """What a finding is known by while lines move around it and numbers in it change; the same
    words found again in a file are told apart by their order."""
    from hashlib import sha256

    words = " ".join(finding.span.text.split())
    known = json.dumps([finding.check, finding.piece, finding.round, words])
    made = sha256(known.encode("ascii")).hexdigest()[:32]
    seen[made] += 1
    return f"{made}:{seen[made]}"


def _suppression(finding: Finding) -> Values:
    """Set aside in the pattern file, with the designer's reason (3.35)."""
    values = {"kind": "inSource", "status": "accepted"}
    return values | ({"justification": finding.because} if finding.because else {})


def _fix(finding: Finding) -> Values:
    changed: dict[str, list[Edit]] = {}
    for edit in finding.edits:
        changed.setdefault(edit.span.source.name, []).append(edit)
    changes = [
        {
            "artifactLocation": _file(name),
            "replacements": [
                {"deletedRegion": _region(edit.span), "insertedContent": {"text": edit.text}}
                for edit in edits
            ],
        }
        for name, edits in changed.items()
    ]
    described = {"description": {"text": finding.mend}} if finding.mend else {}
    return {**described, "artifactChanges": changes}


def _location(finding: Finding) -> Values:
    span = finding.span
    region = _region(span)
    if 0 < span.end - span.start <= _MOST_QUOTED:
        region["snippet"] = {"text": span.text}
    place = {"artifactLocation": _file(span.source.name), "region": region}
    where = [word for word in (finding.piece, finding.round) if word]
    logical = {"name": where[-1], "fullyQualifiedName": " ".join(where)} if where else None
    return {"physicalLocation": place} | ({"logicalLocations": [logical]} if logical else {})


def _region(span: Span) -> Values:
    line, column = span.begins
    end_line, end_column = span.ends
    return {"startLine": line, "startColumn": column, "endLine": end_line, "endColumn": end_column}


def _file(name: str) -> Values:
    """The address of a file: relative to the root, or whole where it lies outside (3.4). Quoted
    in bytes, since a file may be called by signs that are no text."""
    if Path(name).is_absolute() or ".." in PurePosixPath(name).parts:
        return {"uri": Path(os.path.abspath(name)).as_uri()}
    return {"uri": quote(os.fsencode(name)), "uriBaseId": ROOT}
