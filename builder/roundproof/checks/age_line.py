"""A line about the age of children that the hazards, or a published rule, speak against."""

from __future__ import annotations

import re
from functools import cache

from roundproof.checks._materials import is_filling, stuffings
from roundproof.checks._said import place, said
from roundproof.checks.base import Check, Found, quoted
from roundproof.findings import Severity
from roundproof.pattern.hazards import brought
from roundproof.proof import Proof
from roundproof.source import Line

_HINTS = ("birth", "newborn", "bab", "infant", "toddler", "age", "year", "month", "+", "under ")
_GRAVE = ("small part", "sharp end", "magnet", "battery", "weight", "cord")
_THREE = 3
"""Years. Where the rules for small parts draw the line."""
_NOT_RECALLED = (
    "A stuffed toy to hold and cuddle counts as meant for the youngest in the EU and in Great"
    " Britain, where such a line may not stand on it (Directive 2009/48/EC, article 11; Toys"
    " (Safety) Regulations 2011)"
)


def _run(proof: Proof) -> Found:
    for line in said(proof):
        low = line.text.lower()
        if any(hint in low for hint in _HINTS):
            yield from _in_line(proof, line)


def _in_line(proof: Proof, line: Line) -> Found:
    for match in _not_young().finditer(line.text):
        if _stuffed(proof) and _years(match) <= _THREE:
            yield CHECK.finding(
                place(line, *match.span()),
                f"{quoted(match.group())} stands beside a stuffed object. {_NOT_RECALLED}.",
                "Name the hazard instead of the years, or leave the hard parts away.",
            )
            return
    for match in _young().finditer(line.text):
        grave = {h.id: item.value for item, h in brought(proof.pattern) if h.id in _GRAVE}
        refused = re.search(r"(?i)\b(?:not|never|no|nothing|unsuitable)\b[^.;:]*$",
                            line.text[: match.start()])  # fmt: skip
        if grave and refused is None and _is_for_young(match):
            yield CHECK.finding(
                place(line, *match.span()),
                f"{quoted(match.group())} speaks against the hazard that the pattern brings:"
                f" {_listed(grave)}. US 16 CFR 1501 bans small parts in what is meant for children"
                " under three years; EN 71-1 does the same.",
                "Take the line out, or do without what brings the hazard.",
            )
            return


def _is_for_young(match: re.Match[str]) -> bool:
    years = _years(match)
    return years <= _THREE if "under" in match.group().lower() else years < _THREE


def _years(match: re.Match[str]) -> float:
    """The years that a line names; 0 where it says `birth` or `babies`."""
    number = next((g for g in match.groups() if g), None)
    if number is None:
        return 0
    years = float(_WORDS.get(number.lower(), number))
    return years / 12 if "month" in match.group().lower() or years >= 18 else years


_WORDS = {"one": "1", "two": "2", "three": "3"}


def _listed(grave: dict[str, str]) -> str:
    return ", ".join(f"{quoted(item)} ({hazard})" for hazard, item in grave.items())


def _stuffed(proof: Proof) -> bool:
    listed = any(is_filling(notion) for notion in proof.pattern.notions)
    return listed or next(stuffings(proof), None) is not None


@cache
def _not_young() -> re.Pattern[str]:
    """'Not for children under three', 'for ages 3 and up', '3+'."""
    number = r"(\d{1,2}|three|two|one)"
    return re.compile(
        rf"(?i)\b(?:not?|un)[- ]?(?:suitable |meant |intended |recommended )?(?:for )?"
        rf"(?:children |kids |anyone |those )?(?:aged )?under (?:the age of )?{number}"
        rf"(?:[- ](?:years?|months?|yrs?))?(?: (?:of age|old))?\b"
        rf"|\b(?:for |from )?age[sd]? (?:of )?{number}(?: ?\+| and (?:up|over|above|older))"
        rf"|(?<![\w.:]){number} ?\+(?: ?(?:years|yrs))?(?=\s*(?:[.,;:!)]|$))"
        rf"|\bfrom {number} years(?: on| up)?\b"
    )


@cache
def _young() -> re.Pattern[str]:
    """'Suitable from birth', 'for babies', 'from 6 months', 'for all ages', '0+'."""
    number = r"(\d{1,2}|three|two|one)"
    return re.compile(
        r"(?i)\b(?:(?:suitable|right|fit|good|made|meant) )?from birth(?: on)?\b"
        r"|\bfor (?:a |the |your |new |small )?(?:newborns?|bab(?:y|ies)|infants?|toddlers?)\b"
        r"|\b(?:for|suits) (?:children of )?all ages\b"
        rf"|\bfrom {number} (?:months|years?)\b|\bage[sd]? {number}(?: ?\+| and (?:up|over|above))"
        rf"|(?<![\w.:]){number} ?\+(?: ?(?:months|years|yrs))?(?=\s*(?:[.,;:!)]|$))"
        rf"|\bfor children under {number}\b"
    )


_PATTERN = """\
title: Pebble
terms: US
summary: {}
notions:
  - fibrefill 1 g
  - {{item: safety eyes, size: 6 mm, count: 2, hazard: small part}}
safety:
  note: The eyes are small parts that can come loose and be swallowed by young children.
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc in each st around (12)
    R3: sc around (12)
    Stuff.
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
