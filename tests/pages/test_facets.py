"""By what patterns are found: the lists of the gallery."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest

from rendering import proof_of
from roundproof.pages.facets import LEVELS, TIMES, Facet, Sortable, facets, sortable, time_class
from roundproof.pages.gallery import NEWEST, Gallery, Shown, gallery, shown
from roundproof.pages.pattern import pattern_page
from roundproof.pattern.json_schema import pattern_schema
from whole_patterns import PEBBLE


def found(text: str, title: str = "Pebble") -> Sortable:
    return sortable(title, f"patterns/{title.lower()}/index.html", proof_of(text))


def of(id: str, made: tuple[Facet, ...]) -> dict[str, list[str]]:
    """The values of a facet in words, with the titles of their patterns."""
    facet = next(facet for facet in made if facet.id == id)
    return {value.words: [entry.title for entry in value.patterns] for value in facet.values}


BARE = PEBBLE.replace(
    "  - {item: safety eyes, size: 6 mm, count: 2, hazard: small part, or: embroidered eyes}\n", ""
).replace(
    "  - place: {item: safety eyes, piece: upper, between: [R4, R5],"
    " around: {mark: front, apart: 4}}\n    after: upper R6\n",
    "",
)


def test_patterns_stand_under_all_that_they_are() -> None:
    other = BARE.replace("level: easy", "level: complex").replace("weight: 3", "weight: 5")
    made = facets([found(PEBBLE, "Eyes"), found(other.replace("terms: US", "terms: UK"), "None")])
    assert [facet.id for facet in made] == ["level", "yarn", "terms", "has", "without"]
    assert of("level", made) == {"Easy": ["Eyes"], "Complex": ["None"]}
    # Craft Yarn Council, Standard Yarn Weight System: 3 is Light, 5 is Bulky.
    assert [words.partition(":")[0] for words in of("yarn", made)] == ["3 Light", "5 Bulky"]
    assert of("terms", made) == {"US": ["Eyes"], "UK": ["None"]}
    assert of("has", made) == {"Has small parts": ["Eyes"]}
    assert of("without", made) == {"Without small parts": ["None"]}
    ids = [value.id for facet in made for value in facet.values]
    assert ids[:2] == ["level=easy", "level=complex"]
    assert "without=small-part" in ids and len(set(ids)) == len(ids)


def test_what_a_step_tells_of_is_not_said_to_be_missing() -> None:
    glued = BARE.replace("Fasten off.\n", "Fasten off.\n      Note: Glue the rim on.\n", 1)
    made = facets([found(glued, "Glued"), found(BARE, "Plain")])
    assert of("has", made)["Has glue"] == ["Glued"]
    assert of("without", made)["Without glue"] == ["Plain"]


def test_a_hazard_of_the_designer_s_own_words_is_one_too() -> None:
    own = PEBBLE.replace("tapestry needle", "{item: lavender, hazard: strong scent}")
    made = facets([found(own, "Scented"), found(PEBBLE, "Pebble")])
    assert of("has", made)["Has strong scent"] == ["Scented"]


def test_nothing_in_the_lists_promises_anything() -> None:
    made = facets([found(PEBBLE, "Eyes"), found(BARE, "None")])
    words = " ".join(f"{f.title} {f.note} {' '.join(v.words for v in f.values)}" for f in made)
    assert not re.search(
        r"\bsafe(?!ty note)|\bharmless|child-?proof|\bage[sd]?\b|suitable", words, re.I
    )
    assert "rules of the place" in words


def test_lists_that_tell_nothing_apart_are_left_out() -> None:
    assert facets([]) == ()
    assert facets([found(BARE)]) == ()


@pytest.mark.parametrize(
    ("hours", "words"),
    [
        (0.2, "Up to 3 hours: an evening"),
        (3.0, "Up to 3 hours: an evening"),
        (3.1, "3 to 12 hours: a weekend"),
        (12.5, "12 to 30 hours: two weeks of evenings"),
        (99.0, "More than 30 hours"),
    ],
)
def test_a_time_is_in_the_class_that_its_longer_end_is_in(hours: float, words: str) -> None:
    assert {id: said for id, _, said in TIMES}[time_class(hours)] == words


def test_the_classes_of_time_follow_on_each_other() -> None:
    for (_, most, words), (_, longer, _) in pairwise(TIMES):
        assert most < longer
        assert f"{most:g}" in words


def test_every_level_there_is_has_its_place() -> None:
    assert set(pattern_schema()["properties"]["level"]["enum"]) == set(LEVELS)


def made(number: int, day: int, text: str = PEBBLE) -> Shown:
    dated = text.replace("2026-05-04", f"2026-05-{day:02}")
    proof = proof_of(dated.replace("title: Pebble", f"title: Stone {number}"))
    return shown(f"patterns/stone-{number}", pattern_page(proof), proof)


def pages_of(days: list[int]) -> Gallery:
    return gallery(made(number, day) for number, day in enumerate(days, 1))


def test_the_newest_stand_first_and_only_a_few() -> None:
    found = pages_of([4, 9, 1, 9, 3, 2, 8, 7])
    assert [card.title for card in found.cards] == [f"Stone {n}" for n in range(1, 9)]
    assert NEWEST == 6
    assert [card.title for card in found.newest] == [f"Stone {n}" for n in (2, 4, 7, 8, 1, 5)]
    scopes = [card.scope for card in found.newest]
    assert all(f".{scope} " in found.newest_sheet for scope in scopes)
    assert ".of-stone-3 " not in found.newest_sheet and ".of-stone-3 " in found.sheet


def test_a_card_has_what_it_is_found_by() -> None:
    found = gallery([made(1, 4), made(2, 4, BARE)])
    by_address = {card.address: set(card.found_by.split()) for card in found.cards}
    assert "has=small-part" in by_address["patterns/stone-1/index.html"]
    assert "without=small-part" in by_address["patterns/stone-2/index.html"]
