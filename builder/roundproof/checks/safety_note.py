"""A hazard among the materials that the safety note does not name."""

from __future__ import annotations

from roundproof.checks._hazards import spoken
from roundproof.checks.base import Check, Found, light, missing, quoted
from roundproof.findings import Finding, Severity
from roundproof.pattern.hazards import brought
from roundproof.proof import Proof
from roundproof.reference.hazards import Hazard
from roundproof.source import Located

_PATTERN = """\
title: Pebble
terms: US
notions:
  - {item: safety eyes, size: 6 mm, count: 2, hazard: small part}
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc in each st around (12)
    R3: sc around (12)
assembly:
  - place: {item: safety eyes, piece: body, between: [R2, R3], around: {st: 3, apart: 2}}
"""

_NOTE = """\
safety:
  note: >-
    The eyes are small parts that can come loose and be swallowed: keep them from young children,
    or embroider the eyes instead.
"""


def _run(proof: Proof) -> Found:
    note = proof.pattern.safety_note.value if proof.pattern.safety_note else ""
    severity = missing(proof.pattern.status, early=True)
    unnamed: dict[Hazard, list[Located[str]]] = {}
    for item, hazard in brought(proof.pattern):
        if not hazard.named_in(note):
            unnamed.setdefault(hazard, []).append(item)
    if unnamed and not note.strip():
        what = " and ".join(f"{_names(items)} ({h.id})" for h, items in unnamed.items())
        yield CHECK.finding(
            next(iter(unnamed.values()))[0].span,
            f"A safety note is needed for {what}, and the pattern has none.",
            f"Add one under `safety: note:`. {_advice(*unnamed)}",
            severity=severity,
        )
        return
    for hazard, items in unnamed.items():
        yield _unnamed(hazard, items, severity)
    if note.strip():
        yield from _told(proof, note)


def _told(proof: Proof, note: str) -> Found:
    """Hazards that only the running text tells of, which is no proof that they are there."""
    listed = {hazard for _, hazard in brought(proof.pattern)}
    for words, hazard in spoken(proof):
        if hazard not in listed and not hazard.named_in(note):
            yield _unnamed(hazard, [words], light(proof.pattern.status))


def _unnamed(hazard: Hazard, items: list[Located[str]], severity: Severity) -> Finding:
    return CHECK.finding(
        items[0].span,
        f"The safety note does not name the hazard of {_names(items)}: {hazard.id}.",
        f"Name it in the note. {_advice(hazard)}",
        severity=severity,
    )


def _names(items: list[Located[str]]) -> str:
    return ", ".join(dict.fromkeys(quoted(item.value) for item in items))


def _advice(*hazards: Hazard) -> str:
    lines = " ".join(h.warns for h in hazards if h.warns)
    rules = "Local rules apply where the object is given or sold."
    return f"In your own words, for instance: {lines} {rules}" if lines else rules


CHECK = Check(
    id="safety-note",
    title="Hazard without a safety note",
    why=(
        "Whoever makes the object or gives it away cannot see what the designer knows: that eyes"
        " come loose, that wire works through, that a cord tangles. The note is where they are"
        " told, so each hazard that is declared, or that the name of an item tells of, has to be"
        " named there. What the note says is the designer's; the rules of the place where the"
        " object is given or sold apply whatever it says."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN,
    good=_PATTERN + _NOTE,
    source="US 16 CFR 1501 and EN 71-1 know these hazards; a note for each is common practice",
    run=_run,
    final=True,
)
