"""What booklets and the review copy have in common: drawings, things and steps as plain values."""

from __future__ import annotations

from collections.abc import Iterable

from roundproof.drawing.looks import Looks
from roundproof.drawing.sheet import Sheet
from roundproof.drawing.svg import write_file
from roundproof.pages.paper.nodes import Choice, nodes
from roundproof.pages.values import Step, Thing

Values = dict[str, object]


def drawing(sheet: Sheet, looks: Looks) -> Values:
    """A drawing as SVG, with its natural size in pixels."""
    box = sheet.drawing.box
    assert box is not None
    return {
        "kind": sheet.kind.value,
        "svg": write_file(sheet.drawing, looks),
        "alt": sheet.drawing.title,
        "caption": sheet.caption,
        "wide": box.width,
        "high": box.height,
    }


def things(found: Iterable[Thing], choice: Choice) -> list[Values]:
    return [
        {
            "name": nodes(thing.name, choice),
            "more": [nodes(each, choice) for each in thing.more],
            "hazard": thing.hazard,
        }
        for thing in found
    ]


def steps(found: Iterable[Step], choice: Choice) -> list[Values]:
    return [
        {
            "text": nodes(step.text, choice),
            "back": step.back_words,
            "fit": nodes(step.fit, choice),
        }
        for step in found
    ]
