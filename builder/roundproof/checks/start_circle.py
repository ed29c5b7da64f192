"""Pieces that grow from themselves, or from one another all the way round."""

from __future__ import annotations

from itertools import pairwise

from roundproof.checks.base import Check, Found
from roundproof.findings import Severity
from roundproof.notation.edges import piece_of
from roundproof.proof import Proof
from roundproof.words import listing


def _run(proof: Proof) -> Found:
    hosts = _hosts(proof)
    told: set[str] = set()
    for piece in proof.pattern.pieces:
        circle = _circle(piece.key, hosts)
        if not circle or piece.starts is None or told & set(circle):
            continue
        told |= set(circle)
        message, mend = _told(circle)
        yield CHECK.finding(piece.starts.in_[0].span, message, mend, piece=piece.key)


def _told(circle: list[str]) -> tuple[str, str]:
    key = circle[0]
    if len(circle) == 2:
        return (
            f"{key} is to grow from itself, and cannot be there before it is begun.",
            f"Name the piece that {key} grows from, or take `starts:` out.",
        )
    whole = listing([f"{one} from {other}" for one, other in pairwise(circle)])
    return (
        f"Each of these is to grow from the next, and none can come first: {whole}.",
        "Begin one of them with a ring or a chain.",
    )


def _hosts(proof: Proof) -> dict[str, tuple[str, ...]]:
    """The pieces that each piece grows from."""
    keys = [piece.key for piece in proof.pattern.pieces]
    return {
        piece.key: tuple(
            host for edge in piece.starts.in_ if (host := piece_of(edge.value, keys)) is not None
        )
        for piece in proof.pattern.pieces
        if piece.starts
    }


def _circle(key: str, hosts: dict[str, tuple[str, ...]]) -> list[str]:
    """The shortest way from a piece by what it grows from back to it; empty without any."""
    ways, seen = [[key]], {key}
    for way in ways:
        for host in hosts.get(way[-1], ()):
            if host == key:
                return [*way, key]
            if host not in seen:
                seen.add(host)
                ways.append([*way, host])
    return []


_PATTERN = """\
title: Bell
terms: US
pieces:
  bell:
{}
    rounds: |
      {} (12)
      R2: sc around (12)
      R3: sc in BLO around (12)
  rim:
    starts: {{in: bell R2 free front loops}}
    rounds: |
      R1: 12 sc (12)
      R2: sc around (12)
      R3: sc in BLO around (12)
"""

CHECK = Check(
    id="start-circle",
    title="Pieces that grow from themselves",
    why=(
        "A piece that grows from loops needs the piece with these loops first. Where two grow from"
        " one another, or a piece from itself, there is no first round to begin with."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format("    starts: {in: rim R2 free front loops}", "R1: 12 sc"),
    good=_PATTERN.format("    make: 1", "R1: 12 sc in magic ring"),
    source="common practice, no source",
    run=_run,
)
