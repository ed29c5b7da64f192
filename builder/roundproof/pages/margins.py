"""What the preview writes beside every round: the stitches it had, used and made."""

from __future__ import annotations

from collections.abc import Mapping

from roundproof.fabric.model import WorkedRound
from roundproof.frozen import dataclass
from roundproof.pages.names import piece_ids, round_ids
from roundproof.proof import Proof


@dataclass(frozen=True, slots=True)
class Margin:
    """`figures` are pairs of a number and what it counts; `sound` is False where they disagree."""

    figures: tuple[tuple[str, str], ...]
    sound: bool


def margins(proof: Proof) -> Mapping[str, Margin]:
    """By the id of the round on its page."""
    ids = piece_ids(proof.fabric.pieces)
    return {
        id: _margin(worked)
        for key, piece in proof.fabric.pieces.items()
        for id, worked in zip(round_ids(ids[key], piece.rounds), piece.rounds, strict=True)
    }


def _margin(worked: WorkedRound) -> Margin:
    figures = [(worked.available, "available"), (worked.used, "used")]
    if worked.unworked:
        figures.append((worked.unworked, "left"))
    figures.append((worked.made, "made"))
    if worked.stated is not None and worked.stated != worked.made:
        figures.append((worked.stated, "stated"))
    told = tuple(("–" if n is None else f"{n:,}", what) for n, what in figures)
    return Margin(told, worked.sound)
