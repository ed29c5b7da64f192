"""The gallery: a card for each public pattern, its drawing to the left and its facts beside it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from markupsafe import Markup

from roundproof.pages.pattern import pattern_page
from roundproof.pages.values import PatternPage
from roundproof.pages.plate import plate
from roundproof.pages.yarns import yarn_rules
from roundproof.proof import Proof


@dataclass(frozen=True, slots=True)
class Card:
    """`scope` is the class under which the card's drawing has its yarns' colours."""

    page: PatternPage
    address: str
    plate: Markup | None
    scope: str


@dataclass(frozen=True, slots=True)
class Gallery:
    """The cards by title, and the stylesheet that their drawings need."""

    cards: tuple[Card, ...]
    sheet: str


def gallery(shown: Iterable[tuple[str, Proof]]) -> Gallery:
    """The gallery of some patterns, each with the address of its page."""
    patterns = sorted(shown, key=lambda pair: (_title(pair[1]).casefold(), pair[0]))
    cards = tuple(
        _card(proof, address, f"of-{place}") for place, (address, proof) in enumerate(patterns, 1)
    )
    sheet = "".join(
        yarn_rules(proof.pattern, f".{card.scope}")
        for card, (_, proof) in zip(cards, patterns, strict=True)
    )
    return Gallery(cards, sheet)


def _title(proof: Proof) -> str:
    return proof.pattern.title.value if proof.pattern.title else proof.pattern.slug


def _card(proof: Proof, address: str, scope: str) -> Card:
    drawn = plate(proof)
    return Card(pattern_page(proof), address, drawn.svg if drawn else None, scope)
