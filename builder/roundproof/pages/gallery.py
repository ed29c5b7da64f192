"""The gallery: a card for each public pattern, its drawing to the left and its facts beside it."""

from __future__ import annotations

from collections.abc import Iterable

from markupsafe import Markup

from roundproof.frozen import dataclass
from roundproof.pages.plate import plate
from roundproof.pages.values import Fact, PatternPage
from roundproof.pages.yarns import yarn_rules
from roundproof.proof import Proof

NOT_ON_CARDS = "Version"


@dataclass(frozen=True, slots=True)
class Card:
    """`scope` is the class under which the card's drawing has its yarns' colours."""

    title: str
    lead: Markup
    standing: str
    facts: tuple[Fact, ...]
    address: str
    plate: Markup
    scope: str


@dataclass(frozen=True, slots=True)
class Shown:
    """A pattern as the gallery shows it: made of its own proof alone, so that it can be kept.
    `rules` is the part of the gallery's stylesheet that its drawing needs."""

    card: Card
    rules: str


@dataclass(frozen=True, slots=True)
class Gallery:
    """The cards by title, and the stylesheet that their drawings need."""

    cards: tuple[Card, ...]
    sheet: str


def shown(folder: str, page: PatternPage, proof: Proof) -> Shown:
    """A pattern's part of the gallery; `folder` is the address of the pattern's own."""
    scope = "of-" + folder.rpartition("/")[2]
    drawn = plate(proof, scope)
    facts = tuple(fact for fact in page.facts if fact.label != NOT_ON_CARDS)
    svg = drawn.svg if drawn else Markup("")
    address = f"{folder}/index.html"
    card = Card(page.title, page.lead, page.standing, facts, address, svg, scope)
    return Shown(card, yarn_rules(proof.pattern, f".{scope}"))


def gallery(patterns: Iterable[Shown]) -> Gallery:
    """The gallery of some patterns."""
    by_title = sorted(patterns, key=lambda one: (one.card.title.casefold(), one.card.address))
    return Gallery(tuple(one.card for one in by_title), "".join(one.rules for one in by_title))
