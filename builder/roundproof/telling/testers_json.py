"""Testers' reports for programs: grams, metres, centimetres, hours, to two decimals.

    {"file": the pattern's file, "title", "version": the pattern's,
     "reports": [{"file", "tester", "version", "standing": "current" | "wording" | "stale" |
                  "unknown" | "another pattern", null for one that cannot be read; "counted":
                  whether its figures are; "readable", "started", "finished"}],
     "corrections": [{"place": "claw R4", "piece", "round": null where the pattern has none such,
                      "kind": the gravest, "stumbled": how many testers, "advice": "rewrite" |
                      "judge" | "read", "open",
                      "decision": {"decision", "because", "in"} | null,
                      "again": testers who stumbled there once it was mended,
                      "written": [{"file", "line", "tester", "version", "kind", "about", "read",
                                   "did", "instead", "remark"}]}],
     "yarns": {yarn: {"grams", "metres": spreads, "estimated": {"grams", "metres"},
                      "publish": {"grams", "metres", "balls"}, "by_testers"}},
     "stuffing_g", "gauge": {"slate stitches": …}, "size_cm": {"height": …}, "hours": {"crochet",
     "assembly", "whole"}: each {"low", "median", "high", "testers", "ours": a list of nothing, of
     one figure or of two, from the low to the high one},
     "totals": [{"tester", "piece", "said", "made"}],
     "answers": {"gauge_met", "photos_enough", "difficulty": {answer: how often}},
     "findings": as `check --format json` has them,
     "summary": {"reports", "counted", "testers", "open", "accepted", "declined", "later", "errors",
                 "warnings", "notes"}}

A spread is {"low", "median", "high", "testers"}. Nothing is shortened. What a tester writes is
private: this is for the designer, and is no part of any site.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from roundproof.checks.results import Result, summary
from roundproof.source import Located, Text
from roundproof.telling.json_ import dumped, finding_values
from roundproof.telling.tested import spread_values
from roundproof.testers.corrections import Correction, Written
from roundproof.testers.figures import people
from roundproof.testers.model import Report, Verdict
from roundproof.testers.summary import Amount, Compared, Summary


def told(result: Result, found: Summary) -> str:
    """The whole of what `testers --format json` prints."""
    assert result.proof is not None
    reports = found.reports
    version = result.proof.pattern.version
    return dumped(
        {
            "file": result.name,
            "title": result.title,
            "version": version.value if version else None,
            "reports": [_report(report) for report in reports.reports],
            "corrections": [_correction(each) for each in found.corrections],
            "yarns": {amount.yarn: _amount(amount) for amount in found.amounts},
            "stuffing_g": _compared(found.stuffing) if found.stuffing else None,
            "gauge": _all(found.gauge),
            "size_cm": _all(found.sizes, 10),
            "hours": _all(found.times),
            "totals": [
                {"tester": t.tester, "piece": t.piece, "said": t.said, "made": t.made}
                for t in found.totals
            ],
            "answers": {name: dict(given) for name, given in found.answers.items()},
            "findings": [finding_values(finding) for finding in reports.findings],
            "summary": _summary(found),
        }
    )


def _report(report: Report) -> dict[str, Any]:
    return {
        "file": report.file,
        "tester": _value(report.tester),
        "version": _value(report.version),
        "standing": report.standing.value if report.readable else None,
        "counted": report.standing.holds,
        "readable": report.readable,
        "started": report.started.value.isoformat() if report.started else None,
        "finished": report.finished.value.isoformat() if report.finished else None,
    }


def _correction(each: Correction) -> dict[str, Any]:
    decision = each.decision
    return {
        "place": each.place.words,
        "piece": each.place.piece or None,
        "round": each.place.round or None,
        "kind": each.gravest.value,
        "stumbled": len(each.stumbled),
        "advice": each.advice.value,
        "open": each.open,
        "decision": decision
        and {
            "decision": decision.verdict.value.value,
            "because": _value(decision.because),
            "in": _value(decision.in_),
        },
        "again": list(each.again),
        "written": [_written(one) for one in each.written],
    }


def _written(one: Written) -> dict[str, Any]:
    said = one.note.said
    return {
        "file": one.report.file,
        "line": said.span.begins[0],
        "tester": _value(one.report.tester),
        "version": _value(one.report.version),
        "kind": one.note.kind.value,
        "about": one.note.about or None,
        "read": _value(said.read),
        "did": _value(said.did),
        "instead": _value(said.instead),
        "remark": _value(said.remark),
    }


def _amount(amount: Amount) -> dict[str, Any]:
    return {
        "grams": spread_values(amount.grams),
        "metres": spread_values(amount.metres),
        "estimated": {
            "grams": _two(amount.estimated_grams),
            "metres": _two(amount.estimated_metres),
        },
        "publish": {
            "grams": amount.publish_grams,
            "metres": amount.publish_metres,
            "balls": amount.publish_balls,
        },
        "by_testers": amount.by_testers,
    }


def _all(found: Iterable[Compared], by: float = 1) -> dict[str, Any]:
    return {each.name: _compared(each, by) for each in found}


def _compared(found: Compared, by: float = 1) -> dict[str, Any]:
    spread = spread_values(found.found, by)
    assert spread is not None
    return spread | {"ours": [_two(each / by) for each in found.ours]}


def _summary(found: Summary) -> dict[str, Any]:
    total = summary(found.reports.findings)
    verdicts = [each.decision.verdict.value for each in found.corrections if each.decision]
    return {
        "reports": len(found.reports.reports),
        "counted": len(found.reports.holding),
        "testers": people(found.reports.own),
        "open": found.open,
        **{verdict.value: verdicts.count(verdict) for verdict in Verdict},
        "errors": total.errors,
        "warnings": total.warnings,
        "notes": total.notes,
    }


def _value(said: Located[str] | Text | None) -> str | None:
    return said.value if said else None


def _two(value: float | None) -> float | None:
    return None if value is None else round(value, 2) + 0.0
