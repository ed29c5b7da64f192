"""The preview's overview: all patterns, what is to be said of each, what is still to be settled."""

from __future__ import annotations

from collections.abc import Iterable

from roundproof.checks.results import Result, Summary
from roundproof.frozen import dataclass
from roundproof.pages.pattern_folder import Listing, Unread

ADDRESS = "overview.html"


@dataclass(frozen=True, slots=True)
class Row:
    """A pattern. `status` is empty where its file cannot be read; `home` is its folder's address,
    with the tester copy if `tested`."""

    title: str
    file: str
    home: str
    status: str
    tested: bool
    findings: Summary
    open: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Overview:
    """Patterns by title; `said` is what there is to say of other files, `total` counts all."""

    rows: tuple[Row, ...]
    said: tuple[Unread, ...]
    warned: tuple[str, ...]
    total: Summary


def overview(
    patterns: Iterable[tuple[Result, Listing]], said: tuple[Unread, ...], warned: tuple[str, ...]
) -> Overview:
    """`warned` is what the site's host warns of in the hand-written pages."""
    rows = sorted(
        (_row(result, listing) for result, listing in patterns),
        key=lambda row: (row.title.casefold(), row.home),
    )
    counts = [row.findings for row in rows]
    total = Summary(
        sum(each.errors for each in counts),
        sum(each.warnings for each in counts),
        sum(each.notes for each in counts),
        sum(each.accepted for each in counts),
    )
    return Overview(tuple(rows), said, warned, total)


def _row(result: Result, listing: Listing) -> Row:
    status = result.status
    return Row(
        listing.title or result.path.parent.name,
        listing.name,
        listing.address,
        status.value if status else "",
        status is not None,
        result.summary,
        listing.open,
    )
