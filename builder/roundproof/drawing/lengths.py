"""Lengths as they are said on drawings and pages, in both systems."""

from __future__ import annotations

NBSP = "\u00a0"
INCH = 25.4
"""mm, by the international agreement of 1959."""


def trimmed(value: float, decimals: int = 1) -> str:
    """At most so many decimals, none that say nothing."""
    text = f"{value:,.{decimals}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def length(millimetres: float) -> str:
    """ "5 mm", "6.4 cm", "1.2 m"."""
    if millimetres < 10:
        return f"{trimmed(millimetres)}{NBSP}mm"
    if millimetres < 1000:
        return f"{trimmed(millimetres / 10)}{NBSP}cm"
    return f"{trimmed(millimetres / 1000)}{NBSP}m"


def inches(millimetres: float) -> str:
    """To a quarter inch from one inch on, to a tenth below: "3¾ in", "0.6 in"."""
    if millimetres < 0.95 * INCH:
        return f"{trimmed(max(millimetres / INCH, 0.1 if millimetres else 0.0))}{NBSP}in"
    whole, quarters = divmod(round(4 * millimetres / INCH), 4)
    return f"{whole:,}{('', '¼', '½', '¾')[quarters]}{NBSP}in"


def both(millimetres: float) -> str:
    """ "6.4 cm (2½ in)"."""
    return f"{length(millimetres)} ({inches(millimetres)})"
