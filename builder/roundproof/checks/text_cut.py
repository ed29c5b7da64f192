"""A value that is cut off where a comment starts."""

from __future__ import annotations

from roundproof.checks.base import Check
from roundproof.findings import Severity

_BAD = """\
title: Pebble #2
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
"""

_GOOD = """\
title: "Pebble #2"  # the second stone
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
"""

CHECK = Check(
    id="text-cut",
    title="Value cut off at a hash sign",
    why=(
        "After a space, `#` starts a comment, and the rest of the line is gone: the shade of a "
        "yarn, the number of a hook, half a sentence. In quotes, or in a text after `|`, it is "
        "a sign like any other. A comment that is meant has a space after its `#`."
    ),
    severity=Severity.ERROR,
    bad=_BAD,
    good=_GOOD,
    source="YAML 1.2, https://yaml.org/spec/1.2.2/",
)
