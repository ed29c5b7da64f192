"""Rounds lost or pasted twice, recognised from their neighbours: what series they stand in."""

from __future__ import annotations

import re

from roundproof.checks._rounds import work_in_words
from roundproof.fabric.model import Base, WorkedPiece, WorkedRound
from roundproof.findings import Edit
from roundproof.frozen import dataclass
from roundproof.notation.tree import Instruction, Item, Repeat, Stitches, Unit
from roundproof.notation.units import SINGLE, every_stitch, named
from roundproof.proof import Proof
from roundproof.source import Span

_MOST = 1000
"""Lines of a piece in which labels are moved along."""


@dataclass(frozen=True, slots=True)
class Lost:
    """A round that is missing before `worked`: it would be worked into `made` stitches and make
    `needed`, as the rounds around it do, which gain `step` each (lose, where it is negative)."""

    before: WorkedRound
    worked: WorkedRound
    made: int
    needed: int
    step: int
    work: Instruction | None


def lost_before(before: WorkedRound | None, worked: WorkedRound) -> Lost | None:
    """The round that is missing before one that does not come out: one more step of the series
    around it, and it would."""
    needed = _needed(worked)
    if before is None or before.made is None or needed is None or doubled(before, worked):
        return None
    if any(w.stated is not None and w.stated != w.made for w in (before, worked)):
        return None  # words at fault, not a round
    step = needed - before.made
    if step == 0 or step not in _steps(before, worked, needed):
        return None
    return Lost(before, worked, before.made, needed, step, _round(before, worked, step))


def doubled(before: WorkedRound | None, worked: WorkedRound) -> WorkedRound | None:
    """The round before, where this one says the same again and does not come out."""
    if before is None or _needed(worked) is None or before.instruction is None:
        return None
    same = before.instruction == worked.instruction and before.stated == worked.stated
    return before if same and before.sound else None


def told_as_series(before: WorkedRound | None, worked: WorkedRound) -> bool:
    """Whether what is wrong with a round is told as one that is lost or stands twice."""
    return doubled(before, worked) is not None or lost_before(before, worked) is not None


def inserted(proof: Proof, piece: WorkedPiece, lost: Lost) -> tuple[str, tuple[Edit, ...]]:
    """The missing round in house style, and the edits that put it in and number the rest on."""
    if lost.work is None:
        return "", ()
    label = lost.before.round.label
    number = label.last + 1
    name = f"Row {number}" if label.row else f"R{number}"
    text = f"{name}: {work_in_words(lost.work, proof)} ({lost.needed})"
    place = lost.worked.round.span
    line, column = place.begins
    indent = place.source.line(line)[: column - 1]
    if indent.strip():
        return text, ()
    line_before = f"{text}\n{indent}"
    if lost.worked.round.label.first > label.last + 1:  # its number is still free
        return text, (Edit(place.cut(0, 0), line_before),)
    first, *rest = _numbered_on(piece, lost.worked, 1) or (Edit(place.cut(0, 0), ""),)
    if first.span.start != place.start:
        return text, ()
    return text, (Edit(first.span, line_before + first.text), *rest)


def taken_out(piece: WorkedPiece, before: WorkedRound, worked: WorkedRound) -> tuple[Edit, ...]:
    """The edits that take a round out and number the rest back."""
    place = worked.round.span
    line, column = place.begins
    written = place.source.line(line)
    if written[: column - 1].strip() or written[column - 1 :].rstrip() != place.text.rstrip():
        return ()
    start = place.start - column + 1
    end = start + len(written)
    end += place.source.text[end : end + 1] == "\n"
    out = Edit(Span(place.source, start, end), "")
    if before.round.label.first == worked.round.label.first:  # the number stands twice as well
        return (out,)
    return (out, *_numbered_on(piece, worked, -worked.rounds)[1:])


def _needed(worked: WorkedRound) -> int | None:
    """How many stitches a round wants that does not come out with what there is."""
    misfit = worked.misfit
    if misfit is None or worked.onto or misfit.round != worked.round.label.first:
        return None
    return misfit.needed if misfit.needed != misfit.available else None


def _steps(before: WorkedRound, worked: WorkedRound, needed: int) -> set[int]:
    """What the rounds on either side change the count by."""
    found: set[int] = set()
    if before.available is not None and before.base is Base.ROUND and before.made is not None:
        found.add(before.made - before.available)
    if worked.stated is not None:
        found.add(worked.stated - needed)
    return found - {0}


def _round(before: WorkedRound, worked: WorkedRound, step: int) -> Instruction | None:
    """The missing round, worded like its neighbours: an increase or decrease in each of as many
    equal groups as stitches are gained or lost."""
    times, made = abs(step), before.made or 0
    uses = 1 if step > 0 else 2
    if times == 0 or made % times or made // times < uses:
        return None
    kind = _kind(worked) or _kind(before) or SINGLE
    span = worked.round.work
    plain = made // times - uses
    unit = named(((kind, 2),), 1) if step > 0 else named(((kind, 1),), 2)
    shaped = Stitches(unit, 1, span)
    if not plain:
        return Instruction((Stitches(unit, times, span),))
    body: tuple[Item, ...] = (Stitches(Unit(((kind, 1),)), plain, span), shaped)
    return Instruction((Repeat(body, times, span),))


def _kind(worked: WorkedRound) -> str | None:
    items = worked.instruction.items if worked.instruction else ()
    kinds = {s.unit.makes[0][0] for s in every_stitch(items) if s.unit.makes}
    return kinds.pop() if len(kinds) == 1 else None


def _numbered_on(piece: WorkedPiece, first: WorkedRound, by: int) -> tuple[Edit, ...]:
    """Edits that move the labels of a round and all behind it; none in a very long piece."""
    if len(piece.entries) > _MOST:
        return ()
    rounds = piece.rounds
    rest = rounds[rounds.index(first) :]
    labels = dict.fromkeys(w.round.label.span for w in rest if w.round.label.given)
    return tuple(
        Edit(span, re.sub(r"\d+", lambda m: str(int(m[0]) + by), span.text)) for span in labels
    )
