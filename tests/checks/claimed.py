"""Findings of one check in a short pattern, for the tests of what a pattern claims."""

from __future__ import annotations

from proving import proved
from roundproof.findings import Finding

PATTERN = """\
title: Pebble
terms: US
{more}
pieces:
  body: |
    R1: 6 sc in magic ring (6)
"""


def found(check: str, more: str, files: dict[str, bytes] | None = None) -> list[Finding]:
    _, findings = proved(PATTERN.format(more=more), files)
    return [f for f in findings if f.check == check]


def words(check: str, more: str) -> list[str]:
    return [f.span.text for f in found(check, more)]
