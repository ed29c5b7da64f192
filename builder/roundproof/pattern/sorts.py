"""The sorts of file that are read, in the words for one that nothing can be made of."""

from __future__ import annotations

from roundproof.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Sort:
    """What a file holds ("a pattern"), the keys it starts with, and how one is begun."""

    holds: str
    starts: str
    begin: str


A_PATTERN = Sort(
    "a pattern",
    "`title:` and `pieces:`",
    "Write `pieces:`, and under it, indented, a piece with its rounds after `|`.",
)
A_REPORT = Sort(
    "a report",
    "`pattern:` and `version:`",
    "Write `pattern:` with the name of the pattern's folder, and `version:` as on the copy.",
)
DECISIONS = Sort(
    "decisions",
    "`claw R4:`",
    "Write a piece and its round, and after the colon `{decision: accepted, because: …}`.",
)
