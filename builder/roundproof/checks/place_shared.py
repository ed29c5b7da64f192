"""Two things that are set on the same stitches of a piece."""

from __future__ import annotations

from roundproof.checks.base import Check, Found
from roundproof.fabric.stands import Stand, shared, stands
from roundproof.findings import Severity
from roundproof.proof import Proof

_MOST = 400
"""Things on one pattern that are compared with one another."""


def _run(proof: Proof) -> Found:
    there = stands(proof.pattern, proof.fabric)[:_MOST]
    told: set[tuple[int, int]] = set()
    for index, late in enumerate(there):
        for early in there[:index]:
            steps = (early.span.start, late.span.start)
            within = steps[0] == steps[1]  # the copies of one step are a matter of its own count
            slack = 0.5 if early.exact and late.exact else 1.0
            if within or steps in told or shared(early, late) <= slack - 0.5:
                continue
            told.add(steps)
            yield CHECK.finding(
                late.span, _message(early, late), _mend(early, late), piece=late.host
            )


def _message(early: Stand, late: Stand) -> str:
    about = "" if early.exact and late.exact else "about "
    over = shared(early, late)
    both = "the same place" if not early.wide or not late.wide else f"{over:g} of them in common"
    return (
        f"{_called(late)} stands on {about}{late.stitches} of {late.host}, {late.on}, and"
        f" {_called(early)} on {about}{early.stitches}, {early.on}: {both}."
    )


def _called(stand: Stand) -> str:
    return f"{stand.what} {stand.nth}" if stand.nth > 1 else stand.what


def _mend(early: Stand, late: Stand) -> str:
    clear = max(early.high, late.high) - min(early.low, late.low) >= 0
    return f"Move one of them to other stitches{' or rounds' if clear else ''}."


_PATTERN = """\
title: Puffin
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: (sc, inc) x 6 (18)
    R4: (2 sc, inc) x 6 (24)
    R5-R8: sc around (24)
  wing: |
    R1: 8 sc in magic ring (8)
  foot: |
    R1: 8 sc in magic ring (8)
assembly:
  - join: {{edge: wing, to: body, at: {{footprint: R5-R6, stitches: 2}}, around: {{st: 8}}}}
  - join: {{edge: foot, to: body, at: {{footprint: R6-R7, stitches: 2}}, around: {{st: {}}}}}
"""

CHECK = Check(
    id="place-shared",
    title="Two things on the same stitches",
    why=(
        "Each step of the assembly may be right in itself and still set a foot where the wing is"
        " sewn already. Every place is reckoned to its stitches, counted from the start of the"
        " round or from the mark that it goes by, and no two may share one."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format(9),
    good=_PATTERN.format(20),
    source="common practice, no source: no two attachments claim the same stitches",
    run=_run,
)
