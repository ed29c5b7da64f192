"""A scientific name that is not written as names are."""

from __future__ import annotations

import re

from roundproof.checks.base import Check, Found, quoted
from roundproof.findings import Edit, Severity
from roundproof.proof import Proof

_OPEN = frozenset(("sp", "spp", "cf", "aff", "var", "subsp", "ssp", "nov"))
"""Words that are shortened with a point."""
_FIRST_YEAR = 1753
"""Names of plants count from 1753, those of animals from 1758 (spiders 1757)."""


def _run(proof: Proof) -> Found:
    found = proof.pattern.specimen.scientific if proof.pattern.specimen else None
    if found is None or not (name := " ".join(found.value.split())):
        return
    for rule in (_marked_up, _genus, _species, _points, _brackets, _year):
        wrong = rule(name)
        if wrong is not None:
            message, right = wrong
            exact = right and found.span.text == found.value
            yield CHECK.finding(
                found.span,
                message,
                f"Write `{right}`." if right else "Look the name up in a register of species.",
                edits=(Edit(found.span, right),) if exact else (),
            )
            return


Wrong = tuple[str, str] | None
"""What is wrong, and the name put right, empty where that cannot be told."""


def _marked_up(name: str) -> Wrong:
    bare = re.sub(r"[*_]|</?\w+>", "", name)
    if bare == name:
        return None
    return f"{quoted(name)} has marks of formatting: pages slant the name by themselves.", bare


def _genus(name: str) -> Wrong:
    genus, _, rest = name.partition(" ")
    if re.match(r"[A-Z]\.", genus):
        return f"{quoted(genus)} stands for a genus whose name is not given.", ""
    right = genus.capitalize()
    if genus.isupper() and not rest:
        return None  # a name of letters, as viruses have
    if genus.isalpha() and genus != right:
        return (
            f"The genus {quoted(genus)} has one capital, at its start.",
            f"{right} {rest}".strip(),
        )
    return None


def _species(name: str) -> Wrong:
    """Two words with capitals, with no author who could be the second: 'Homo Sapiens'."""
    found = re.match(r"([A-Z][a-z]+) ([A-Z][a-z-]+)(?=$| \(|( [a-z]+)* \()", name)
    shouted = re.match(r"([A-Z][a-z]+) ([A-Z]{3,})\b", name)
    match = found or shouted
    if match is None:
        return None
    right = f"{match[1]} {match[2].lower()}{name[match.end(2) :]}"
    return f"{quoted(match[2])} is the species, which is written without a capital.", right


def _points(name: str) -> Wrong:
    for match in re.finditer(r"(?<= )([a-z]{2,5})(?=$| )", name):
        if match[1] in _OPEN:
            right = f"{name[: match.end()]}.{name[match.end() :]}"
            return f"{quoted(match[1])} is a word cut short and takes a point.", right
    return None


def _brackets(name: str) -> Wrong:
    """Author and year stand together, inside brackets or outside."""
    if name.count("(") != name.count(")"):
        return f"{quoted(name)} has a bracket without its partner.", ""
    split = re.search(r"\(([^()\d]+?),?\),? (\d{4})$", name)
    if split:
        right = f"{name[: split.start()]}({split[1]}, {split[2]})"
        return f"Author and year stand apart in {quoted(name)}: brackets take both.", right
    bare = re.search(r"(?<=[^\W\d_])(\.?) (\d{4})\)?$", name)
    if bare:
        right = f"{name[: bare.start()]}{bare[1]}, {name[bare.start(2) :]}"
        return f"A comma stands between author and year in {quoted(name)}.", right
    return None


def _year(name: str) -> Wrong:
    found = re.search(r"\b(\d{4})\)?$", name)
    if found is None or int(found[1]) >= _FIRST_YEAR:
        return None
    return f"{found[1]} is before {_FIRST_YEAR}, from when on such names count.", ""


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
specimen:
  scientific: {}
"""

CHECK = Check(
    id="name-form",
    title="Form of a scientific name",
    why=(
        "A name that is written rightly can be looked up: the genus with a capital, the species"
        " without, then the author and the year, in brackets if the species has moved to another"
        " genus. Whether it is the right species is for a person to say."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format("Patella Vulgata (Linnaeus, 1758)"),
    good=_PATTERN.format("Patella vulgata Linnaeus, 1758"),
    source=(
        "International Code of Zoological Nomenclature, 4th edition (1999), articles 5, 22, 28 and"
        " 51; International Code of Nomenclature for algae, fungi, and plants (Shenzhen, 2018),"
        " articles 13, 20, 23 and 46"
    ),
    run=_run,
)
