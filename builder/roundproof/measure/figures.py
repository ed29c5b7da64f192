"""Figures as they are said: "15.7 cm", "3 % ", "36 stitches"."""

from __future__ import annotations


def cm(mm: float) -> str:
    """A length in cm, to a millimetre; lengths under a centimetre in mm."""
    return f"{mm / 10:.1f} cm" if mm >= 9.95 else f"{mm:.1f} mm"


def number(value: float, places: int = 2) -> str:
    """A number without needless zeros: 4.35, 6, 0.5."""
    text = f"{value:.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def percent(share: float) -> str:
    """A share as percent: whole from 2 % up, else to a tenth."""
    hundredths = share * 100
    return f"{hundredths:.0f} %" if hundredths >= 1.95 else f"{hundredths:.1f} %"


def several(count: int, one: str, more: str = "") -> str:
    """A count with its noun: "1 stitch", "36 stitches"."""
    return f"{count} {one if count == 1 else more or one + 's'}"


def stitches(count: int) -> str:
    return several(count, "stitch", "stitches")


def times(count: int) -> str:
    """How often, in words: 'once', 'twice', '3 times'."""
    return {1: "once", 2: "twice"}.get(count, f"{count} times")
