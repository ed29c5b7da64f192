"""Which version was tested, against the one the pattern is at.

A version is three numbers: a new big one is another object or size, a middle one another
instruction, a small one other wording. What was measured holds until the big or the middle one
changes.
"""

from __future__ import annotations

from roundproof.pattern.model import Pattern
from roundproof.testers.model import Standing


def standing(pattern: Pattern, version: str) -> Standing:
    """How a tested version stands to the pattern's. A pattern that does not say its own takes
    every one for it."""
    if pattern.version is None or version == pattern.version.value:
        return Standing.CURRENT
    if version not in known(pattern):
        return Standing.UNKNOWN
    alike = numbers(version)[:2] == numbers(pattern.version.value)[:2]
    return Standing.WORDING if alike else Standing.STALE


def known(pattern: Pattern) -> tuple[str, ...]:
    """The versions there ever were, as far as the pattern says, the pattern's own first."""
    own = [pattern.version.value] if pattern.version else []
    return tuple(dict.fromkeys((*own, *(change.version.value for change in pattern.changes))))


def numbers(version: str) -> tuple[int, ...]:
    return tuple(int(part) for part in version.split("."))
