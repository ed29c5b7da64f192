"""Stitches in full words: "2 single crochet in each of the next 3 stitches"."""

from __future__ import annotations

from roundproof.frozen import dataclass, replace
from roundproof.notation.numerals import ordinal
from roundproof.notation.tree import Fill, Loop, Stitches, Times, Unit, Where
from roundproof.notation.units import SINGLE
from roundproof.notation.writer import onto_words
from roundproof.reference import full_name, terms

_LOOPS = {
    Loop.FRONT: "the front loop only",
    Loop.BACK: "the back loop only",
    Loop.BOTH: "both loops",
}
_ORDINALS = (
    *("second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth"),
    *("eleventh", "twelfth"),
)


@dataclass(frozen=True, slots=True)
class Names:
    """Names in one set of terms. `around` is the word for filling a round or a row; `chained`
    tells that the work goes along a foundation chain, whose last stitch is a chain."""

    uk: bool
    around: str
    chained: bool = False

    def reach(self, fill: Fill) -> str:
        if not fill.before:
            return f" {self.around}"
        return " to the last stitch" if fill.before == 1 else f" to the last {fill.before} stitches"

    def stitches(self, item: Stitches) -> str:
        if item.where is not Where.NEXT:
            return self.elsewhere(item)
        if item.onto and not (item.unit.uses == 1 and _several(item.unit)):
            return self.counted(item, "")
        if item.unit.skips:
            return self.skipped(item)
        if not item.unit.makes:
            return self.counted(item, "")
        if item.unit.uses > 1:
            return self.closed_as_one(item)
        if len(item.unit.makes) > 1 or item.unit.makes[0][0] == "ch":
            return self.fan(item)
        kind, count = item.unit.makes[0]
        number = f"{count} " if count > 1 else ""
        return f"{number}{self.name(kind)} {self.into(item)}"

    def into(self, item: Stitches) -> str:
        """Where it goes: "in the back loop only of each of the next 3 stitches"."""
        loop = f"{_LOOPS[item.loop]} of " if item.loop else ""
        where = self.each(item.times).removesuffix(f" {self.around}") if item.onto else ""
        return f"in {loop}{where or self.each(item.times)}{_layers(item)}{_onto(item)}"

    def each(self, times: Times, things: str = "stitch", several: str = "stitches") -> str:
        if not isinstance(times, int):
            return f"each {things}{self.reach(times)}"
        return f"the next {things}" if times == 1 else f"each of the next {times} {several}"

    def fan(self, item: Stitches) -> str:
        """Several kinds in one place."""
        made = [
            f"{self.name(kind)} {count}" if kind == "ch" else f"{count} {self.name(kind)}"
            for kind, count in item.unit.makes
        ]
        return f"work the following {self.into(item)}: {', '.join(made)}; end of the group"

    def closed_as_one(self, item: Stitches) -> str:
        """A decrease, once or over several pairs of stitches."""
        unit, times = item.unit, item.times
        if item.layers > 1:
            return self.counted(item, "")
        if unit.word == "inv dec":
            what = f"make {self.decrease(unit)} over "
            return what + self.several(unit, times) + self.loop(item) + self.rest(times)
        what = f"{self.name(unit.makes[0][0])} {self.several(unit, times)} together"
        return what + self.loop(item) + self.rest(times)

    def several(self, unit: Unit, times: Times) -> str:
        if times == 1:
            return f"the next {unit.uses} stitches"
        one, more = ("pair", "pairs") if unit.uses == 2 else ("group", "groups")
        of = "stitches" if unit.uses == 2 else f"{unit.uses} stitches"
        if isinstance(times, int):
            return f"each of the next {times} {more} of {of}"
        return f"each {one} of {of}"

    def decrease(self, unit: Unit) -> str:
        kind = unit.makes[0][0]
        return "an invisible decrease" if kind == SINGLE else f"a {self.word(unit)}"

    def skipped(self, item: Stitches) -> str:
        skip, times = self.skip(), item.times
        if not isinstance(times, int):
            return f"{skip} {self.each(times)}{_layers(item)}"
        one = "the next stitch" if item.layers == 1 else "the next 1 stitch"
        return f"{skip} {one if times == 1 else f'the next {times} stitches'}{_layers(item)}"

    def elsewhere(self, item: Stitches) -> str:
        """Into the ring, the first stitch, the same one, a chain from the hook."""
        places = {
            Where.RING: "a magic ring",
            Where.FIRST: "the first stitch",
            Where.SAME: "the same stitch",
            Where.LAST: "the last chain" if self.chained else "the last stitch",
            Where.HOOK: f"the {_ordinal(item.nth)} chain from the hook",
        }
        return self.counted(item, f" in {places[item.where]}")

    def counted(self, item: Stitches, place: str) -> str:
        """With its number before it, where one is needed."""
        unit, times = item.unit, item.times
        ringed = item.where is Where.RING
        if unit.word == "inc" and not ringed:
            unit = replace(unit, word="")
        reach = _onto(item) or self.rest(times)
        said = f"{self.word(unit)}{place}{self.loop(item)}{_layers(item)}{reach}"
        if not isinstance(times, int) or unit.skips:
            often = f" {times}" if isinstance(times, int) else ""
            return said if not unit.skips else said.replace(self.skip(), self.skip() + often, 1)
        if times == 1 and item.layers == 1 and not ringed and not item.onto:
            return said
        return said if times == 1 and _numbered(unit) else f"{times} {said}"

    def word(self, unit: Unit) -> str:
        """A unit without its place: "single crochet", "3 double crochet", "increase"."""
        if unit.skips:
            return self.skip()
        if not unit.makes:
            return unit.word
        kind, count = unit.makes[0]
        if unit.word == "inv dec":
            return (
                "invisible decrease" if kind == SINGLE else f"{self.name(kind)} invisible decrease"
            )
        if unit.uses > 1:
            return f"{self.name(kind)} {unit.uses} together"
        if unit.word == "inc":
            return "increase"
        return f"{count} {self.name(kind)}" if count > 1 else self.name(kind)

    def loop(self, item: Stitches) -> str:
        return f" in {_LOOPS[item.loop]}" if item.loop else ""

    def rest(self, times: Times) -> str:
        return "" if isinstance(times, int) else self.reach(times)

    def name(self, kind: str) -> str:
        return full_name(kind, self.uk)

    def skip(self) -> str:
        return terms()["sk"].uk_short if self.uk else terms()["sk"].name


def _numbered(unit: Unit) -> bool:
    return unit.uses == 1 and unit.made > 1 and not unit.word


def _layers(item: Stitches) -> str:
    return " through both layers" if item.layers > 1 else ""


def _several(unit: Unit) -> bool:
    return len(unit.makes) > 1 or unit.made > 1 or any(kind == "ch" for kind, _ in unit.makes)


def _onto(item: Stitches) -> str:
    return f" {onto_words(item.onto, 'round ', 'stitches')}" if item.onto else ""


def _ordinal(number: int) -> str:
    return _ORDINALS[number - 2] if 2 <= number <= 12 else ordinal(number)
