"""How far a test is, in numbers: nothing of what anybody wrote."""

from __future__ import annotations

from roundproof.findings import Severity
from roundproof.frozen import dataclass
from roundproof.testers.corrections import corrections
from roundproof.testers.model import Reports


@dataclass(frozen=True, slots=True)
class Progress:
    """Reports that came in, those of them whose figures hold for the pattern as it is, places that
    wait for a decision, and errors in the files."""

    reports: int
    holding: int
    open: int
    errors: int


def progress(reports: Reports) -> Progress:
    return Progress(
        len(reports.reports),
        len(reports.holding),
        sum(each.open for each in corrections(reports)),
        sum(finding.severity is Severity.ERROR for finding in reports.findings),
    )
