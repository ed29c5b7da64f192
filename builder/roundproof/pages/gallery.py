"""The gallery: a card for each public pattern, its drawing to the left and its facts beside it."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from markupsafe import Markup

from roundproof.drawing.colour import GROUNDS
from roundproof.frozen import dataclass
from roundproof.pages.facets import Facet, facets, sortable
from roundproof.pages.plate import plate
from roundproof.pages.values import Fact, PatternPage
from roundproof.pages.yarns import Grounds, yarn_rules
from roundproof.proof import Proof

NOT_ON_CARDS = "Version"
NEWEST = 6
"""How many patterns the front page shows; all of them stand in the gallery alone."""


@dataclass(frozen=True, slots=True)
class Shown:
    """A pattern of the gallery and the address of its page."""

    address: str
    page: PatternPage
    proof: Proof


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
    found_by: str


@dataclass(frozen=True, slots=True)
class Gallery:
    """The cards by title, and those of the newest patterns, newest first; each with the stylesheet
    that their drawings need. `facets` are the lists by which patterns are found."""

    cards: tuple[Card, ...]
    sheet: str
    newest: tuple[Card, ...]
    newest_sheet: str
    facets: tuple[Facet, ...]


def gallery(shown: Iterable[Shown], grounds: Grounds = GROUNDS) -> Gallery:
    """The gallery of some patterns."""
    by_title = sorted(shown, key=lambda one: (one.page.title.casefold(), one.address))
    lists = facets(sortable(one.page.title, one.address, one.proof) for one in by_title)
    numbered = [(f"of-{place}", one) for place, one in enumerate(by_title, 1)]
    rules = {scope: yarn_rules(one.proof.pattern, f".{scope}", grounds) for scope, one in numbered}
    found_by = _found_by(lists)
    cards = {scope: _card(scope, one, found_by.get(one.address, [])) for scope, one in numbered}
    newest = [scope for scope, _ in sorted(numbered, key=_newest_first)[:NEWEST]]
    return Gallery(
        tuple(cards.values()),
        "".join(rules.values()),
        tuple(cards[scope] for scope in newest),
        "".join(rules[scope] for scope in newest),
        lists,
    )


def _newest_first(numbered: tuple[str, Shown]) -> int:
    """Those of one day stay in the order of their titles."""
    said = numbered[1].proof.pattern.date
    return -(said.value if said else date.min).toordinal()


def _found_by(lists: Iterable[Facet]) -> dict[str, list[str]]:
    """By address the ids of the values that a pattern has."""
    found: dict[str, list[str]] = {}
    for facet in lists:
        for value in facet.values:
            for entry in value.patterns:
                found.setdefault(entry.address, []).append(value.id)
    return found


def _card(scope: str, one: Shown, found_by: list[str]) -> Card:
    page, drawn = one.page, plate(one.proof, scope)
    facts = tuple(fact for fact in page.facts if fact.label != NOT_ON_CARDS)
    return Card(
        page.title,
        page.lead,
        page.standing,
        facts,
        one.address,
        drawn.svg if drawn else Markup(""),
        scope,
        " ".join(found_by),
    )
