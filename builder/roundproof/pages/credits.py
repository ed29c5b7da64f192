"""Whose the site's patterns and photos are, and what a reader may do with them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from roundproof.frozen import dataclass
from roundproof.pages.licences import TOLD_FROM, answers, licence_of
from roundproof.pattern.model import Pattern


@dataclass(frozen=True, slots=True)
class LicenceRow:
    """A licence that occurs, how many patterns and photos are under it, and its answers. `note` is
    on versions whose text is another than the one that is told from."""

    words: str
    address: str
    patterns: int
    photos: int
    answers: tuple[tuple[str, str], ...]
    note: str


@dataclass(frozen=True, slots=True)
class Credits:
    """`own_words` counts patterns whose designers answer in words of their own."""

    designers: tuple[str, ...]
    photographers: tuple[str, ...]
    licences: tuple[LicenceRow, ...]
    own_words: int


@dataclass(frozen=True, slots=True)
class Credited:
    """What a pattern adds to the credits: whose it is and under which licence, and the same of its
    photos, as (by, licence). Empty where nothing is said."""

    designer: str
    licence: str
    photos: tuple[tuple[str, str], ...]
    own_words: bool


def credited(pattern: Pattern) -> Credited:
    return Credited(
        pattern.designer.value if pattern.designer else "",
        pattern.licence.value if pattern.licence else "",
        tuple(
            (photo.by.value if photo.by else "", photo.licence.value if photo.licence else "")
            for photo in pattern.photos
        ),
        _in_own_words(pattern),
    )


def credits(patterns: Iterable[Credited]) -> Credits:
    """The credits of the patterns that everyone sees."""
    those = tuple(patterns)
    whole = Counter(one.licence for one in those if one.licence)
    photos = [photo for one in those for photo in one.photos]
    shots = Counter(licence for _, licence in photos if licence)
    return Credits(
        _names(one.designer for one in those if one.designer),
        _names(by for by, _ in photos if by),
        _licences(whole, shots),
        sum(1 for one in those if one.own_words),
    )


def _names(names: Iterable[str]) -> tuple[str, ...]:
    return tuple(sorted({" ".join(name.split()) for name in names}, key=str.casefold))


def _in_own_words(pattern: Pattern) -> bool:
    known = pattern.licence is not None and licence_of(pattern.licence.value) is not None
    return pattern.permissions is not None or (pattern.licence is not None and not known)


def _licences(whole: Counter[str], shots: Counter[str]) -> tuple[LicenceRow, ...]:
    rows: dict[str, LicenceRow] = {}
    for text in (*whole, *shots):
        licence = licence_of(text)
        if licence is None:
            continue
        alike = [one for one in {*whole, *shots} if licence_of(one) == licence]
        other = licence.name and licence.version != TOLD_FROM
        rows[licence.words] = LicenceRow(
            licence.words,
            licence.address,
            sum(whole[one] for one in alike),
            sum(shots[one] for one in alike),
            answers(licence),
            f"This tells version {TOLD_FROM}. Version {licence.version} differs in places."
            if other
            else "",
        )
    return tuple(rows[words] for words in sorted(rows))
