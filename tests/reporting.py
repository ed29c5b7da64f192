"""Reports given as texts, read beside the small pattern of tests/testers/planted."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from roundproof.pipeline import prove
from roundproof.proof import Proof
from roundproof.source import Source
from roundproof.testers.against import Against
from roundproof.testers.model import Report, Reports
from roundproof.testers.read import read_report, read_reports
from roundproof.testers.summary import Summary, summed_up

PLANTED = Path(__file__).parent / "testers" / "planted"
HEAD = "pattern: planted\nversion: 1.1.1\n"
"""The least that is a report."""


@cache
def proof() -> Proof:
    """The pattern that the reports are about; its slug is `planted`, its version 1.1.1."""
    (result,) = prove(PLANTED).files
    assert result.proof is not None
    return result.proof


def report(text: str) -> Report:
    """A report as it is read from a file of that text."""
    here = proof()
    return read_report(Source("a.yaml", text), Against(here.pattern, here.fabric))


def folder_of(tmp_path: Path, **files: str) -> Path:
    """A pattern's folder with reports by name, and decisions under that name."""
    (tmp_path / "testers").mkdir(parents=True, exist_ok=True)
    for name, text in files.items():
        (tmp_path / "testers" / f"{name}.yaml").write_text(text, encoding="utf-8")
    return tmp_path


def reports(folder: Path) -> Reports:
    """What is read from a pattern's folder."""
    here = proof()
    return read_reports(folder, here.pattern, here.fabric)


def summary(folder: Path) -> Summary:
    here = proof()
    return summed_up(here.pattern, here.fabric, here.measures, reports(folder))
