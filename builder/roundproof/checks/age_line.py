"""A line about the age of children that the hazards, or a published rule, speak against."""

from __future__ import annotations

import re

from roundproof.checks._ages import THREE, is_for_young, not_young, years, young
from roundproof.checks._materials import is_filling, stuffings
from roundproof.checks._prose import Said, promised
from roundproof.checks.base import Check, Found, quoted
from roundproof.findings import Severity
from roundproof.pattern.hazards import brought
from roundproof.proof import Proof

_HINTS = ("birth", "newborn", "bab", "infant", "toddler", "age", "year", "month", "+", "under ")
_GRAVE = ("small part", "sharp end", "magnet", "battery", "weight", "cord")
_NOT_RECALLED = (
    "A stuffed toy to hold and cuddle counts as meant for the youngest in the EU and in Great"
    " Britain, where such a line may not stand on it (Directive 2009/48/EC, article 11; Toys"
    " (Safety) Regulations 2011)"
)


def _run(proof: Proof) -> Found:
    for line in promised(proof):
        low = line.text.lower()
        if any(hint in low for hint in _HINTS):
            yield from _in_line(proof, line)


def _in_line(proof: Proof, line: Said) -> Found:
    for match in not_young().finditer(line.text):
        if _stuffed(proof) and years(match) <= THREE:
            yield CHECK.finding(
                line.place(*match.span()),
                f"{quoted(match.group())} stands beside a stuffed object. {_NOT_RECALLED}.",
                "Name the hazard instead of the years, or leave the hard parts away.",
            )
            return
    for match in young().finditer(line.text):
        grave = {h.id: item.value for item, h in brought(proof.pattern) if h.id in _GRAVE}
        if grave and is_for_young(match) and not _taken_back(line.text, match):
            yield CHECK.finding(
                line.place(*match.span()),
                f"{quoted(match.group())} speaks against the hazard that the pattern brings:"
                f" {_listed(grave)}. US 16 CFR 1501 and EN 71-1 keep such things out of what is"
                " meant for children under three years.",
                "Take the line out, or do without what brings the hazard.",
            )
            return


def _taken_back(text: str, match: re.Match[str]) -> bool:
    """Whether the clause denies the line, its sentence tells what to do instead ('for toddlers,
    embroider the eyes'), or it follows on a word that is told of as a promise."""
    before = re.split(r"[.;:!?]", text[: match.start()])[-1].lower()
    after = re.split(r"[.;:!?]", text[match.end() :])[0].lower()
    if before.endswith("safe ") or re.search(r"\b(?:not|never|no|nothing|unsuitable)\b", before):
        return True
    advice = r"\b(?:embroider|instead|leave|leav|omit|replace|keep|if|when)"
    return re.search(advice, before + after) is not None


def _listed(grave: dict[str, str]) -> str:
    return ", ".join(f"{quoted(item)} ({hazard})" for hazard, item in grave.items())


def _stuffed(proof: Proof) -> bool:
    listed = any(is_filling(notion) for notion in proof.pattern.notions)
    return listed or next(stuffings(proof), None) is not None


_PATTERN = """\
title: Pebble
terms: US
summary: {}
notions:
  - {{item: safety eyes, size: 6 mm, count: 2, hazard: small part}}
safety:
  note: The eyes are small parts that can come loose and be swallowed by young children.
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc in each st around (12)
    R3: sc around (12)
assembly:
  - place: {{item: safety eyes, piece: body, between: [R2, R3], around: {{st: 3, apart: 2}}}}
"""

CHECK = Check(
    id="age-line",
    title="A line about years that does not hold",
    why=(
        "A line such as 'from birth' beside small parts invites what the rules for toys ban. The"
        " other way round it does not help either: in some places a stuffed toy to cuddle counts"
        " as meant for the youngest, and no line to the contrary may stand on it. Whoever gives or"
        " sells the object has to know the rules of the place; the pattern names what is in it."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format("A stone to hold, suitable from birth."),
    good=_PATTERN.format("A stone to hold, with two black eyes."),
    source=(
        "US 16 CFR 1501.2 and 1501.4, EN 71-1:2014+A1:2018 (small parts); Directive 2009/48/EC,"
        " article 11 and annex V, and Toys (Safety) Regulations 2011 (soft toys to cuddle);"
        " Regulation (EU) 2025/2509 takes the directive's place on 1 August 2030"
    ),
    run=_run,
)
