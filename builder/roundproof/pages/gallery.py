"""The gallery: a card for each public pattern, its drawing to the left and its facts beside it."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from markupsafe import Markup

from roundproof.drawing.colour import GROUNDS
from roundproof.frozen import dataclass, replace
from roundproof.pages.facets import Facet, Sortable, facets, sortable
from roundproof.pages.plate import plate
from roundproof.pages.values import Fact, PatternPage
from roundproof.pages.yarns import Grounds, yarn_rules
from roundproof.proof import Proof

NOT_ON_CARDS = "Version"
NEWEST = 6
"""How many patterns the front page shows; all of them stand in the gallery alone."""


@dataclass(frozen=True, slots=True)
class Card:
    """`scope` is the class under which the card's drawing has its yarns' colours; `found_by` are
    the ids of the values of facets that it has, `level=easy yarn=3`."""

    title: str
    lead: Markup
    standing: str
    facts: tuple[Fact, ...]
    address: str
    plate: Markup
    scope: str
    found_by: str = ""


@dataclass(frozen=True, slots=True)
class Shown:
    """A pattern as the gallery shows it: made of its own proof alone, so that it can be kept.
    `rules` is the part of the gallery's stylesheet that its drawing needs, `changed` the day of
    its last change."""

    card: Card
    rules: str
    sortable: Sortable
    changed: date | None


@dataclass(frozen=True, slots=True)
class Gallery:
    """The cards by title, and those of the newest patterns, newest first; each with the stylesheet
    that their drawings need. `facets` are the lists by which patterns are found."""

    cards: tuple[Card, ...]
    sheet: str
    newest: tuple[Card, ...]
    newest_sheet: str
    facets: tuple[Facet, ...]


def shown(folder: str, page: PatternPage, proof: Proof, grounds: Grounds = GROUNDS) -> Shown:
    """A pattern's part of the gallery; `folder` is the address of the pattern's own."""
    scope = "of-" + folder.rpartition("/")[2]
    drawn = plate(proof, scope)
    address = f"{folder}/index.html"
    card = Card(
        page.title,
        page.lead,
        page.standing,
        tuple(fact for fact in page.facts if fact.label != NOT_ON_CARDS),
        address,
        drawn.svg if drawn else Markup(""),
        scope,
    )
    told = proof.pattern.date
    rules = yarn_rules(proof.pattern, f".{scope}", grounds)
    return Shown(card, rules, sortable(page.title, address, proof), told.value if told else None)


def gallery(patterns: Iterable[Shown]) -> Gallery:
    """The gallery of some patterns."""
    those = sorted(patterns, key=lambda one: (one.card.title.casefold(), one.card.address))
    lists = facets(one.sortable for one in those)
    found_by = _found_by(lists)
    by_title = [
        replace(one, card=replace(one.card, found_by=" ".join(found_by.get(one.card.address, ()))))
        for one in those
    ]
    newest = sorted(by_title, key=_newest_first)[:NEWEST]
    return Gallery(
        tuple(one.card for one in by_title),
        "".join(one.rules for one in by_title),
        tuple(one.card for one in newest),
        "".join(one.rules for one in newest),
        lists,
    )


def _newest_first(one: Shown) -> int:
    """Those of one day stay in the order of their titles."""
    return -(one.changed or date.min).toordinal()


def _found_by(lists: Iterable[Facet]) -> dict[str, list[str]]:
    """By address the ids of the values that a pattern has."""
    found: dict[str, list[str]] = {}
    for facet in lists:
        for value in facet.values:
            for entry in value.patterns:
                found.setdefault(entry.address, []).append(value.id)
    return found
