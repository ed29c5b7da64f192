"""Lines about the years of children: how they are worded, and which years they name."""

from __future__ import annotations

import re
from functools import cache

THREE = 3
"""Years. Where the rules for small parts draw the line."""


_WORDS = {"one": "1", "two": "2", "three": "3"}


def is_for_young(match: re.Match[str]) -> bool:
    told = years(match)
    return told <= THREE if "under" in match.group().lower() else told < THREE


def years(match: re.Match[str]) -> float:
    """The years that a line names; 0 where it says `birth` or `babies`."""
    number = next((g for g in match.groups() if g), None)
    if number is None:
        return 0
    told = float(_WORDS.get(number.lower(), number))
    return told / 12 if "month" in match.group().lower() or told >= 18 else told


@cache
def not_young() -> re.Pattern[str]:
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
def young() -> re.Pattern[str]:
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
