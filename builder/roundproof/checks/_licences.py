"""Licences known by their names, and what they allow."""

from __future__ import annotations

import re

from roundproof.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Licence:
    """An open licence: whether it bears selling and changing."""

    sells: bool = True
    changes: bool = True


def open_licence(words: str) -> Licence | None:
    """What a licence known by its name or its address allows; None for words of one's own."""
    low = words.lower()
    if re.search(r"\bcc[- ]?(?:by|0|zero)|creative ?commons", low):
        closed = re.search(r"\bnd\b|no ?deriv", low.replace("-", " "))
        paid = re.search(r"\bnc\b|non ?commercial", low.replace("-", " "))
        return Licence(not paid, not closed)
    other = r"public domain|free art|\bmit\b|\bgpl|\bgfdl|\bogl\b|open government|https?://\S+$"
    return Licence() if re.search(other, low) else None
