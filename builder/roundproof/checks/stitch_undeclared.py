"""A stitch that designers mean different things by, and the pattern does not say which."""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.checks._rounds import worked_rounds
from roundproof.checks.base import Check, Found, missing
from roundproof.findings import Severity
from roundproof.notation.tree import Item, Stitches
from roundproof.notation.units import every_stitch
from roundproof.proof import Proof
from roundproof.reference import stitches


def _run(proof: Proof) -> Found:
    told = {stitch.key for stitch in proof.pattern.stitches}
    uk = proof.pattern.written_in.value == "UK"
    for piece, _, worked in worked_rounds(proof):
        items = worked.instruction.items if worked.instruction else ()
        for kind, item in _vague(items):
            if kind in told:
                continue
            told.add(kind)
            name = stitches()[kind].short(uk)
            yield CHECK.finding(
                item.span,
                f"`{name}` is worked in different ways, and the pattern does not say which.",
                f'Say it under `stitches:`, like `{name}: {{how: "..."}}`.',
                severity=missing(proof.pattern.status),
                piece=piece.piece.key,
                round=worked.label,
            )


def _vague(items: tuple[Item, ...]) -> Iterator[tuple[str, Stitches]]:
    for item in every_stitch(items):
        kinds = {item.unit.word, *(kind for kind, _ in item.unit.makes)}
        yield from ((k, item) for k in sorted(kinds) if k in stitches() and stitches()[k].vague)


_PATTERN = """\
title: Pebble
terms: US
{}pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: (bobble, sc) x 3 (6)
"""

CHECK = Check(
    id="stitch-undeclared",
    title="Special stitch without its steps",
    why=(
        "A bobble may be closed over three stitches or over six, a shell may have five stitches or"
        " seven. What the designer meant belongs in the pattern, once: makers then get the same"
        " object, and the stitch's height and yarn can be reckoned with."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format(""),
    good=_PATTERN.format(
        "stitches:\n  bobble: {height: 2, how: 'work 4 dc in the stitch, closed as one'}\n"
    ),
    source="common practice, no source: a special stitch has written steps",
    run=_run,
)
