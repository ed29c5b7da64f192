"""The tester's form on paper: the fields of the report, with room to write.

They are those of `patterns/<slug>/testers/*.yaml`, so that what is written can be typed in.
"""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.pages.tester import measured_sizes
from roundproof.pages.values import PatternPage
from roundproof.proof import Proof
from roundproof.testers.model import Kind

Field = dict[str, object]
KINDS = tuple(kind.value for kind in Kind if kind is not Kind.REMARK)
"""A remark alone needs no kind."""
CORRECTIONS = 4
"""Places for what has no room beside its round."""


def form(page: PatternPage, proof: Proof) -> list[dict[str, object]]:
    """The sections of the form, in order: a title and its fields. A field is a line to write on,
    some lines, a choice, a table to fill in, or a group of fields that stay together."""
    yarns = [yarn.name for yarn in page.yarns if yarn.name]
    return [
        {"title": title, "fields": fields}
        for title, fields in _sections(page, proof, yarns)
        if fields
    ]


def _sections(
    page: PatternPage, proof: Proof, yarns: list[str]
) -> Iterator[tuple[str, list[Field]]]:
    yield (
        "What you tested",
        [line("Version tested", page.version), line("Begun on"), line("Finished on")],
    )
    yield (
        "Yarn and hook",
        [
            table("For", ["Yarn, fibre, colour", "Ball: g, m", "Before, g", "After, g"], yarns),
            line("Hook or hooks, mm"),
            line("Make of the hook, if unusual"),
            line("Stuffing used, g"),
        ],
    )
    yield (
        "Gauge, worked in the round before you began",
        [
            table("Yarn", ["Stitches", "Rounds", "Over, cm"], yarns),
            choice("Was the gauge met?", "yes", "nearly", "no"),
        ],
    )
    yield (
        "Finished size, stuffed",
        [
            *(line(f"{size}, cm") for size in measured_sizes(proof.pattern.size)),
            lines("Measured from where to where; which picture shows it", 1),
        ],
    )
    yield "Time, in hours", [line("Crochet"), line("Assembly")]
    yield (
        "Stitches you counted",
        [
            table(
                "One of each piece",
                ["Stitches in all its rounds"],
                [piece.name for piece in page.pieces],
            )
        ],
    )
    yield "Other corrections", [*_corrections()]
    yield (
        "The pattern as a whole",
        [
            lines("Assembly: where did you have to guess?", 3),
            lines("Materials that were missing, or listed and not used", 2),
            lines("Abbreviations that were missing, or listed and not used", 2),
            choice("Were there enough pictures?", "yes", "no", "none in my copy"),
            choice("How did it feel?", "easier than said", "as said", "harder than said"),
        ],
    )
    yield (
        "You, if you like (private)",
        [choice("Hand you hook with", "right", "left"), line("Reading aids you used")],
    )
    yield (
        "Your pictures",
        [
            choice("You took, sharp and on a plain ground, the", "front", "side", "back", "detail"),
            choice("May they be shown?", "yes", "yes, without my name", "no"),
            line("Name to thank, as it should be printed"),
        ],
    )


def _corrections() -> Iterator[Field]:
    for _ in range(CORRECTIONS):
        yield group(
            line("Piece and round"),
            choice("What kind?", *KINDS),
            lines("What you read, what you did, better like this", 3),
        )


def line(label: str, value: str = "") -> Field:
    return {"kind": "line", "label": label, "value": value}


def lines(label: str, room: int) -> Field:
    return {"kind": "lines", "label": label, "room": room}


def choice(label: str, *options: str) -> Field:
    return {"kind": "choice", "label": label, "options": list(options)}


def group(*fields: Field) -> Field:
    return {"kind": "group", "fields": list(fields)}


def table(first: str, columns: list[str], rows: list[str]) -> Field:
    return {"kind": "table", "columns": [first, *columns], "rows": rows}
