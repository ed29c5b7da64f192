"""An `accept:` entry for a finding that nobody may set aside."""

from roundproof.checks.base import Check
from roundproof.findings import Finding, Severity
from roundproof.pattern.model import Accept

_PATTERN = """\
title: Pebble
terms: US
notions:
  - {item: safety eyes, size: 6 mm, count: 2, hazard: small part}
safety:
  note: The eyes are small parts that can come loose and be swallowed by young children.
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc in each st around (12)
    R3: sc around (12)
assembly:
  - place: {item: safety eyes, piece: body, between: [R2, R3], around: {st: 3, apart: 2}}
"""


def finding(entry: Accept) -> Finding:
    """The finding for an entry that names a check whose findings stand."""
    return CHECK.finding(
        entry.check.span,
        f"Findings of {entry.check.value} cannot be set aside.",
        "Take the entry out and mend what it was meant for.",
    )


CHECK = Check(
    id="accept-final",
    title="A finding that cannot be set aside",
    why=(
        "Most findings are the designer's to judge. A hazard is not: whoever makes the object or"
        " gives it away has to be told, so what concerns safety stands until it is mended."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN + "accept:\n  - {check: safety-note, because: It is obvious from the photos.}\n",
    good=_PATTERN,
    source="common practice, no source",
)
