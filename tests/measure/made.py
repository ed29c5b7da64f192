"""Measured patterns from a few lines of text."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise

from proving import proved
from roundproof.measure.model import Fit, Measures, PieceSize

SQUARE = "25 sts x 25 rounds = 10 cm"
"""Stitches as high as wide: 4 mm."""


def pattern(
    pieces: Mapping[str, str], yarns: Mapping[str, str] | None = None, steps: Sequence[str] = ()
) -> str:
    """The text of a draft. `pieces` gives the rounds of each, or all its keys where it is more
    than rounds; `yarns` what each yarn says, in braces."""
    lines = ["title: Example", "terms: US", "yarns:"]
    for key, said in (yarns or {"slate": f"gauge: {SQUARE}"}).items():
        lines.append(f"  {key}: {{{said}}}")
    lines.append("pieces:")
    for key, rounds in pieces.items():
        whole = "rounds: |" in rounds
        lines.append(f"  {key}:" if whole else f"  {key}: |")
        lines += [f"    {line}" for line in rounds.strip("\n").splitlines()]
    if steps:
        lines.append("assembly:")
        lines += [f"  - {step}" for step in steps]
    return "\n".join(lines) + "\n"


def measures(
    pieces: Mapping[str, str], yarns: Mapping[str, str] | None = None, steps: Sequence[str] = ()
) -> Measures:
    proof, _ = proved(pattern(pieces, yarns, steps))
    assert proof is not None
    return proof.measures


def size(rounds: str, gauge: str = SQUARE, steps: Sequence[str] = ()) -> PieceSize:
    """The only piece of a pattern in one yarn."""
    return measures({"body": rounds}, {"slate": f"gauge: {gauge}"}, steps).pieces["body"]


def fit(pieces: Mapping[str, str], yarns: Mapping[str, str] | None = None, step: str = "") -> Fit:
    """The fit of the only join of a pattern."""
    (found,) = measures(pieces, yarns, [step]).fits
    return found


def piece(yarn: str, *rounds: str, more: str = "") -> str:
    """A piece in a yarn, with all that is said of it."""
    said = [f"yarn: {yarn}", *filter(None, [more]), "rounds: |"]
    return "\n".join([*said, *(f"  {line}" for line in rounds)])


def disc(*counts: int) -> list[str]:
    """Rounds with these counts, each made by plain stitches into one."""
    rounds = [f"R1: {counts[0]} sc in magic ring ({counts[0]})"]
    for number, (before, count) in enumerate(pairwise(counts), 2):
        rounds.append(f"R{number}: {_shaped(before, count)} ({count})")
    return rounds


def _shaped(before: int, count: int) -> str:
    more = count - before
    if not more:
        return "sc around"
    if more > 0:
        plain = before - more
        if plain < 0:  # three in some of the stitches
            return f"(3 sc in next st) x {-plain}, {more + 2 * plain} inc"
        return f"{more} inc" + (f", {plain} sc" if plain else "")
    plain = before + 2 * more
    return f"{-more} dec" + (f", {plain} sc" if plain else "")
