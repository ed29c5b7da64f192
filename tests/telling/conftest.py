"""Results made by hand, so that what is told does not hang on any check."""

from __future__ import annotations

from pathlib import Path

import pytest

from roundproof.checks.results import Result, Results
from roundproof.findings import Edit, Finding, Severity
from roundproof.source import Source

TEXT = """\
title: Pebble
pieces:
  upper: |
      R1: 6 sc in magic ring (6)
      R2: inc in each st around (13)
notions: [magnets]
"""
NAME = "patterns/pebble/pattern.yaml"


def finding(words: str, severity: Severity, check: str, message: str, **more: object) -> Finding:
    start = TEXT.index(words)
    span = Source(NAME, TEXT).span(start, start + len(words))
    return Finding(check, severity, span, message, **more)  # type: ignore[arg-type]


@pytest.fixture
def results() -> Results:
    wrong = finding(
        "13", Severity.ERROR, "count-stated", "R2 makes 12 stitches, and 13 are stated.",
        mend="Write (12).", piece="upper", round="R2",
    )  # fmt: skip
    edit = Edit(wrong.span, "12")
    wrong = Finding(
        wrong.check, wrong.severity, wrong.span, wrong.message, wrong.mend, "upper", "R2", (edit,)
    )
    unused = finding(
        "magnets", Severity.WARNING, "material-unused", "`magnets` is not used: 100 %."
    )
    aside = finding("6 sc", Severity.ERROR, "round-unread", "Unread.", mend="No.", accepted=True)
    broken = Finding(
        "file-unusable", Severity.ERROR, Source("patterns/b/pattern.yaml", "").span(0, 0),
        "The file is empty.", "Write a pattern into it.",
    )  # fmt: skip
    return Results(
        (
            Result(NAME, Path(NAME), None, (aside, wrong, unused)),
            Result("patterns/b/pattern.yaml", Path("b"), None, (broken,), usable=False),
            Result("patterns/c/pattern.yaml", Path("c"), None, ()),
        )
    )
