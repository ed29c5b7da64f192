"""A page a check, made of the check's own file: why, what sets it off, what does not, source."""

from __future__ import annotations

from markupsafe import Markup

from roundproof.checks import all_checks
from roundproof.checks.base import Check
from roundproof.frozen import dataclass
from roundproof.pages.prose import prose


@dataclass(frozen=True, slots=True)
class CheckPage:
    """`severity` is the heaviest it reports; `bad` and `good` are whole pattern files."""

    id: str
    title: str
    severity: str
    why: Markup
    bad: str
    good: str
    source: str
    address: str


def check_pages() -> tuple[CheckPage, ...]:
    """The pages of all checks, by id."""
    return tuple(_page(check) for check in all_checks().values())


def check_address(id: str) -> str:
    return f"checks/{id}.html"


def _page(check: Check) -> CheckPage:
    return CheckPage(
        check.id,
        check.title,
        str(check.severity),
        prose(check.why),
        check.bad.strip("\n"),
        check.good.strip("\n"),
        check.source,
        check_address(check.id),
    )
