"""A file that nothing can be made of."""

from __future__ import annotations

from roundproof.checks.base import Check
from roundproof.findings import Severity

_BAD = """\
title: Pebble: a small stone
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
"""

_GOOD = """\
title: "Pebble: a small stone"
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
"""

CHECK = Check(
    id="file-unusable",
    title="File that cannot be read",
    why=(
        "A file has to be readable before anything in it can be checked. Mostly it is one of a "
        "few traps: a colon and a space inside a plain line, a tab where spaces indent, a "
        "quotation mark or a bracket left open, a value that starts with a sign of its own "
        "meaning. Longer texts are best written after `|`, where every sign stands for itself."
    ),
    severity=Severity.ERROR,
    bad=_BAD,
    good=_GOOD,
    source="YAML 1.2, https://yaml.org/spec/1.2.2/",
    final=True,
)
