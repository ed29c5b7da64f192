"""Copies of a piece that start from the same loops, or from more loops than there are."""

from __future__ import annotations

import itertools
from collections.abc import Iterator

from roundproof.checks.base import Check, Found
from roundproof.fabric.model import Claim
from roundproof.findings import Finding, Severity
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    for piece in proof.pattern.pieces:
        claims = [c for c in proof.fabric.claims if c.by == piece.key and not c.label and c.first]
        yield from _past_the_end(claims)
        yield from _twice(claims)


def _past_the_end(claims: list[Claim]) -> Iterator[Finding]:
    for number, claim in enumerate(claims, 1):
        last = claim.first + claim.count - 1
        if claim.there is None or last <= claim.there:
            continue
        fit = claim.there // sum(c.copy == claim.copy for c in claims)
        yield CHECK.finding(
            claim.span,
            f"{_copy(claim, claims, number)} takes loops {claim.first} to {last} of {_edge(claim)},"
            f" and there are {claim.there}.",
            f"{len(claims)} copies can take {fit} each (`each: {fit}`), or start further on.",
            piece=claim.by,
        )
        return


def _twice(claims: list[Claim]) -> Iterator[Finding]:
    in_order = sorted(enumerate(claims, 1), key=lambda pair: (pair[1].copy, pair[1].first))
    for (first, one), (second, other) in itertools.pairwise(in_order):
        shared = one.first + one.count - other.first
        if (one.piece, one.kind, one.round, one.copy) != (
            other.piece,
            other.kind,
            other.round,
            other.copy,
        ):
            continue
        if shared > 0:
            yield CHECK.finding(
                other.span,
                f"Copies {first} and {second} of {one.by} both take loops {other.first} to"
                f" {min(other.first + shared, other.first + other.count) - 1} of {_edge(one)}.",
                f"A loop can be worked into once: start copy {second} at {one.first + one.count}.",
                piece=one.by,
            )
            return


def _copy(claim: Claim, claims: list[Claim], number: int) -> str:
    return f"Copy {number} of {claim.by}" if len(claims) > 1 else claim.by


def _edge(claim: Claim) -> str:
    return f"the {claim.there} of {claim.piece} R{claim.round}"


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: BLO: sc around (12)
  petal:
    make: 2
    open_edge: yes
    starts: {{in: body R2 free front loops, each: 4, first: [1, {}]}}
    rounds: |
      R1: 4 sc (4)
"""

CHECK = Check(
    id="loops-shared",
    title="Loops that two copies take",
    why=(
        "Petals, fringes and legs grow out of a run of loops each. Two runs that overlap, or one"
        " that goes past the last loop, are found out when the first copy is done and the next has"
        " no place."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format(3),
    good=_PATTERN.format(7),
    source="common practice, no source: a loop is worked into once",
    run=_run,
)
