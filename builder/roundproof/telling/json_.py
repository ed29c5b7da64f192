"""Findings and worked rounds for programs.

Lines and columns are 1-based and count code points; numbers that could not be had are null.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from roundproof.checks.results import Result, Results
from roundproof.fabric.model import WorkedPiece, WorkedRound
from roundproof.findings import Finding


def told(results: Results) -> str:
    """The whole of what `check --format json` prints."""
    total = results.summary
    return dumped(
        {
            "patterns": [_file(result) for result in results.files],
            "summary": {
                "errors": total.errors,
                "warnings": total.warnings,
                "notes": total.notes,
            },
        }
    )


def dumped(value: Mapping[str, Any]) -> str:
    """JSON of a value, in letters that every console knows."""
    return json.dumps(value, indent=2, allow_nan=False) + "\n"


def _file(result: Result) -> dict[str, Any]:
    return {
        "file": result.name,
        "title": result.title,
        "pieces": result.kept.pieces if result.kept else piece_values(result),
        "findings": [finding_values(finding) for finding in result.findings],
    }


def piece_values(result: Result) -> tuple[dict[str, Any], ...]:
    """The worked pieces of a pattern as plain values."""
    pieces = result.proof.fabric.pieces.values() if result.proof else ()
    return tuple(_piece(worked) for worked in pieces)


def _piece(worked: WorkedPiece) -> dict[str, Any]:
    origin = {"from": worked.of} if worked.of else {}
    rounds = [_round(each) | origin for each in worked.rounds]
    return {"piece": worked.piece.key, "rounds": rounds}


def _round(worked: WorkedRound) -> dict[str, Any]:
    return {
        "label": worked.label,
        "line": worked.round.span.begins[0],
        "available": worked.available,
        "used": worked.used,
        "unworked": worked.unworked,
        "made": worked.made,
        "stated": worked.stated,
    }


def finding_values(finding: Finding) -> dict[str, Any]:
    """A finding as plain values."""
    line, column = finding.span.begins
    end_line, end_column = finding.span.ends
    return {
        "check": finding.check,
        "severity": str(finding.severity),
        "file": finding.span.source.name,
        "line": line,
        "column": column,
        "end_line": end_line,
        "end_column": end_column,
        "piece": finding.piece,
        "round": finding.round,
        "message": finding.message,
        "mend": finding.mend,
        "accepted": finding.accepted,
    }
