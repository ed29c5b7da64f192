"""Making time in words."""

from __future__ import annotations

from roundproof.pages.figures import trimmed


def hours_words(low: float, high: float, *, short: bool = False) -> str:
    """Whole hours from two on, halves below; minutes under one hour. `short` has "h" and "min"."""
    minute, one, more = ("min", "h", "h") if short else ("minutes", "hour", "hours")
    if high < 1:
        return f"{max(5, round(low * 12) * 5)}–{max(10, round(high * 12) * 5)}\u00a0{minute}"
    step = 1.0 if low >= 2 else 2.0
    first, last = (trimmed(round(hours * step) / step) for hours in (low, high))
    if first == last:
        return f"{last}\u00a0{one if last == '1' else more}"
    return f"{first}–{last}\u00a0{more}"
