"""The folder `testers/` of a pattern, read: every report, whatever is wrong with it, and the
decisions. Nothing raises for what people write, and nothing is left out without a word."""

from __future__ import annotations

import os
from functools import partial
from pathlib import Path

from roundproof.fabric.model import Fabric
from roundproof.findings import Finding, Severity, in_order
from roundproof.frozen import replace
from roundproof.pattern.desk import Desk
from roundproof.pattern.files import read_file, shown
from roundproof.pattern.model import Pattern
from roundproof.pattern.nodes import tree
from roundproof.pattern.schema import place_of
from roundproof.pattern.sorts import A_REPORT
from roundproof.source import Source
from roundproof.testers.against import Against
from roundproof.testers.decisions import read_decisions
from roundproof.testers.model import Decision, Report, Reports, Standing
from roundproof.testers.schema import REPORT

FOLDER = "testers"
DECISIONS_FILE = "decisions.yaml"
ENDINGS = (".yaml", ".yml", ".json")
_PICTURES = (".jpg", ".jpeg", ".png", ".webp", ".heic", ".gif", ".tif", ".tiff", ".avif")


def read_reports(folder: Path, pattern: Pattern, fabric: Fabric) -> Reports:
    """What testers sent back about a pattern whose files lie in `folder`."""
    names, others = _listed(folder / FOLDER)
    held = Against(pattern, fabric)
    reports = [_report(folder / FOLDER / name, held) for name in names if name != DECISIONS_FILE]
    decisions: tuple[Decision, ...] = ()
    found: tuple[Finding, ...] = ()
    if DECISIONS_FILE in names:
        own = (report for report in reports if report.standing is not Standing.OTHER)
        places = {note.place for report in own for note in report.notes}
        decisions, found = read_decisions(folder / FOLDER / DECISIONS_FILE, fabric, places)
    return Reports(tuple(reports), decisions, (*found, *others))


def _listed(folder: Path) -> tuple[list[str], tuple[Finding, ...]]:
    """The files that are read, by name, and what there is to say of the others."""
    try:
        with os.scandir(folder) as entries:
            found = [(e.name, e.is_dir()) for e in entries if not e.name.startswith(".")]
    except FileNotFoundError:
        return [], ()
    except OSError:
        return [], (_passed_over(folder, "The folder cannot be read.", Severity.ERROR, ""),)
    names = sorted(name for name, is_dir in found if not is_dir)
    read = [name for name in names if name.lower().endswith(ENDINGS)]
    odd = (n for n in names if n not in read and not n.lower().endswith(_PICTURES))
    mend = f"A report is a file that ends in `{ENDINGS[0]}`."
    what = "This is no report and no picture, and is not read."
    said = (_passed_over(folder / name, what, Severity.WARNING, mend) for name in odd)
    return read, tuple(said)


def _passed_over(path: Path, message: str, severity: Severity, mend: str) -> Finding:
    span = Source(shown(path), "").span(0, 0)
    return Finding("file-unusable", severity, span, message, mend)


def _report(path: Path, held: Against) -> Report:
    name = shown(path)
    source, findings = read_file(path, name, A_REPORT)
    return _unread(name, findings) if source is None else read_report(source, held)


def read_report(source: Source, held: Against) -> Report:
    """A report of a text that is at hand."""
    root, findings = tree(source, A_REPORT)
    if root is None:
        return _unread(source.name, findings)
    desk = Desk(partial(place_of, whole=REPORT))
    report = held.report(REPORT.fields(root, desk), source, desk)
    return replace(report, findings=tuple(in_order((*findings, *desk.findings))))


def _unread(name: str, findings: tuple[Finding, ...]) -> Report:
    return Report(name, findings[0].span, readable=False, findings=findings)
