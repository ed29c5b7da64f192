"""What makers may do, left open or answered twice in two ways."""

from __future__ import annotations

import re
from collections.abc import Iterator

from roundproof.checks._licences import Licence, open_licence
from roundproof.checks.base import Check, Found, missing, quoted
from roundproof.findings import Finding, Severity
from roundproof.pattern.model import Pattern, Permissions
from roundproof.proof import Proof
from roundproof.source import Located

_ASKED = {
    "print": ("print", "cop", "hand", "class"),
    "sell": ("sell", "sale", "sold", "commercial"),
    "change": ("change", "alter", "adapt", "modif", "remix"),
    "translate": ("translat",),
    "photos": ("photo", "picture", "image"),
}
"""The five questions that makers ask, and beginnings of words that answer them."""
_CLOSED = r"(?i)\s*(?:no\b|not\b|never\b|please do not\b|forbidden\b)"
_NARROW = r"(?i)\b(?:only|ask|non-?commercial|personal|private|permission)\b"


def _run(proof: Proof) -> Found:
    pattern = proof.pattern
    licence = pattern.licence
    if licence is None:
        return  # what `permissions` leave open is still to say
    known = open_licence(licence.value)
    if known is not None:
        yield from _against(licence, known, pattern.permissions)
        if not known.sells and not _answer(pattern.permissions, "sell"):
            yield CHECK.finding(
                licence.span,
                f"{quoted(licence.value)} leaves open whether what is made may be sold, at a fair"
                " for instance.",
                "Say it under `permissions: sell:`.",
                severity=Severity.NOTE,
            )
    elif left := _left_open(pattern):
        yield CHECK.finding(
            licence.span,
            f"{quoted(licence.value)} does not answer: {', '.join(left)}.",
            "Answer them under `permissions:`, or name an open licence, for instance CC-BY-4.0.",
            severity=missing(pattern.status),
        )


def _left_open(pattern: Pattern) -> list[str]:
    """The questions that neither the words of the licence nor the permissions answer. Where there
    are permissions, what they leave open is told elsewhere."""
    if pattern.licence is None or pattern.permissions is not None:
        return []
    low = pattern.licence.value.lower()
    return [key for key, words in _ASKED.items() if not any(word in low for word in words)]


def _against(licence: Located[str], known: Licence, given: Permissions | None) -> Iterator[Finding]:
    """Answers that take back what the licence has given for good, or give what it keeps."""
    allowed = {"print": True, "sell": known.sells, "translate": known.changes}
    allowed["change"] = known.changes
    for key, allows in allowed.items():
        answer = _answer(given, key)
        if answer is None:
            continue
        closed = re.match(_CLOSED, answer.value) is not None
        narrow = re.search(_NARROW, answer.value) is not None
        if allows and (closed or narrow):
            yield CHECK.finding(
                answer.span,
                f"{quoted(licence.value)} lets everybody {_DOES[key]}, and `{key}:` answers"
                f" {quoted(answer.value)}.",
                "Keep one of the two: a licence once given cannot be taken back.",
                severity=Severity.ERROR if closed else Severity.WARNING,
            )
        elif not allows and key != "sell" and re.match(r"(?i)\s*(?:yes|freely)\b", answer.value):
            yield CHECK.finding(
                answer.span,
                f"{quoted(licence.value)} lets nobody {_DOES[key]}, and `{key}:` answers"
                f" {quoted(answer.value)}.",
                "Take a licence that allows it, or change the answer.",
                severity=Severity.WARNING,
            )


_DOES = {
    "print": "print and hand on the pattern",
    "sell": "sell copies and what is made",
    "change": "change the pattern and pass it on",
    "translate": "translate the pattern and pass it on",
}


def _answer(given: Permissions | None, key: str) -> Located[str] | None:
    answer: Located[str] | None = getattr(given, key) if given else None
    return answer


_PATTERN = """\
title: Pebble
terms: US
licence: CC-BY-4.0
permissions:
  print: Yes.
  sell: {}
  change: Yes, under the same licence.
  translate: Yes.
  photos: With the name of who made them.
pieces:
  body: |
    R1: 6 sc in magic ring (6)
"""

CHECK = Check(
    id="licence-answered",
    title="What makers may do",
    why=(
        "Makers ask five things: may I print it for a class, sell what I make, change it,"
        " translate it, use the photos. An open licence answers them at once, save that one against"
        " commercial use does not say what a fair is. Answers beside a licence that say something"
        " else leave the maker with neither."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format("No."),
    good=_PATTERN.format("Yes, and a word of thanks is welcome."),
    source="Creative Commons licences 4.0 (2013), legal code, sections 2 and 6; common practice",
    run=_run,
)
