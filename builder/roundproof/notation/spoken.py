"""Writes rounds out in full sentences, for reading aloud: full names, no abbreviations, no signs
that are swallowed or spelled out. Order and grouping stay the designer's; what is written is read
back as the same tree.

Every repeat has an end that can be heard. A plain one that starts the round closes with a sentence
of its own ("Do this 6 times in all."); any other is announced and ended in words ("Do the following
3 times: …; end of the repeat.").
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from roundproof.notation.spoken_stitches import Names
from roundproof.notation.tree import (
    Again,
    Chain,
    Colour,
    FarSide,
    Instruction,
    Item,
    JoinRound,
    Label,
    Leave,
    Loop,
    Repeat,
    Stitches,
    Times,
    Turn,
    Where,
)
from roundproof.notation.writer import Part, counting, text_of
from roundproof.pattern.model import Terms

_LOOPS = {Loop.FRONT: "the front loops only", Loop.BACK: "the back loops only"}
_BOTH = "both loops"


def speak(
    instruction: Instruction,
    in_terms: Terms,
    colour: Callable[[str], str] = str,
    *,
    rows: bool = False,
) -> tuple[Part, ...]:
    """The instruction in whole sentences, the first one without a capital, so that "Round 7:" may
    stand before it. `colour` names a yarn by its key; `rows`: the work goes across, not around."""
    return _Speaker(in_terms is Terms.UK, colour, rows).instruction(instruction)


def spoken(
    instruction: Instruction,
    in_terms: Terms,
    colour: Callable[[str], str] = str,
    *,
    rows: bool = False,
) -> str:
    """The same as one plain line."""
    return text_of(speak(instruction, in_terms, colour, rows=rows))


def speak_round(
    label: Label,
    work: Instruction | Again,
    count: int | None,
    in_terms: Terms,
    colour: Callable[[str], str] = str,
) -> tuple[Part, ...]:
    """A whole round: "Round 7: single crochet in each stitch around. 42 stitches." `count` is left
    out where it is None, and where earlier rounds are repeated."""
    name = Part("text", f"{_label(label)}: ")
    if isinstance(work, Again):
        return name, Part("text", _again(work, label.row))
    said = speak(work, in_terms, colour, rows=label.row)
    return (name, *said) if count is None else (name, *said, Part("text", _count(count, label)))


def _label(label: Label) -> str:
    kind = "Row" if label.row else "Round"
    if label.first == label.last:
        return f"{kind} {label.first}"
    return f"{kind}s {label.first} to {label.last}"


def _again(again: Again, rows: bool) -> str:
    kind = "row" if rows else "round"
    one = again.first == again.last
    what = f"{kind} {again.first}" if one else f"{kind}s {again.first} to {again.last}"
    times = f", {again.times} more times" if again.times > 1 else ""
    return f"repeat {what}{times}."


def _count(count: int, label: Label) -> str:
    stitches = f" {count} stitch" if count == 1 else f" {count} stitches"
    each = f" in each {'row' if label.row else 'round'}" if label.rounds > 1 else ""
    return f"{stitches}{each}."


class _Speaker:
    def __init__(self, uk: bool, colour: Callable[[str], str], rows: bool) -> None:
        self.uk = uk
        self.colour = colour
        self.around = "across" if rows else "around"
        self.names = Names(uk, self.around)
        self.first: Item | None = None

    def instruction(self, instruction: Instruction) -> tuple[Part, ...]:
        items = instruction.items
        chained = any(isinstance(i, Stitches) and i.where is Where.HOOK for i in items)
        self.names = Names(self.uk, self.around, chained)
        found = [Part("text", self.lead(instruction))]
        first = self.first = items[0]
        if isinstance(first, Repeat) and _plain(first):
            found += [*self.sequence(first.body), Part("text", self.all_of_it(first.times))]
            items = items[1:]
            found += [Part("text", ". Then ")] if items else []
        found += self.sentences(items)
        return (*(part for part in found if part.text or part.children), Part("text", "."))

    def lead(self, instruction: Instruction) -> str:
        into, loop = instruction.into, instruction.loop
        said = f"in the free {into.loop} loops of round {into.round}: " if into else ""
        return f"{said}in {_LOOPS.get(loop, _BOTH)}: " if loop else said

    def all_of_it(self, times: Times) -> str:
        """What says that everything up to here is repeated."""
        if isinstance(times, int):
            return f". Do this {_times(times)} in all"
        return f". Repeat this{self.names.reach(times)}"

    def sentences(self, items: Sequence[Item]) -> list[Part]:
        """Items in order; a repeat is a sentence of its own."""
        return self.sequence(items, ". Then ")

    def sequence(self, items: Sequence[Item], around_repeats: str = ", then ") -> list[Part]:
        found: list[Part] = []
        before: Item | None = None
        for item in items:
            if isinstance(before, Colour | FarSide):
                found.append(Part("text", ": "))
            elif before is not None:
                apart = isinstance(before, Repeat) or isinstance(item, Repeat)
                found.append(Part("text", around_repeats if apart else ", then "))
            found += self.item(item, inner=around_repeats == ", then ", before=before)
            before = item
        return found

    def item(self, item: Item, inner: bool, before: Item | None) -> list[Part]:
        if isinstance(item, Colour):
            return [Part("text", "with "), Part("colour", self.colour(item.yarn))]
        if isinstance(item, Repeat):
            return [self.repeat(item, "end of the inner repeat" if inner else "end of the repeat")]
        if isinstance(item, JoinRound):
            place = "chain" if isinstance(before, Chain) and before is self.first else "stitch"
            return [Part("text", f"join with a slip stitch in the first {place}")]
        return [Part("text", self.text(item))]

    def repeat(self, item: Repeat, end: str) -> Part:
        times = item.times
        often = f" {_times(times)}" if isinstance(times, int) else self.names.reach(times)
        start = Part("text", f"do the following{often}: ")
        return Part("group", "", (start, *self.sequence(item.body), Part("text", f"; {end}")))

    def text(self, item: Item) -> str:
        if isinstance(item, Stitches):
            return self.names.stitches(item)
        if isinstance(item, Chain):
            return f"chain {item.count}{counting(item)}"
        if isinstance(item, Turn):
            return "turn the work"
        if isinstance(item, Leave):
            return f"leave {item.count} {'stitch' if item.count == 1 else 'stitches'} unworked"
        return "on the other side of the chain"


def _plain(repeat: Repeat) -> bool:
    """Whether a repeat at the start of a round can be told by a sentence behind it."""
    return repeat.times != 1 and not any(isinstance(item, Repeat) for item in repeat.body)


def _times(times: int) -> str:
    return f"{times} time" if times == 1 else f"{times} times"
