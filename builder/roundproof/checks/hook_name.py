"""A hook told by a letter or number alone, or by one that is not its size's."""

from __future__ import annotations

import re
from functools import cache

from roundproof.checks._prose import everywhere
from roundproof.checks.base import Check, Found, quoted
from roundproof.findings import Severity
from roundproof.proof import Proof
from roundproof.reference.hooks import Hook, hook, hooks


def _run(proof: Proof) -> Found:
    for said in everywhere(proof):
        if "hook" not in said.text.lower():
            continue
        sized = list(_sized().finditer(said.text))
        for found in sized:
            size = hook(float((found["mm"] or found["mm2"]).replace(",", ".")))
            name = found["name"] or found["name2"]
            if size and (wrong := _wrong(size, name)):
                yield CHECK.finding(
                    said.place(*found.span()),
                    f"{quoted(found[0])}: {wrong}.",
                    "The millimetres are what counts; put the name right, or leave it out.",
                    piece=said.piece,
                )
        lone = None if re.search(r"\d\s?mm\b", said.text) else _lone().search(said.text)
        if lone:
            yield CHECK.finding(
                said.place(*lone.span()),
                f"{quoted(lone[0])} gives a hook by its name alone, and makers of hooks differ in"
                " them.",
                f"Write its size in mm{_meant(lone['name'] or lone['name2'])}.",
                piece=said.piece,
            )


def _wrong(size: Hook, name: str) -> str:
    """What is wrong with the name of a hook; nothing where any published list has it so."""
    known = f"{size.us} {size.note}"
    letters, numbers = _letters(known), _numbers(known)
    letter, number = _letters(name), _numbers(name)
    if not letters and not numbers:
        return ""
    if (not letter or letter & letters) and (not number or not numbers or number & numbers):
        return ""
    if size.us:
        return f"{size.mm:g} mm is {size.us} in US sizes"
    return f"no list has that name for {size.mm:g} mm"


def _letters(name: str) -> set[str]:
    return set(re.findall(r"\b[A-Z](?![A-Za-z])", name))


def _numbers(name: str) -> set[str]:
    return set(re.findall(r"(?<![\d.])\d{1,2}(?: 1/2|½|\.5)?(?! ?mm|[\d.])", name))


def _meant(name: str) -> str:
    letter, number = _letters(name), _numbers(name)
    sizes = [
        f"{h.mm:g}"
        for h in hooks()
        if h.us and letter <= _letters(h.us) and number <= _numbers(h.us) and (letter or number)
    ]
    return f": {' or '.join(sizes[:3])} mm by the US list" if sizes and letter else ""


_NAME = r"[A-Z](?:/[A-Z])?(?:[-/ ]?\d{1,2}(?: 1/2|½)?)?"


@cache
def _sized() -> re.Pattern[str]:
    """`3.5 mm (US E-4)`, `E-4 / 3.5 mm`."""
    mm = r"\d{1,2}(?:[.,]\d{1,3})?"
    between = r"\s*(?:[(/,=]|or)?\s*(?:US\s+)?(?:size\s+)?"
    return re.compile(
        rf"(?P<mm>{mm})\s?mm\b{between}(?P<name>{_NAME})(?!\w|\.\d)\)?"
        rf"|(?<![\w.])(?:US\s+)?(?P<name2>{_NAME}){between}(?P<mm2>{mm})\s?mm\b"
    )


@cache
def _lone() -> re.Pattern[str]:
    """`a G hook`, `hook size E-4`, `US 7 hook`; not `A hook` or `I hook`, which are words."""
    letter = r"[B-HJ-U](?:[-/]\d{1,2}(?: 1/2)?)?|I[-/]\d"
    return re.compile(
        rf"(?<![\w.])(?:(?:US|size)\s+)*(?P<name>(?:{letter})|(?<=US )\d{{1,2}})"
        r"(?:\s+crochet)?[ -][Hh]ook\b"
        rf"|\b[Hh]ook,?\s+(?:(?:US|size)\s+)+(?P<name2>{_NAME}|\d{{1,2}})(?![\w.])"
    )


_PATTERN = """\
title: Pebble
terms: US
notions: [stitch marker]
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    Note: With a {} hook the rim gets tighter.
"""

CHECK = Check(
    id="hook-name",
    title="Hook told by its name alone",
    why=(
        "Letters and numbers of hooks are not the same with all makers, and the old British numbers"
        " run the other way. The millimetres are printed on every hook; a name is good beside them,"
        " if it is the right one."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format("G"),
    good=_PATTERN.format("4 mm (G-6)"),
    source="Craft Yarn Council, hooks and needles list, with the charts that differ from it",
    run=_run,
)
