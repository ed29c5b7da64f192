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
class Shown:
    """A pattern of the gallery and the address of its page."""

    address: str
    page: PatternPage
    proof: Proof


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
class Gallery:
    """The cards by title, and the stylesheet that their drawings need."""

    cards: tuple[Card, ...]
    sheet: str


def gallery(shown: Iterable[Shown]) -> Gallery:
    """The gallery of some patterns."""
    by_title = sorted(shown, key=lambda one: (one.page.title.casefold(), one.address))
    numbered = [(f"of-{place}", one) for place, one in enumerate(by_title, 1)]
    rules = (yarn_rules(one.proof.pattern, f".{scope}") for scope, one in numbered)
    return Gallery(tuple(_card(scope, one) for scope, one in numbered), "".join(rules))


def _card(scope: str, one: Shown) -> Card:
    page, drawn = one.page, plate(one.proof, scope)
    facts = tuple(fact for fact in page.facts if fact.label != NOT_ON_CARDS)
    svg = drawn.svg if drawn else Markup("")
    return Card(page.title, page.lead, page.standing, facts, one.address, svg, scope)
