"""What Roundproof has to say about a pattern: pure data, always with a place."""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum

from roundproof.frozen import dataclass
from roundproof.source import Span


class Severity(StrEnum):
    """How much a finding weighs: an error stops release, a warning and a note do not."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


@dataclass(frozen=True, slots=True)
class Edit:
    """Text to put in the place of a span."""

    span: Span
    text: str


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that is wrong, missing or worth a look.

    `check` is the id of the check (trade words joined by hyphens, never changed). `message` says
    what is wrong with the numbers in it, `mend` what would put it right; both are whole sentences.
    `piece` is the piece's key and `round` the label as printed ("R4-R6"). One that is `accepted`
    is set aside, `because` of the designer's reason.
    """

    check: str
    severity: Severity
    span: Span
    message: str
    mend: str = ""
    piece: str | None = None
    round: str | None = None
    edits: tuple[Edit, ...] = ()
    accepted: bool = False
    because: str = ""


def in_order(findings: Iterable[Finding]) -> list[Finding]:
    """Findings as they stand in their files, the same one only once."""
    unique = dict.fromkeys(findings)
    return sorted(unique, key=lambda f: (f.span.source.name, f.span.start, f.span.end, f.check))
