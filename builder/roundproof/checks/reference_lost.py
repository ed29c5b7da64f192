"""Words that refer to a round or a photo which is not there."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache

from roundproof.checks._prose import Said, lines, notes
from roundproof.checks.base import Check, Found, quoted
from roundproof.fabric.model import WorkedPiece
from roundproof.findings import Severity
from roundproof.pattern.model import Close, Embroider, Insert, Join, Place, Stuff, Verb
from roundproof.proof import Proof
from roundproof.source import Located


def _run(proof: Proof) -> Found:
    numbers = {key: _numbers(piece) for key, piece in proof.fabric.pieces.items()}
    for said, keys in (*_steps(proof), *((n, [n.piece or ""]) for n in notes(proof))):
        yield from _rounds(proof, said, keys, numbers)
        yield from _photos(proof, said)


def _steps(proof: Proof) -> Iterator[tuple[Said, list[str]]]:
    """The wording of each step, with what its verb names."""
    for step in proof.pattern.assembly:
        for said in lines(step.step):
            yield said, list(_named(step.verb))


def _named(verb: Verb) -> Iterator[str]:
    words: tuple[Located[str] | None, ...] = ()
    match verb:
        case Join(edge=edge, to=to):
            words = (edge, to)
        case Close(edge=edge):
            words = (edge,)
        case Place(piece=piece) | Insert(piece=piece) | Embroider(piece=piece) | Stuff(piece=piece):
            words = (piece,)
    yield from (word.value for word in words if word is not None)


def _rounds(proof: Proof, said: Said, keys: Sequence[str], numbers: _Numbers) -> Found:
    found = list(_round().finditer(said.text))
    if not found:
        return
    pieces = proof.fabric.pieces
    told = " ".join((said.text, *keys)).lower()
    meant = [key for key, p in pieces.items() if key in keys or _is_named(p, told)]
    for match in found:
        wanted = [int(n) for n in match.groups() if n]
        lost = next((n for n in wanted if not _there(meant or pieces, n, numbers)), None)
        if lost is None:
            continue
        names = " and ".join(quoted(pieces[key].piece.name) for key in meant)
        elsewhere = _there(pieces, lost, numbers)
        yield CHECK.finding(
            said.place(*match.span()),
            f"{quoted(match[0])}: there is no R{lost} in {names or 'any piece'}.",
            "Say of which piece." if elsewhere else "Name a round that there is.",
            severity=Severity.WARNING if elsewhere else Severity.ERROR,
            piece=said.piece,
            round=said.round,
        )


_Numbers = Mapping[str, Sequence[tuple[int, int]]]
"""The round numbers of each piece, from and to."""


def _numbers(piece: WorkedPiece) -> list[tuple[int, int]]:
    """The numbers of its rounds, those that follow on each other taken together."""
    runs: list[tuple[int, int]] = []
    for first, last in sorted((w.round.label.first, w.round.label.last) for w in piece.rounds):
        if runs and first <= runs[-1][1] + 1:
            runs[-1] = runs[-1][0], max(last, runs[-1][1])
        else:
            runs.append((first, last))
    return runs


def _there(keys: Iterable[str], number: int, numbers: _Numbers) -> bool:
    """Whether one of the pieces has the round, or is still to be written."""
    runs = (numbers[key] for key in keys)
    return any(not run or any(a <= number <= b for a, b in run) for run in runs)


def _is_named(piece: WorkedPiece, told: str) -> bool:
    names = (name.lower() for name in {piece.piece.key, piece.piece.name})
    return any(n in told and re.search(rf"\b{re.escape(n)}(?:s|es)?\b", told) for n in names)


def _photos(proof: Proof, said: Said) -> Found:
    count, low = len(proof.pattern.photos), said.text.lower()
    if not any(word in low for word in ("photo", "picture", "image", "fig")):
        return
    for found in _photo().finditer(said.text):
        if int(found[1]) > count:
            are = "no photos" if not count else "1 photo" if count == 1 else f"{count} photos"
            yield CHECK.finding(
                said.place(*found.span()),
                f"{quoted(found[0])}: the pattern has {are}.",
                "Add it under `photos:`, or say it in words.",
                piece=said.piece,
                round=said.round,
            )


@cache
def _round() -> re.Pattern[str]:
    """`R12`, `round 12`, `rounds 3 to 5`; not `rounds 3 times`, where the number counts."""
    return re.compile(
        r"\b(?:R|[Rr](?:oun|n)ds?\.?\s|[Rr]ows?\s)\s*(\d{1,4})"
        r"(?:\s*(?:-|–|to|and)\s*(?:R|[Rr](?:oun|n)d\s|[Rr]ow\s)?(\d{1,4}))?"
        r"(?!\w|[.,]\d|\s*(?:times|more|sts?|stitch|cm|mm|in\b|x\b|×))"
    )


@cache
def _photo() -> re.Pattern[str]:
    return re.compile(r"\b(?:photo|picture|image|figure|fig\.?)\s*(?:no\.?\s*)?(\d{1,2})\b", re.I)


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: sc around (12)
    Note: The opening of R{} becomes the underside.
"""

CHECK = Check(
    id="reference-lost",
    title="Reference that leads nowhere",
    why=(
        "Rounds get other numbers when one is put in or taken out, and the notes that speak of them"
        " keep the old ones. A maker who is sent to a round or a photo that is not there cannot"
        " tell what was meant."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format(5),
    good=_PATTERN.format(3),
    source="common practice, no source: cross-references resolve",
    run=_run,
)
