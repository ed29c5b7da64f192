"""Writes instructions in house style, in the reader's terms. Order and grouping stay the
designer's; what is written is read back as the same tree."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from roundproof.frozen import dataclass
from roundproof.notation.numerals import ordinal
from roundproof.notation.tree import (
    Chain,
    Colour,
    FarSide,
    Fill,
    Instruction,
    Item,
    JoinRound,
    Leave,
    Loop,
    Onto,
    Repeat,
    Spot,
    Stitches,
    Times,
    Turn,
    Unit,
    Where,
)
from roundproof.notation.units import SINGLE, place_of, without_place
from roundproof.pattern.model import Terms
from roundproof.reference import short_name, terms


@dataclass(frozen=True, slots=True)
class Part:
    """A stretch of written work. `kind`: "text"; "colour", whose text is what the caller gave for
    a yarn; "group", a repeat in brackets with its number, whose children are its stretches."""

    kind: str
    text: str = ""
    children: tuple[Part, ...] = ()


def write(
    instruction: Instruction,
    in_terms: Terms,
    colour: Callable[[str], str] = str,
    *,
    rows: bool = False,
) -> tuple[Part, ...]:
    """The instruction in house style. `colour` names a yarn by its key; `rows`: the work goes
    across, not around."""
    return _Writer(in_terms is Terms.UK, colour, rows).instruction(instruction)


def text_of(parts: Sequence[Part]) -> str:
    """Written work as one plain line."""
    return "".join(text_of(p.children) if p.kind == "group" else p.text for p in parts)


def written(
    instruction: Instruction,
    in_terms: Terms,
    colour: Callable[[str], str] = str,
    *,
    rows: bool = False,
) -> str:
    """The instruction in house style as one plain line."""
    return text_of(write(instruction, in_terms, colour, rows=rows))


_LOOPS = {Loop.FRONT: "FLO", Loop.BACK: "BLO", Loop.BOTH: "both loops"}
_PLACES = {Where.FIRST: "in first st", Where.SAME: "in same st"}


class _Writer:
    def __init__(self, uk: bool, colour: Callable[[str], str], rows: bool) -> None:
        self.uk = uk
        self.around = " across" if rows else " around"
        self.colour = colour
        self.chained = False
        """Working along a foundation chain, whose last stitch is a chain."""
        self.only: Item | None = None
        """What is all of a round: a stitch there without a number would mean all around."""
        self.alone: Item | None = None
        """What is all of a round or a group. Elsewhere a number behind an item would seem to hold
        for what stands before it too: "sc, 6 inc", but "inc x 6"."""

    def instruction(self, instruction: Instruction) -> tuple[Part, ...]:
        self.chained = any(
            isinstance(i, Stitches) and i.where is Where.HOOK for i in instruction.items
        )
        work = [i for i in instruction.items if not isinstance(i, Colour | Turn)]
        self.only = work[0] if len(work) == 1 else None
        found: list[Part] = []
        if instruction.into:
            into = instruction.into
            found.append(Part("text", f"in the free {into.loop} loops of R{into.round}: "))
        if instruction.loop:
            found.append(Part("text", f"{_LOOPS[instruction.loop]}: "))
        return (*found, *self.items(instruction.items))

    def items(self, items: Sequence[Item]) -> list[Part]:
        found: list[Part] = []
        before: Item | None = None
        for item in items:
            self.alone = item if len(items) == 1 else None
            if before is not None:
                found.append(Part("text", self.between(before)))
            found += self.item(item)
            before = item
        return found

    def between(self, before: Item) -> str:
        if isinstance(before, Colour):
            return " "
        return ": " if isinstance(before, FarSide) else ", "

    def item(self, item: Item) -> list[Part]:
        if isinstance(item, Colour):
            return [Part("text", "with "), Part("colour", self.colour(item.yarn))]
        if isinstance(item, Repeat):
            return [self.repeat(item)]
        return [Part("text", self.text(item))]

    def repeat(self, item: Repeat) -> Part:
        """The group in brackets; a place all of it goes to is named once, behind it."""
        onto = place_of(item) if isinstance(item.times, int) or not item.times.before else None
        body = without_place(item).body if onto else item.body
        inside = (Part("text", "("), *self.items(body), Part("text", ")"))
        often = self.times(item.times) if isinstance(item.times, int) or not onto else ""
        place = f" {onto_words(onto)}" if onto else ""
        return Part("group", "", (*inside, Part("text", often + place)))

    def text(self, item: Item) -> str:
        if isinstance(item, Stitches):
            return self.stitches(item)
        if isinstance(item, Chain):
            return f"ch {item.count}{counting(item)}"
        if isinstance(item, JoinRound):
            return f"{self.short('sl st')} in first st"
        if isinstance(item, Turn):
            return "turn"
        if isinstance(item, Leave):
            return f"leave {item.count} {_sts(item.count)} unworked"
        return "on the other side"

    def stitches(self, item: Stitches) -> str:
        parts = [self.unit(item), self.place(item)]
        if item.loop:
            parts.append(f"in {_LOOPS[item.loop]}")
        if item.layers > 1:
            parts.append("through both layers")
        if item.onto:
            parts.append(onto_words(item.onto))
            return " ".join(part for part in parts if part)
        if isinstance(item.times, Fill) and not _in_each(item):
            parts.append(self.times(item.times).strip())
        return " ".join(part for part in parts if part)

    def unit(self, item: Stitches) -> str:
        """The unit with its number: '3 sc', 'inc x 6', '3 sc in next st x 2'."""
        unit, times = item.unit, item.times
        if unit.skips:
            skip = terms()["sk"].uk_short if self.uk else terms()["sk"].us_short
            return f"{skip} {times}" if isinstance(times, int) else skip
        name = self.name(unit)
        if _in_one_place(item):
            where = "each st" if item.onto and times == Fill() else self.each(times)
            return f"{name} in {where}"
        plain = unit.uses == 1 and unit.made == 1 and not unit.word
        numbered = unit.uses == 1 and unit.made > 1 and not unit.word
        if item.onto and isinstance(times, int):
            return f"{times} {name}"
        if not isinstance(times, int) or (times == 1 and (item.layers == 1 or numbered)):
            return f"1 {name}" if times == 1 and plain and item is self.only else name
        first = plain or times == 1 or item is not self.alone
        return f"{times} {name}" if first else f"{name} x {times}"

    def each(self, times: Times) -> str:
        """Into which stitches several go: 'next st', 'each of next 3 sts', 'each st around'."""
        if not isinstance(times, int):
            return f"each st{self.times(times)}"
        return "next st" if times == 1 else f"each of next {times} sts"

    def name(self, unit: Unit) -> str:
        kind = unit.makes[0][0] if unit.makes else ""
        if unit.word == "inv dec" and kind != SINGLE:
            return f"{self.short(kind)} {unit.word}"
        if unit.word:
            return unit.word
        if unit.uses > 1:
            return f"{self.short(kind)}{unit.uses}tog"
        fan = ", ".join(self.several(kind, count) for kind, count in unit.makes)
        return f"({fan})" if len(unit.makes) > 1 or kind == "ch" else fan

    def several(self, kind: str, count: int) -> str:
        if kind == "ch":
            return f"{self.short(kind)} {count}"
        return f"{count} {self.short(kind)}" if count > 1 else self.short(kind)

    def place(self, item: Stitches) -> str:
        if item.where is Where.RING:
            return "in magic ring"
        if item.where is Where.HOOK:
            return f"in {ordinal(item.nth)} ch from hook"
        if item.where is Where.LAST:
            return "in last ch" if self.chained else "in last st"
        return _PLACES.get(item.where, "")

    def times(self, times: Times) -> str:
        if isinstance(times, int):
            return f" x {times}"
        return f" to last {times.before} {_sts(times.before)}" if times.before else self.around

    def short(self, kind: str) -> str:
        return short_name(kind, self.uk)


_NTH = ("", "first ", "second ")


def which_copy(copy: int) -> str:
    """'first ' before the name of a piece; nothing where no copy is told from another."""
    return _NTH[copy] if copy < 3 else f"{ordinal(copy)} "


def onto_words(onto: Onto, label: str = "R", sts: str = "sts") -> str:
    """A place of its own: "around first leg", "in unworked sts of R8"."""
    if onto.spot is Spot.CHAIN:
        return "along ch" if sts == "sts" else "in the other side of the chain"
    if onto.spot is Spot.PATH:
        return "along path"
    if onto.spot is Spot.UNWORKED:
        of = f" of {onto.piece}" if onto.piece else ""
        number = f"{label}{onto.round}" if onto.round else ""
        of += number if not number else (f" {number}" if of else f" of {number}")
        return f"in unworked {sts}{of}"
    nth = which_copy(onto.copy)
    front = "front of " if onto.front else ""
    if onto.both:
        return f"through {front}{nth}{onto.piece} and body"
    return f"around {nth}{onto.piece}"


def counting(item: Chain) -> str:
    """What is said of a chain that lifts the work."""
    said = {True: " (counts as a stitch)", False: " (does not count)"}
    return said[item.counts] if item.counts is not None else ""


def _in_one_place(item: Stitches) -> bool:
    """Whether several stitches go into one, with no name for it."""
    unit = item.unit
    together = unit.made > 1 or any(kind == "ch" for kind, _ in unit.makes)
    return together and unit.uses == 1 and not unit.word and item.where is Where.NEXT


def _in_each(item: Stitches) -> bool:
    return not isinstance(item.times, int) and _in_one_place(item)


def _sts(count: int) -> str:
    return "st" if count == 1 else "sts"
