"""Round numbers that skip, double or run backwards."""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.checks._series import told_as_series
from roundproof.checks.base import Check, Found
from roundproof.fabric.model import WorkedPiece, WorkedRound
from roundproof.findings import Severity
from roundproof.notation.tree import Act, Action, Label
from roundproof.proof import Proof

_MOST = 1000
"""Numbers looked through for a round that comes later; a longer gap is missing anyway."""
_BREAKS = (Act.FASTEN_OFF, Act.JOIN_YARN)


def _run(proof: Proof) -> Found:
    for piece in proof.fabric.pieces.values():
        rounds = piece.rounds
        pairs = zip((None, *rounds), rounds, strict=False)
        told = {w.round.label.span for b, w in pairs if w.misfit and told_as_series(b, w)}
        for before, label in _slips(piece):
            if label.span in told:
                continue
            message, mend = _said(before, label)
            yield CHECK.finding(
                label.span,
                message,
                mend,
                severity=Severity.WARNING if before is None and label.first > 1 else None,
                piece=piece.piece.key,
                round=str(label),
            )


def _slips(piece: WorkedPiece) -> Iterator[tuple[Label | None, Label]]:
    """Labels that do not follow from the one before. After the yarn is fastened off or joined
    anew, numbers may start again at 1."""
    before: Label | None = None
    fresh = True
    numbers = {n for w in piece.rounds for n in (w.round.label.first, w.round.label.last)}
    for entry in piece.entries:
        if isinstance(entry, Action):
            fresh = fresh or entry.act in _BREAKS
        if not isinstance(entry, WorkedRound):
            continue
        label = entry.round.label
        expected = before.last + 1 if before else 1
        skipped = range(expected, min(label.first, expected + _MOST))
        late = bool(skipped) and all(n in numbers for n in skipped)  # told of where they stand
        restart = fresh and before is not None and label.first == 1
        if label.last < label.first or (
            label.given and label.first != expected and not restart and not late
        ):
            yield before, label
        if before is None or restart or label.last > before.last:
            before = label
        fresh = False


def _said(before: Label | None, label: Label) -> tuple[str, str]:
    if label.last < label.first:
        return f"{label} runs backwards.", f"Write R{label.last}-R{label.first}."
    last = before.last if before else 0
    if label.first > last + 1:
        missing = (
            f"R{last + 1}" if label.first == last + 2 else f"R{last + 1} to R{label.first - 1}"
        )
        come = f"after R{last}" if before else "first"
        verb = "is" if label.first == last + 2 else "are"
        return (
            f"{label} comes {come}: {missing} {verb} missing.",
            f"Write {missing}, or number this round R{last + 1}.",
        )
    if before and before.first <= label.first <= before.last:
        return (
            f"R{label.first} stands here twice.",
            f"Number this round R{last + 1}, or take one of them out.",
        )
    return f"{label} comes after R{last}: out of order.", f"Number this round R{last + 1}."


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    {}: (sc, inc) x 6 (18)
"""

CHECK = Check(
    id="round-order",
    title="Rounds missing, doubled or out of order",
    why=(
        "Makers keep their place by the number of the round, and assembly, photos and corrections"
        " refer to it. A number that is skipped or stands twice sends them to the wrong place, and"
        " often marks a round that was lost or pasted twice."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format("R4"),
    good=_PATTERN.format("R3"),
    source="common practice, no source: numbers run without gap, double or reversal",
    run=_run,
)
