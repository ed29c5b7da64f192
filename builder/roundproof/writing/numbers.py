"""Round numbers without gap and double, and what becomes of a number that is named elsewhere."""

from __future__ import annotations

from collections.abc import Sequence

from roundproof.frozen import dataclass
from roundproof.notation.labels import label as label_of
from roundproof.notation.tree import Act, Action, Entry, Label, Round
from roundproof.source import Line
from roundproof.words import say

_BREAKS = (Act.FASTEN_OFF, Act.JOIN_YARN)


@dataclass(frozen=True, slots=True)
class Numbers:
    """The rounds of a piece in order, each with the label it has and the one it gets. `why` tells
    why a piece keeps its numbers though they skip or double."""

    labels: tuple[tuple[Label, Label], ...]
    why: str = ""

    @property
    def change(self) -> bool:
        return any(old != new for old, new in self.labels)

    def of(self, number: int, before: int | None = None) -> tuple[int, ...]:
        """The new numbers of the rounds that bear a number, the one that counts last; only those
        before the round with the index `before`, where that is given. Empty where there is none."""
        found = {
            new.first + number - old.first: None
            for old, new in self.labels[:before]
            if old.first <= number <= old.last
        }
        return tuple(found)

    def move(self, number: int, before: int | None = None) -> int:
        """The new number, or the same where no round bears it."""
        return (self.of(number, before) or (number,))[-1]


def as_they_are(entries: Sequence[Entry]) -> Numbers:
    """Every round with the number it has."""
    labels = [entry.label for entry in entries if isinstance(entry, Round)]
    return Numbers(tuple(zip(labels, labels, strict=True)))


def in_order(entries: Sequence[Entry]) -> Numbers:
    """Every round with the number it ought to have. After the yarn is fastened off or joined anew,
    numbers that start again at 1 go on doing so."""
    found: list[tuple[Label, Label]] = []
    last, fresh = 0, False
    for entry in entries:
        if isinstance(entry, Action):
            fresh = fresh or entry.act in _BREAKS
            if label_of(Line(entry.span.text, entry.span)):
                return _kept(entries, say("tidy.label_of_action", line=entry.span.begins[0]))
        if not isinstance(entry, Round):
            continue
        label = entry.label
        if label.last < label.first:
            return _kept(entries, say("tidy.backwards", label=label))
        first = 1 if fresh and label.first == 1 else last + 1
        last, fresh = first + label.rounds - 1, False
        new = Label(first, last, label.span, label.row, label.given)
        found.append((label, new))
    return Numbers(tuple(found))


def _kept(entries: Sequence[Entry], why: str) -> Numbers:
    return Numbers(as_they_are(entries).labels, why)
