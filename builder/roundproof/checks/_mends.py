"""Mends for counts that do not come out: the number of times that would."""

from __future__ import annotations

import re
from dataclasses import replace

from roundproof.checks._rounds import counted_repeats, in_words
from roundproof.fabric.model import WorkedRound
from roundproof.fabric.once import worked as work_once
from roundproof.findings import Edit
from roundproof.notation.tree import Instruction, Repeat
from roundproof.proof import Proof
from roundproof.source import Span

_LAST_NUMBER = re.compile(r"\d+(?=\D*\Z)")


def another_number(proof: Proof, worked: WorkedRound) -> tuple[str, tuple[Edit, ...]]:
    """'(4 sc, inc) x 5 would use 30 and make 36.', with the edit, where some other number of times
    uses exactly what there is (and makes what is stated, if that can be)."""
    instruction, available = worked.instruction, worked.available
    repeats = counted_repeats(worked)
    if instruction is None or available is None or len(repeats) != 1:
        return "", ()
    old = repeats[0]
    fit = _times_that_fit(instruction, old, available)
    if fit is None:
        return "", ()
    new = replace(old, times=fit)
    outcome = work_once(_with(instruction, old, new), available, worked.yarn, False)
    words = f"{in_words(new, proof)} would use {outcome.used + outcome.left}"
    return f"{words} and make {outcome.made}.", _edit(old, fit)


def _times_that_fit(instruction: Instruction, old: Repeat, available: int) -> int | None:
    """The number of times at which the round comes out, by proportion from one and two times."""
    one = _needs(instruction, old, 1, available)
    each = _needs(instruction, old, 2, available) - one
    if each <= 0 or (available - one) % each:
        return None
    times = (available - one) // each + 1
    return times if times > 0 and times != old.times else None


def _needs(instruction: Instruction, old: Repeat, times: int, available: int) -> int:
    out = work_once(_with(instruction, old, replace(old, times=times)), available, None, False)
    return out.used + out.left


def _with(instruction: Instruction, old: Repeat, new: Repeat) -> Instruction:
    return replace(instruction, items=tuple(new if i is old else i for i in instruction.items))


def _edit(repeat: Repeat, times: int) -> tuple[Edit, ...]:
    """The number after a group put right, where it stands at the end of its words."""
    match = _LAST_NUMBER.search(repeat.span.text)
    if match is None or int(match.group()) != repeat.times:
        return ()
    return (Edit(repeat.span.cut(match.start(), match.end()), str(times)),)


def count_edit(span: Span, count: int) -> tuple[Edit, ...]:
    return (Edit(span, str(count)),)
