"""The preview's overview: all patterns, what is to be said of each, what is still to be settled."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from roundproof.checks.results import Result, Summary, summary
from roundproof.frozen import dataclass
from roundproof.pages.pattern_folder import Listing, Unread
from roundproof.testers.progress import Progress
from roundproof.words import count

ADDRESS = "overview.html"


@dataclass(frozen=True, slots=True)
class Row:
    """A pattern. `status` is empty where its file cannot be read; `home` is its folder's address,
    with the tester copy if `tested`. `found` counts its findings in words; `reports` tells how far
    its test is, in lines of a few words."""

    title: str
    file: str
    home: str
    status: str
    tested: bool
    found: str
    errors: int
    open: tuple[str, ...]
    reports: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Overview:
    """Patterns by title; `said` is what there is to say of other files, `told` counts all."""

    rows: tuple[Row, ...]
    said: tuple[Unread, ...]
    warned: tuple[str, ...]
    told: str


def overview(
    patterns: Iterable[tuple[Result, Listing]], said: tuple[Unread, ...], warned: tuple[str, ...]
) -> Overview:
    """`warned` is what the site's host warns of in the hand-written pages."""
    those = sorted(patterns, key=lambda one: (one[1].title.casefold(), one[1].address))
    findings = tuple(finding for result, _ in those for finding in result.findings)
    told = f"{count('pattern', len(those))}: {_in_words(summary(findings))}."
    return Overview(tuple(_row(*one) for one in those), said, warned, told)


def _row(result: Result, listing: Listing) -> Row:
    status, found = result.status, result.summary
    return Row(
        listing.title,
        listing.name,
        listing.address,
        status.value if status else "",
        status is not None,
        _in_words(found),
        found.errors,
        listing.open,
        tuple(_test(listing.progress)) if listing.progress else (),
    )


def _test(so_far: Progress) -> Iterator[str]:
    if so_far.reports:
        yield f"{count('report', so_far.reports)}, {so_far.holding} for this version"
        yield f"{count('correction', so_far.open)} open" if so_far.open else "no correction open"
    if so_far.errors:
        yield f"{count('error', so_far.errors)} in what came back"


def _in_words(found: Summary) -> str:
    counts = (("error", found.errors), ("warning", found.warnings), ("note", found.notes))
    aside = [f"{found.accepted} set aside"] if found.accepted else []
    return ", ".join([*(count(what, n) for what, n in counts if n), *aside]) or "nothing"
