"""By what patterns are found in the gallery: level, yarn, time, terms, and what is in them.

Each is a plain list of values with the patterns of each; where there are scripts it becomes a
filter. The address of a filter (`#level=easy`) is the place of its list.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from roundproof.checks._hazards import spoken
from roundproof.frozen import dataclass
from roundproof.pages.materials import used_yarns
from roundproof.pattern.hazards import brought
from roundproof.pattern.model import Terms
from roundproof.proof import Proof
from roundproof.reference.hazards import hazards
from roundproof.reference.yarn_weights import yarn_weights
from roundproof.writing.slug import slug

LEVELS = ("basic", "easy", "intermediate", "complex")
TIMES = (
    ("evening", 3.0, "Up to 3 hours: an evening"),
    ("weekend", 12.0, "3 to 12 hours: a weekend"),
    ("evenings", 30.0, "12 to 30 hours: two weeks of evenings"),
    ("longer", float("inf"), "More than 30 hours"),
)
"""Classes of making time and how many hours each reaches to. Common practice, no source."""
OPTIONAL = "without"
"""The facet of which a pattern has to have every value that is chosen, and not just one."""


@dataclass(frozen=True, slots=True)
class Entry:
    """A pattern in a list."""

    title: str
    address: str


@dataclass(frozen=True, slots=True)
class Value:
    """`id` is `level=easy`: the list's place, and the filter's address."""

    id: str
    words: str
    patterns: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class Facet:
    id: str
    title: str
    note: str
    values: tuple[Value, ...]


@dataclass(frozen=True, slots=True)
class Sortable:
    """A pattern with the facts by which it is found: ids of values, each with its words."""

    title: str
    address: str
    level: tuple[str, ...]
    yarn: tuple[int, ...]
    time: tuple[str, ...]
    terms: str
    has: tuple[tuple[str, str], ...]


def sortable(title: str, address: str, proof: Proof) -> Sortable:
    pattern = proof.pattern
    level = pattern.level.value if pattern.level else ""
    weights = {yarn.weight.value for yarn in used_yarns(proof) if yarn.weight}
    return Sortable(
        title,
        address,
        (level,) if level in LEVELS else (),
        tuple(sorted(weights)),
        _time(proof),
        pattern.written_in.value,
        tuple(dict.fromkeys(_has(proof))),
    )


def _time(proof: Proof) -> tuple[str, ...]:
    return (time_class(proof.measures.hours[1]),) if proof.measures.hours else ()


def time_class(hours: float) -> str:
    """By the upper end of the estimate, so that nobody is kept longer than was said."""
    return next(id for id, most, _ in TIMES if hours <= most)


def _has(proof: Proof) -> Iterator[tuple[str, str]]:
    """What could hurt, by the materials, by the designer's word, and by what the steps tell."""
    for found in (*brought(proof.pattern), *spoken(proof)):
        hazard = found[1]
        yield slug(hazard.id) or "other", hazard.has


def facets(patterns: Iterable[Sortable]) -> tuple[Facet, ...]:
    """The facets that tell some of the patterns apart."""
    found = tuple(patterns)
    made = (
        _levels(found),
        _yarns(found),
        _times(found),
        _terms(found),
        _has_in_it(found),
        _without(found),
    )
    return tuple(facet for facet in made if _tells_apart(facet, len(found)))


def _tells_apart(facet: Facet, all_of_them: int) -> bool:
    return any(len(value.patterns) < all_of_them for value in facet.values)


Found = tuple[Sortable, ...]


def _facet(
    id: str, title: str, note: str, values: Iterable[tuple[str, str, Iterable[Sortable]]]
) -> Facet:
    """Values that no pattern has are left out."""
    made = (
        Value(f"{id}={value}", words, tuple(Entry(one.title, one.address) for one in those))
        for value, words, those in values
    )
    return Facet(id, title, note, tuple(value for value in made if value.patterns))


def _levels(found: Found) -> Facet:
    values = (
        (level, level.capitalize(), [p for p in found if level in p.level]) for level in LEVELS
    )
    return _facet("level", "Level", "Of the pattern, not of the person.", values)


def _yarns(found: Found) -> Facet:
    values = (
        (
            str(weight.category),
            f"{weight.category} {weight.name}: {weight.yarns}",
            [p for p in found if weight.category in p.yarn],
        )
        for weight in yarn_weights()
    )
    note = "The standard category of each yarn that is used. Most patterns can be made in others."
    return _facet("yarn", "Yarn", note, values)


def _times(found: Found) -> Facet:
    values = ((id, words, [p for p in found if id in p.time]) for id, _, words in TIMES)
    note = "Estimated from the stitches, by the longer of the two times that a page gives."
    return _facet("time", "Time", note, values)


def _terms(found: Found) -> Facet:
    values = ((t.value.lower(), t.value, [p for p in found if p.terms == t.value]) for t in Terms)
    note = "What a pattern was written in. Every page shows its rounds in either."
    return _facet("terms", "Terms", note, values)


HAZARDS_NOTE = (
    "As far as the materials, the steps and the designer tell. The safety note on each page says"
    " more, and the rules of the place where the object is given or sold apply."
)


def _in_words(found: Found) -> dict[str, str]:
    """Everything that some pattern has, those of the table first."""
    order = {slug(hazard.id): hazard.has for hazard in hazards()}
    there = dict(one for pattern in found for one in pattern.has)
    known = {id: words for id, words in order.items() if id in there}
    return known | {id: there[id] for id in sorted(there) if id not in known}


def _has_in_it(found: Found) -> Facet:
    values = (
        (id, f"Has {words}", [p for p in found if (id, words) in p.has])
        for id, words in _in_words(found).items()
    )
    return _facet("has", "What is in it", HAZARDS_NOTE, values)


def _without(found: Found) -> Facet:
    values = (
        (id, f"Without {words}", [p for p in found if id not in dict(p.has)])
        for id, words in _in_words(found).items()
    )
    return _facet(
        OPTIONAL, "What is not in it", "None is named in the materials or the steps.", values
    )
