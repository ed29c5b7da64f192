"""A statement about the specimen that names no reference, or one that is not there."""

from __future__ import annotations

from roundproof.checks.base import Check, Found, missing
from roundproof.findings import Severity
from roundproof.measure.figures import several
from roundproof.proof import Proof
from roundproof.source import Located, Span


def _run(proof: Proof) -> Found:
    specimen = proof.pattern.specimen
    if specimen is None:
        return
    there = len(specimen.references)
    told: list[tuple[str, Span, Located[int] | None]] = [
        ("This statement", statement.says.span, statement.source)
        for statement in specimen.statements
    ]
    if specimen.real_size is not None:
        told.append(("The real size", specimen.real_size.span, specimen.real_size.source))
    for what, span, source in told:
        if source is None:
            yield CHECK.finding(
                span,
                f"{what} names no reference.",
                "Add `source:` with the number of the reference that says so.",
                severity=missing(proof.pattern.status),
            )
        elif not 1 <= source.value <= there:
            are = f"there {'is' if there == 1 else 'are'} {several(there, 'reference')}"
            yield CHECK.finding(
                source.span,
                f"{what} names reference {source.value}, and {are}.",
                "Add the reference under `references`, or correct the number.",
            )


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
specimen:
  statements:
    - {{says: A limpet has one shell., source: {}}}
  references:
    - A. Reader, *Shells of the Shore*, 2019.
"""

CHECK = Check(
    id="reference-missing",
    title="A statement without a reference",
    why=(
        "A crocheted animal in a classroom is believed. Each thing said of the real one has to be"
        " found again in a book, a museum or a register, by whoever doubts it. Whether the"
        " reference says so is for a person to look up; that there is one can be seen from here."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format(2),
    good=_PATTERN.format(1),
    source="common practice, no source",
    run=_run,
)
