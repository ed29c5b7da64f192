"""Edges that are joined in part, or that nothing closes."""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.checks._openings import never_closed
from roundproof.checks.base import Check, Found, light, times
from roundproof.fabric.model import Claim, WorkedPiece
from roundproof.fabric.named import names
from roundproof.findings import Finding, Severity
from roundproof.measure.figures import stitches
from roundproof.notation.edges import piece_of
from roundproof.notation.numerals import ordinal
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    hosts = {(c.piece, c.copy) for c in proof.fabric.claims if c.kind == "round" and c.label}
    for key, copy in sorted(hosts):
        yield from _open(proof, key, copy)
    for key in sorted({key for key, _ in hosts}):
        yield from _copies(proof, key)
    for worked, top in never_closed(proof):
        yield _ends_open(proof, worked, top)


def _ends_open(proof: Proof, worked: WorkedPiece, count: int) -> Finding:
    key, last = worked.piece.key, worked.rounds[-1]
    return CHECK.finding(
        last.round.label.span if last.round.label.given else worked.piece.span,
        f"{key} ends with {stitches(count)}, and no step closes that edge or joins it to anything.",
        f"Add `- close: {{edge: {key}, by: gather}}` or the join, or say `open_edge: yes` in"
        f" {key}.",
        severity=light(proof.pattern.status),
        piece=key,
        round=last.label,
    )


def _open(proof: Proof, key: str, copy: int) -> Iterator[Finding]:
    """Stitches of one edge that stay behind when the others are worked."""
    claims = [c for c in proof.fabric.claims if (c.piece, c.copy, c.kind) == (key, copy, "round")]
    host, last = proof.pattern.piece(key), claims[-1]
    if host is None or host.open_edge or last.there is None:
        return
    there = last.there * (1 if copy else host.make)
    over = there - sum(c.count for c in claims)
    if over <= 0 or _joined_later(proof, key):
        return
    yield CHECK.finding(
        last.span,
        f"{_called(last)} has {stitches(there)}, and {_by(claims)} works {there - over} of them:"
        f" {over} {'stays' if over == 1 else 'stay'} open.",
        f"Work {over} more, or say `open_edge: yes` in {key}.",
        piece=last.by,
        round=last.label,
    )


def _copies(proof: Proof, key: str) -> Iterator[Finding]:
    """A pair of which only one is joined."""
    claims = [c for c in proof.fabric.claims if (c.piece, c.kind) == (key, "round") and c.label]
    host = proof.pattern.piece(key)
    copies = {c.copy for c in claims}
    if host is None or 0 in copies or _joined_later(proof, key):
        return
    never = [n for n in range(1, host.make + 1) if n not in copies]
    if not never:
        return
    last = claims[-1]
    yield CHECK.finding(
        last.span,
        f"{key} is made {times(host.make)}, and {_nth(never)} {key} is never worked onto.",
        f"Work around the {_nth(never)} {key} as well, or say `make: {len(copies)}`.",
        piece=last.by,
        round=last.label,
    )


def _joined_later(proof: Proof, key: str) -> bool:
    """Whether a step of the assembly deals with the edge."""
    pieces = proof.fabric.pieces
    return any(
        piece_of(n.said.value, pieces) == key and n.kind == "edge" for n in names(proof.pattern)
    )


def _called(claim: Claim) -> str:
    return f"The {_nth([claim.copy])} {claim.piece}" if claim.copy else claim.piece


def _nth(numbers: list[int]) -> str:
    words = {1: "first", 2: "second", 3: "third", 4: "fourth"}
    return " and ".join(words.get(n, ordinal(n)) for n in numbers)


def _by(claims: list[Claim]) -> str:
    labels = dict.fromkeys(f"{c.label} of {c.by}" for c in claims)
    return " and ".join(labels)


_PATTERN = """\
title: Seal
terms: US
pieces:
  leg:
    make: 2
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: inc x 6 (12)
      Fasten off.
  body: |
    R1: {} ({})
"""

CHECK = Check(
    id="edge-open",
    title="An edge joined in part",
    why=(
        "Where pieces are joined on the hook every stitch of their edges has to be worked, or a"
        " hole stays open between them. One leg of a pair is easily forgotten too, and so is the"
        " step that closes a piece: what ends with more than a few stitches stays open."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format("12 sc around first leg, ch 3, 10 sc around second leg, 3 sc along ch", 28),
    good=_PATTERN.format(
        "12 sc around first leg, ch 3, 12 sc around second leg, 3 sc along ch", 30
    ),
    source="common practice, no source: legs of A and B stitches with c chains make A + B + 2c",
    run=_run,
)
