"""A piece whose name has a meaning where edges are named."""

from __future__ import annotations

from roundproof.checks.base import Check
from roundproof.findings import Severity

_BAD = """\
title: Pebble
terms: US
pieces:
  front: |
    R1: 6 sc in magic ring (6)
"""

_GOOD = """\
title: Pebble
terms: US
pieces:
  panel:
    name: Front
    rounds: |
      R1: 6 sc in magic ring (6)
"""

CHECK = Check(
    id="piece-name",
    title="Name that a piece cannot have",
    why=(
        "Edges are named in words: `upper R6 free front loops`, `foot far side`. A piece called "
        "`front`, or one with `R2` in its name, would make such words mean two things. The page "
        "may call it what it likes: that is said by `name:`."
    ),
    severity=Severity.ERROR,
    bad=_BAD,
    good=_GOOD,
    source="the form of the pattern file",
)
