"""An `accept:` entry that sets nothing aside."""

from collections.abc import Iterable

from roundproof.checks.base import Check, quoted
from roundproof.findings import Edit, Finding, Severity
from roundproof.pattern.model import Accept
from roundproof.pattern.near import nearest

_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc in each st around ({count})
"""

_ACCEPT = """\
accept:
  - {check: count-stated, at: body R2, because: The book this goes with prints it so.}
"""


def finding(entry: Accept, checks: Iterable[str]) -> Finding:
    """The finding for an entry that matched none; `checks` are all ids there are."""
    check = entry.check.value
    if check in checks:
        place = f" at {quoted(entry.at.value)}" if entry.at else ""
        return CHECK.finding(
            entry.span,
            f"Nothing is found by `{check}`{place}, so there is nothing to set aside.",
            "Take the entry out, or correct its place if it is meant for another finding.",
        )
    near = nearest(check, checks)
    return CHECK.finding(
        entry.check.span,
        f"There is no check called {quoted(check)}.",
        f"Write `{near}`." if near else "Use the id that stands with the finding.",
        edits=(Edit(entry.check.span, near),) if near else (),
    )


CHECK = Check(
    id="accept-stale",
    title="Nothing to set aside",
    why=(
        "An entry of `accept` says: I know, and I mean it. Once the rounds have changed and the"
        " finding is gone, the entry only waits to hide the next mistake at the same place."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format(count=12) + _ACCEPT,
    good=_PATTERN.format(count=13) + _ACCEPT,
    source="common practice, no source",
)
