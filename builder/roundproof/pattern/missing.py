"""What a pattern does not say yet, weighed by its status."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from roundproof.findings import Finding, Severity
from roundproof.pattern.desk import Desk, Lack
from roundproof.pattern.details import details
from roundproof.pattern.model import Pattern, Status, Yarn
from roundproof.pattern.schema import PATTERN

_ALWAYS = ("title", "designer", "contact", "level", "size", "yarns", "summary", "care", "pieces")
_ADDING = {key.name: key.adding for key in PATTERN.keys}
_NOTE = (
    "Add `safety:` and under it a `note:`, what a maker has to know about the hazards; if there are"
    " none, say that."
)
_EARLY = ("gauge", "safety: note")
"""What testers cannot do without."""
_WEIGHT = {
    Status.DRAFT: Severity.NOTE,
    Status.TESTING: Severity.WARNING,
    Status.PUBLISHED: Severity.ERROR,
}


def missing(pattern: Pattern, desk: Desk) -> Iterator[Finding]:
    """The findings for what is still to say; `desk` holds what was missed while reading. A draft
    has one note for everything; later each thing has a finding of its own."""
    lacks = [*_of_pattern(pattern, desk), *_read(pattern, desk), *details(pattern)]
    if pattern.status is not Status.DRAFT:
        yield from (_finding(lack, pattern.status) for lack in lacks)
    elif lacks:
        yield _still_to_say(pattern, lacks)
    if pattern.status is Status.PUBLISHED:
        yield from _open(pattern)


def _of_pattern(pattern: Pattern, desk: Desk) -> Iterator[Lack]:
    lacking = [key for key in _ALWAYS if not getattr(pattern, key)]
    if pattern.licence is None and pattern.permissions is None:
        lacking.append("licence")
    if not pattern.changes:
        lacking.append("changes")
    elif pattern.date is None and ("an entry of `changes`", "date") not in desk.faulty:
        lacking.append("date")
    for key in lacking:
        if ("a pattern", key) not in desk.faulty:
            yield Lack(key, pattern.span, "", _ADDING[key])
    noteless = pattern.safety_note is None and ("`safety`", "note") not in desk.faulty
    if noteless and ("a pattern", "safety") not in desk.faulty and not _hazards(pattern):
        yield Lack("safety: note", pattern.span, "", _NOTE)


def _hazards(pattern: Pattern) -> bool:
    """Whether a hazard is declared or seen: then a check of its own asks for the note."""
    from roundproof.pattern.hazards import brought

    return next(brought(pattern), None) is not None


def _read(pattern: Pattern, desk: Desk) -> Iterator[Lack]:
    """What was missed while reading, but for shared yarns that go unused."""
    used = {_called(y) for y in pattern.yarns if not y.shared or _used(y, pattern)}
    idle = {_called(y) for y in pattern.yarns} - used
    yield from (lack for lack in desk.lacks if lack.of not in idle)


def _called(yarn: Yarn) -> str:
    return f"yarn `{yarn.key.partition('/')[0]}`"


def _used(yarn: Yarn, pattern: Pattern) -> bool:
    """Whether a yarn of the defaults seems to be used; the words of the rounds are not read yet."""
    words = "|".join(re.escape(w) for w in (yarn.key, *yarn.words) if len(w) > 1)
    said = [p.yarn.value for p in pattern.pieces if p.yarn]
    said += [p.rounds.value for p in pattern.pieces if p.rounds]
    return any(re.search(rf"(?<!\w)(?:{words})(?!\w)", text, re.IGNORECASE) for text in said)


def _finding(lack: Lack, status: Status) -> Finding:
    early = lack.key in _EARLY and status is Status.TESTING
    severity = Severity.ERROR if early else _WEIGHT[status]
    of = lack.of[:1].upper() + lack.of[1:] if lack.of else "The pattern"
    message = f"{of} does not say its `{lack.key}`."
    return Finding("value-missing", severity, lack.span, message, lack.mend, lack.piece)


def _still_to_say(pattern: Pattern, lacks: Sequence[Lack]) -> Finding:
    groups: dict[str, list[str]] = {}
    for lack in lacks:
        groups.setdefault(lack.of, []).append(lack.key)
    said = [f"{of}: {', '.join(keys)}" if of else ", ".join(keys) for of, keys in groups.items()]
    message = f"Still to say: {'; '.join(said)}."
    mend = "A draft may leave this open; a published pattern says all of it."
    return Finding("value-missing", Severity.NOTE, pattern.span, message, mend)


def _open(pattern: Pattern) -> Iterator[Finding]:
    for question in pattern.open:
        message = "A question is still open, and the pattern is published."
        mend = "Settle it and take it out, or set `status: testing`."
        yield Finding("open-question", Severity.ERROR, question.span, message, mend)
