"""Pairs that do not stand alike on both sides of their mark."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from roundproof.checks.base import Check, Found
from roundproof.fabric.model import WorkedPiece
from roundproof.fabric.places import marks_of
from roundproof.fabric.stands import Stand, stands
from roundproof.findings import Finding, Severity
from roundproof.measure.figures import stitches
from roundproof.pattern.model import Around, Join, Place
from roundproof.proof import Proof

_NEARLY = 1e-6


def _run(proof: Proof) -> Found:
    there = stands(proof.pattern, proof.fabric)
    for step in proof.pattern.assembly:
        if isinstance(step.verb, Join | Place) and (around := step.verb.around) is not None:
            mine = [stand for stand in there if _of(stand, step.verb)]
            if around.mark is not None and len(mine) > 1:
                yield from _one_step(around, mine)
    yield from _mirrored(proof, there)


def _of(stand: Stand, verb: Join | Place) -> bool:
    return stand.span == (verb.edge.span if isinstance(verb, Join) else verb.item.span)


def _one_step(around: Around, mine: list[Stand]) -> Iterator[Finding]:
    """What goes round a mark: half-way between stitches, or unlike gaps on the two sides."""
    said = around.apart or (around.free[0] if around.free else None)
    mark = around.mark.value if around.mark else ""
    if said is None:
        return
    if mine[0].exact and abs(mine[0].start % 1 - 0.5) < _NEARLY:
        gap, host = said.value, mine[0].host
        yield CHECK.finding(
            said.span,
            f"{stitches(gap)} cannot lie evenly about the mark {mark} of {host}: one side would"
            " begin within a stitch.",
            f"Leave {gap - 1 if gap else 1} or {gap + 1}, or move the mark"
            f" {'into a stitch' if gap % 2 else 'between two stitches'}.",
            piece=host,
        )
        return
    sides = [gap.value for gap in around.free[1:]]
    if len(around.free) % 2 == 0 and sides != sides[::-1]:
        one, two = ", ".join(map(str, sides)), ", ".join(map(str, sides[::-1]))
        yield CHECK.finding(
            around.free[1].span.to(around.free[-1].span),
            f"From the mark {mark} the gaps are {one} on one side and {two} on the other.",
            "Let the gaps read the same forwards and backwards, or leave the mark out.",
            piece=mine[0].host,
        )


def _mirrored(proof: Proof, there: tuple[Stand, ...]) -> Iterator[Finding]:
    """A piece and its mirror image, each with a step of its own on one host."""
    first = {s.what: s for s in there if s.nth == 1}
    for piece in proof.pattern.pieces:
        if piece.mirror is None:
            continue
        one, two = first.get(piece.mirror.value), first.get(piece.key)
        if one is None or two is None or one.host != two.host or one.span == two.span:
            continue
        if (fault := _unlike(proof.fabric.pieces, one, two)) is not None:
            yield CHECK.finding(two.span, fault[0], fault[1], piece=two.host)


def _unlike(pieces: Mapping[str, WorkedPiece], one: Stand, two: Stand) -> tuple[str, str] | None:
    """What differs between the places of a pair, and how it would come right."""
    if (one.site.kind, one.low, one.high, one.wide) != (two.site.kind, two.low, two.high, two.wide):
        wide = [f" over {stitches(int(s.wide))}" if s.wide else "" for s in (one, two)]
        return (
            f"{two.what} mirrors {one.what}; it stands on {two.on}{wide[1]} of {two.host}, and"
            f" {one.what} on {one.on}{wide[0]}.",
            "Give both the same rounds and stitches.",
        )
    known = _marks_on(pieces[one.host], one.count)
    if not known or any(_alike(one, two, place) for _, place in known):
        return None
    name, place = known[0]
    away = [_away(place, each) for each in (one, two)]
    wanted = (2 * place - one.start - one.wide) % one.count + 1
    return (
        f"{two.what} mirrors {one.what}: from the mark {name} of {one.host} the middle of one is"
        f" {away[0]:g} stitches away and that of the other {away[1]:g}.",
        f"Begin {two.what} at stitch {wanted:g}.",
    )


def _marks_on(worked: WorkedPiece, count: int) -> list[tuple[str, float]]:
    """The marks in rounds of so many stitches, each with its place."""
    return [
        (name, mark.place)
        for name, mark in marks_of(worked).items()
        if 0 < mark.stitch <= count and (at := worked.at(mark.round)) and at.made == count
    ]


def _alike(one: Stand, two: Stand, place: float) -> bool:
    """Whether two middles lie as far to one side of a place as to the other."""
    apart = (place - one.middle - (two.middle - place)) % one.count
    return min(apart, one.count - apart) < _NEARLY


def _away(place: float, stand: Stand) -> float:
    apart = (place - stand.middle) % stand.count
    return min(apart, stand.count - apart)


_PATTERN = """\
title: Puffin
terms: US
notions: [eyes 2]
pieces:
  body:
    marks: {{front: R4 between 6 and 7}}
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: inc x 6 (12)
      R3: (sc, inc) x 6 (18)
      R4: (2 sc, inc) x 6 (24)
      R5: sc around (24)
assembly:
  - place: {{item: eyes, piece: body, between: [R4, R5], around: {{mark: front, apart: {}}}}}
safety:
  note: The eyes are small parts that can come loose and be swallowed by young children.
"""

CHECK = Check(
    id="place-lopsided",
    title="A pair that is not symmetric",
    why=(
        "Eyes, claws and wings are counted from a mark so that they stand alike on both sides of"
        " it. An odd number of stitches about a mark between two stitches, or gaps that do not"
        " read the same both ways round, set one of them further out than the other."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format(5),
    good=_PATTERN.format(4),
    source="common practice, no source: pairs that mirror each other are symmetric about a mark",
    run=_run,
)
