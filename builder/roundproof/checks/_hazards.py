"""Hazards that a designer's running text tells of: a guess, where the list of things is none."""

from __future__ import annotations

import re
from collections.abc import Iterator

from roundproof.checks._prose import Said, about, making
from roundproof.proof import Proof
from roundproof.reference.hazards import Hazard, hazards
from roundproof.source import Located

_DENIED = frozenset(
    ("no", "not", "without", "never", "instead", "nor", "neither", "avoid", "don", "dont", "like")
)
"""Words that, shortly before a thing, say that it is not there."""
_BEFORE = 4


def spoken(proof: Proof) -> Iterator[tuple[Located[str], Hazard]]:
    """The words of steps, notes, summary and care that tell of a hazard, each hazard once."""
    lines = [*about(proof.pattern), *making(proof)]
    whole = "\n".join(_plain(line.text) for line in lines)
    for hazard in hazards():
        if not any(phrase in whole for phrase in hazard.said):
            continue
        found = next((f for f in (_first(line, hazard) for line in lines) if f), None)
        if found is not None:
            yield found, hazard


def _first(line: Said, hazard: Hazard) -> Located[str] | None:
    low = _plain(line.text)
    for phrase in hazard.said:
        if phrase in low:
            for match in re.finditer(rf"\b{phrase}(?:s|es)?\b", low):
                if not _denied(low[: match.start()]):
                    span = line.place(*match.span())
                    return Located(line.text[match.start() : match.end()], span)
    return None


def _plain(text: str) -> str:
    return text.lower().replace("-", " ")


def _denied(before: str) -> bool:
    clause = re.split(r"[.;:!?]", before)[-1]
    return bool(_DENIED & set(re.findall(r"[a-z]+", clause)[-_BEFORE:]))
