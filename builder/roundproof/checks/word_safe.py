"""Words that promise what no pattern can: that the object is safe, tested or certified."""

from __future__ import annotations

import re
from functools import cache

from roundproof.checks._prose import promised
from roundproof.checks.base import Check, Found, quoted
from roundproof.findings import Severity
from roundproof.proof import Proof

_HINTS = ("safe", "proof", "toxic", "certif")
_MARKS = ("CE", "UKCA", "EN 71", "EN71", "ASTM", "CPSIA")
"""One of these is in every text that the expressions below could find something in."""

_CARE = "(?:machine |hand )?(?:wash|iron|dry|tumble|cut|block|steam|dye)"
"""What something may be safe to do with: nothing is promised of the object."""


def _run(proof: Proof) -> Found:
    for line in promised(proof):
        if not _is_hinted(line.text):
            continue
        for match in _claims().finditer(line.text):
            before = re.split(r"[.;:!?]", line.text[: match.start()])[-1]
            if _hedges().search(before):
                continue
            yield CHECK.finding(
                line.place(*match.span()),
                f"{quoted(match.group())} promises more than a pattern can: whoever makes the"
                " object chooses the yarn and sews the seams.",
                "Say instead what the object is made of and what could come loose; leave marks and"
                " tests to whoever gives or sells it.",
            )
            break


def _is_hinted(text: str) -> bool:
    low = text.lower()
    return any(hint in low for hint in _HINTS) or any(mark in text for mark in _MARKS)


@cache
def _claims() -> re.Pattern[str]:
    """Claims and marks. Safety eyes, pins and notes are none, nor is what is kept in its place."""
    return re.compile(
        r"\b(?:(?i:(?:child|baby|infant|toddler|kid|toy|pet)(?:ren|s)?[- ]?(?:safe|proof))\b"
        r"|(?<![-\w])(?<![Tt]o be )(?i:safe|safer|safest)\b"
        rf"(?![- ](?:place|side|distance|keeping)|[- ]to {_CARE})"
        r"|(?i:non[- ]?toxic)\b|(?i:certified|certificate|certification)\b"
        r"|(?i:safety[- ](?:tested|approved|certified|compliant))\b"
        r"|(?i:(?:conforms?|complies|compliant|tested|passed)\s[\w ]{0,12})(?:EN ?71|ASTM|CPSIA)"
        r"|(?<!\d )(?:CE|UKCA)(?:[- ](?i:marked|marking|mark|tested|certified))?\b)"
    )


@cache
def _hedges() -> re.Pattern[str]:
    """What, before a word in its clause, takes the promise back or only tells to be careful."""
    return re.compile(
        r"(?i)\b(?:if|to make|not?|never|nor|cannot|without|whether|nothing|nobody|isn't|aren't|"
        r"can't|keep(?:s|ing)?|stay(?:s|ing)?)\b(?:[^,]*)$"
        r"|\b(?:machine|dishwasher|dryer|wash|colou?r|moth|oven|freezer) $"
    )


_PATTERN = """\
title: Pebble
terms: US
summary: {}
pieces:
  body: |
    R1: 6 sc in magic ring (6)
"""

CHECK = Check(
    id="word-safe",
    title="A promise of safety",
    why=(
        "Whether an object may be given to a child depends on its yarn, its seams and the place"
        " where it is given; a pattern knows none of them. A word such as `safe` or `certified`,"
        " or a mark, is believed all the same, and makes the designer answer for it. Marks belong"
        " to whoever makes the object and has had it tested."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format("A safe stone for the youngest."),
    good=_PATTERN.format("A stone without hard parts, with room for safety eyes."),
    source=(
        "Directive 2009/48/EC, articles 16 and 17, and the Toys (Safety) Regulations 2011 (GB):"
        " the mark is the maker's own declaration; Regulation (EU) 2025/2509 takes their place on"
        " 1 August 2030"
    ),
    run=_run,
)
