"""A history whose versions and dates do not go forward, or end elsewhere than the pattern does."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from roundproof.checks.base import Check, Found
from roundproof.findings import Edit, Finding, Severity
from roundproof.pattern.model import Change, Pattern
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    pattern = proof.pattern
    changes = sorted(pattern.changes, key=lambda change: _parts(change.version.value))
    for old, new in pairwise(changes):
        yield from _step(old, new)
    if changes:
        yield from _newest(pattern, changes[-1])


def _step(old: Change, new: Change) -> Iterator[Finding]:
    if _parts(old.version.value) == _parts(new.version.value):
        later = max(old, new, key=lambda change: change.span.start)
        yield CHECK.finding(
            later.version.span,
            f"Version {later.version.value} stands in the history twice.",
            "Give the later change a number of its own: makers compare it with their copy.",
        )
    elif old.date and new.date and new.date.value < old.date.value:
        yield CHECK.finding(
            new.date.span,
            f"Version {new.version.value} is of {new.date.value}, and {old.version.value} before"
            f" it of {old.date.value}.",
            "A later version cannot be older: correct one of the dates.",
        )


def _newest(pattern: Pattern, newest: Change) -> Iterator[Finding]:
    version, date = pattern.version, pattern.date
    if version is not None and _parts(version.value) != _parts(newest.version.value):
        yield CHECK.finding(
            version.span,
            f"The pattern is version {version.value}, and the newest change made"
            f" {newest.version.value}.",
            f"Write `version: {newest.version.value}`, or add what {version.value} changed to"
            " `changes`.",
            edits=(Edit(version.span, newest.version.value),) if version.span.text else (),
        )
    elif date is not None and newest.date is not None and date.value < newest.date.value:
        yield CHECK.finding(
            date.span,
            f"The pattern is of {date.value}, and its newest change of {newest.date.value}.",
            "Correct one of the dates, or leave `date` out: it follows from `changes`.",
        )


def _parts(version: str) -> tuple[int, ...]:
    return tuple(map(int, version.split(".")))


_PATTERN = """\
title: Pebble
version: {}
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
changes:
  - {{version: 1.1.0, date: 2026-05-04, note: "R1 has 6 stitches, not 5."}}
  - {{version: 1.0.0, date: 2026-03-02, note: First edition.}}
"""

CHECK = Check(
    id="history-order",
    title="A history that does not go forward",
    why=(
        "A maker in the middle of a piece looks at one number: is the page newer than the copy on"
        " the table, and does it touch what is worked already? That only works if every version is"
        " there once, later ones have later dates, and the newest is the pattern's own."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format("1.0.0"),
    good=_PATTERN.format("1.1.0"),
    source="common practice, no source",
    run=_run,
)
