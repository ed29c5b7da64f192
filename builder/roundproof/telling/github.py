"""Findings as workflow commands, which show up as annotations beside the lines of a change."""

from __future__ import annotations

from roundproof.checks.results import Results
from roundproof.findings import Finding, Severity

_COMMANDS = {Severity.ERROR: "error", Severity.WARNING: "warning", Severity.NOTE: "notice"}


def told(results: Results) -> str:
    """One line a finding, those set aside left out."""
    return "".join(_line(finding) + "\n" for finding in results.findings if not finding.accepted)


def _line(finding: Finding) -> str:
    line, column = finding.span.begins
    end_line, end_column = finding.span.ends
    where: dict[str, object] = {"file": finding.span.source.name, "line": line, "endLine": end_line}
    if end_line == line:  # columns are understood within one line only
        where |= {"col": column, "endColumn": max(end_column, column)}
    where["title"] = _title(finding)
    properties = ",".join(f"{key}={_property(str(value))}" for key, value in where.items())
    text = _escaped(f"{finding.message} {finding.mend}".strip())
    return f"::{_COMMANDS[finding.severity]} {properties}::{text}"


def _title(finding: Finding) -> str:
    """The check, with the piece and the round, since a change may not show the piece's name."""
    place = " ".join(word for word in (finding.piece, finding.round) if word)
    return f"{finding.check}: {place}" if place else finding.check


def _escaped(text: str) -> str:
    """A text as the rules of workflow commands want the part behind the last colons."""
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    """The same for a property, which a comma or a colon would end."""
    return _escaped(text).replace(":", "%3A").replace(",", "%2C")
