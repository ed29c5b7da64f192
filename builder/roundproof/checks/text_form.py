"""Rounds in a form in which their places cannot be told."""

from __future__ import annotations

from roundproof.checks.base import Check
from roundproof.findings import Severity

_BAD = """\
title: Pebble
terms: US
pieces:
  body: >
    R1: 6 sc in magic ring (6)
"""

_GOOD = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
"""

CHECK = Check(
    id="text-form",
    title="Rounds not written after a bar",
    why=(
        "Rounds are plain lines after `|`. There every sign stands for itself, notes can be "
        "pasted in as they are, and a finding can point at the very words. Written as keys, in "
        "quotes or after `>`, lines run together and places are lost."
    ),
    severity=Severity.ERROR,
    bad=_BAD,
    good=_GOOD,
    source="the form of the pattern file",
)
