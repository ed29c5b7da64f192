"""A reference that nothing said of the specimen rests on."""

from __future__ import annotations

import re

from roundproof.checks.base import Check, Found
from roundproof.findings import Severity
from roundproof.pattern.model import Specimen
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    specimen = proof.pattern.specimen
    if specimen is None or _amiss(specimen):
        return
    used = _used(specimen)
    for number, reference in enumerate(specimen.references, start=1):
        if number not in used and not (specimen.scientific and _of_names(reference.value)):
            yield CHECK.finding(
                reference.span,
                f"Nothing names reference {number}.",
                f"Say what it is for, with `source: {number}`, or take it out.",
            )


def _of_names(reference: str) -> bool:
    """Whether a reference is a list of species, which the scientific name rests on."""
    low = reference.lower()
    return any(word in low for word in ("register", "checklist", "catalogue", "database", "taxon"))


def _amiss(specimen: Specimen) -> bool:
    """Whether a statement names none, or one that is not there: then that is to be put right."""
    there = range(1, len(specimen.references) + 1)
    sources = [statement.source for statement in specimen.statements]
    sources += [specimen.real_size.source] if specimen.real_size else []
    return any(source is None or source.value not in there for source in sources)


def _used(specimen: Specimen) -> set[int]:
    """Numbers given as sources, and those in brackets in the text: 'the mouth is below [2]'."""
    given = {s.source.value for s in specimen.statements if s.source}
    if specimen.real_size and specimen.real_size.source:
        given.add(specimen.real_size.source.value)
    texts = [*(specimen.parts or {}).values(), *specimen.simplified]
    texts += [statement.says for statement in specimen.statements]
    return given | {int(n) for text in texts for n in re.findall(r"\[(\d{1,3})\]", text.value)}


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
specimen:
  statements:
    - {says: A limpet has one shell., source: 1}
  references:
    - A. Reader, *Shells of the Shore*, 2019.
"""

CHECK = Check(
    id="reference-unused",
    title="A reference for nothing",
    why=(
        "A list of references shows where each statement can be looked up. A book that no"
        " statement names may be a number that has slipped, or a statement that was taken out."
    ),
    severity=Severity.NOTE,
    bad=_PATTERN + "    - B. Reader, *Rocks of the Shore*, 2020.\n",
    good=_PATTERN,
    source="common practice, no source",
    run=_run,
)
