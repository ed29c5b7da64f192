"""Which hazards the things of a pattern bring: those listed, used, or named as a choice."""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.pattern.model import Insert, Join, Joint, Pattern, Place
from roundproof.reference.hazards import Hazard, declared, hazards_of
from roundproof.source import Located


def brought(pattern: Pattern) -> Iterator[tuple[Located[str], Hazard]]:
    """Every item with each hazard that it is declared to bring, or that its name tells of."""
    for notion in pattern.notions:
        hazards = hazards_of(notion.item.value)
        if notion.hazard and (own := declared(notion.hazard.value)) not in hazards:
            hazards = (own, *hazards)
        yield from ((notion.item, hazard) for hazard in hazards)
        if notion.or_:
            yield from ((notion.or_, hazard) for hazard in hazards_of(notion.or_.value))
    listed = {notion.item.value for notion in pattern.notions}
    for item in _worked_in(pattern):
        if item.value not in listed:
            yield from ((item, hazard) for hazard in hazards_of(item.value))


def _worked_in(pattern: Pattern) -> Iterator[Located[str]]:
    for step in pattern.assembly:
        match step.verb:
            case Place(item=item) | Insert(item=item) | Joint(with_=item):
                yield item
            case Join(by=Located() as by):
                yield by
