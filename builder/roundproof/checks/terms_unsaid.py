"""Stitches whose names mean one thing in US and another in UK terms, and no word of which."""

from __future__ import annotations

from roundproof.checks._rounds import worked_rounds
from roundproof.checks.base import Check, Found, quoted
from roundproof.findings import Severity
from roundproof.notation.tree import Stitches
from roundproof.notation.units import every_stitch
from roundproof.pattern.model import Status
from roundproof.proof import Proof
from roundproof.reference import stitches


def _run(proof: Proof) -> Found:
    pattern = proof.pattern
    if pattern.terms is not None or any(f.span.text == "terms" for f in proof.reading):
        return
    found = _two_ways(proof)
    if found is None:
        yield CHECK.finding(
            pattern.span,
            "The file does not say its `terms`: the rounds are read in US terms.",
            "Write `terms: US` or `terms: UK`.",
            severity=_weight(pattern.status is Status.PUBLISHED),
        )
        return
    key, label, item = found
    yield CHECK.finding(
        item.span,
        f"{quoted(item.span.text)} is one stitch in US terms and another in UK terms, and the"
        " pattern does not say which; it is read as US.",
        "Write `terms: US` or `terms: UK` at the top.",
        severity=_weight(pattern.status is not Status.DRAFT),
        piece=key,
        round=label,
    )


def _two_ways(proof: Proof) -> tuple[str, str, Stitches] | None:
    """The first stitch whose name both terms use, with its piece and round; None where a name that
    only one of them has tells them apart, or none depends on it."""
    first: tuple[str, str, Stitches] | None = None
    for piece, _, worked in worked_rounds(proof):
        for item in every_stitch(worked.instruction.items if worked.instruction else ()):
            for kind, _ in item.unit.makes if not item.unit.word else ():
                if kind in _TELLING:
                    return None  # `sc` and `hdc` are US names alone
                if kind in _BOTH and first is None:
                    first = (piece.piece.key, worked.label, item)
    return first


def _weight(grave: bool) -> Severity:
    """Never a mere note: without terms a pattern may be wrong from its first stitch on."""
    return Severity.ERROR if grave else Severity.WARNING


_TELLING = frozenset({"sc", "hdc", "esc"})
_BOTH = frozenset(kind.id for kind in stitches().values() if kind.us_name != kind.uk_name)


_PATTERN = """\
title: Pebble
{}pieces:
  body: |
    R1: 6 dc in magic ring (6)
    R2: 2 dc in each st (12)
"""

CHECK = Check(
    id="terms-unsaid",
    title="US or UK terms not said",
    why=(
        "`dc` is a double crochet in US terms and the short single crochet of others in UK terms;"
        " `tr` likewise. Nothing in such a round tells them apart, and the object comes out at"
        " half the height or at twice. Without `terms:` rounds are read in US terms."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format(""),
    good=_PATTERN.format("terms: UK\n"),
    source="US/UK term table, seen in three or more independent places",
    run=_run,
)
