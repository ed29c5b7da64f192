"""Findings as the preview shows them, beside the rounds they concern."""

from __future__ import annotations

import re
from collections.abc import Iterable

from markupsafe import Markup, escape

from roundproof.findings import Finding
from roundproof.frozen import dataclass
from roundproof.pages.check_pages import check_address

_CODE = re.compile(r"`([^`]+)`")


@dataclass(frozen=True, slots=True)
class ShownFinding:
    """`round` is the label as printed ("R4-R6"), `line` that of the file, `words` what the finding
    points at; `address` is the check's page, counted from the site's root."""

    check: str
    severity: str
    message: Markup
    mend: Markup
    piece: str | None
    round: str | None
    line: int
    words: str
    address: str


def shown(findings: Iterable[Finding]) -> tuple[ShownFinding, ...]:
    """The findings that were not set aside, as they stand in the file."""
    return tuple(_row(finding) for finding in findings if not finding.accepted)


def coded(text: str) -> Markup:
    """Plain text with what stands in backquotes set off."""
    return Markup(_CODE.sub(r"<code>\1</code>", str(escape(text))))


def _row(finding: Finding) -> ShownFinding:
    words = finding.span.text.strip()
    return ShownFinding(
        finding.check,
        str(finding.severity),
        coded(finding.message),
        coded(finding.mend),
        finding.piece,
        finding.round,
        finding.span.begins[0],
        words if "\n" not in words and len(words) <= 80 else "",
        check_address(finding.check),
    )
