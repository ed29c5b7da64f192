"""Mistakes planted in clean pieces, one at a time: what designers mistype, forget and paste twice.

Each is a change of the text of one round. Those that change no count of any round by the oracle's
reckoning, and leave all loops as they were, are no mistakes and are left out.
"""

from __future__ import annotations

import itertools
import random
import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from fabric.oracle import ByHand
from notation.texts import as_text
from roundproof.notation.reader import Context, read_script
from roundproof.pattern.model import Terms

_LABEL = re.compile(r"\s*(?:R|Rnds?|Rounds?|Rows?) ?(\d+)(?:-R?(\d+))?:\s*")
_COUNT = re.compile(r"\s*\((\d+)\)\s*$")
_NUMBER = re.compile(r"(?<![\w-])\d+(?!(?:st|nd|rd|th|tog)\b)")


@dataclass(frozen=True)
class Clean:
    """A piece in which nothing is wrong: the lines of its rounds."""

    name: str
    lines: tuple[str, ...]
    terms: str = "US"
    body: str = ""
    """What the piece says besides its rounds."""

    def draft(self, lines: Sequence[str] | None = None) -> str:
        rounds = "\n".join(f"      {line}" for line in (lines or self.lines))
        head = f"terms: {self.terms}\npieces:\n  piece:\n{self.body}"
        return f"{head}    rounds: |\n{rounds}\n"


@dataclass(frozen=True)
class Mistake:
    """`at` is the line it stands in (of the lines as they are then); `labels` the numbers of the
    rounds it may be told at: the round itself, or the next where it is gone."""

    kind: str
    piece: Clean
    lines: tuple[str, ...]
    at: int
    labels: tuple[int, ...]

    @property
    def told(self) -> str:
        return self.lines[min(self.at, len(self.lines) - 1)]


def numbers(line: str) -> tuple[int, int] | None:
    found = _LABEL.match(line)
    return (int(found[1]), int(found[2] or found[1])) if found else None


def parted(line: str) -> tuple[str, str, str]:
    """Label, work and count of a line."""
    label = _LABEL.match(line)
    start = label.end() if label else 0
    count = _COUNT.search(line)
    end = count.start() if count else len(line)
    return line[:start], line[start:end], line[end:]


def planted(piece: Clean, pick: random.Random) -> Iterator[Mistake]:
    """One mistake of each kind in each round of a piece, where it can be made."""
    for at, line in enumerate(piece.lines):
        found = numbers(line)
        if found is None:
            continue
        for kind, change in _WITHIN.items():
            changed = change(line, pick)
            if changed is not None and changed != line:
                lines = (*piece.lines[:at], changed, *piece.lines[at + 1 :])
                yield Mistake(kind, piece, lines, at, (found[0],))
        yield from _whole(piece, at, found)


def _whole(piece: Clean, at: int, found: tuple[int, int]) -> Iterator[Mistake]:
    """A round left out, with its number or without; a round pasted twice."""
    after = found[1] + 1
    gone = (*piece.lines[:at], *piece.lines[at + 1 :])
    if at + 1 < len(piece.lines):
        yield Mistake("a round missing", piece, gone, at, (found[0], after))
        closed = _renumbered(gone, at, -(found[1] - found[0] + 1))
        yield Mistake("a round missing, the rest renumbered", piece, closed, at, found)
    twice = (*piece.lines[: at + 1], *piece.lines[at:])
    yield Mistake("a round doubled", piece, twice, at + 1, (found[0], after))
    longer = _renumbered(twice, at + 1, found[1] - found[0] + 1)
    yield Mistake("a round doubled, the rest renumbered", piece, longer, at + 1, (after, after + 1))


def _renumbered(lines: tuple[str, ...], start: int, by: int) -> tuple[str, ...]:
    """Lines whose labels from one on are moved."""
    found = list(lines[:start])
    for line in lines[start:]:
        label, work, count = parted(line)
        found.append(re.sub(r"\d+", lambda m: str(int(m[0]) + by), label) + work + count)
    return tuple(found)


def _number(line: str, pick: random.Random) -> str | None:
    label, work, count = parted(line)
    places = [m for m in _NUMBER.finditer(work) if "from hook" not in work[m.end() : m.end() + 20]]
    if not places:
        return None
    place = pick.choice(places)
    was = int(place[0])
    now = pick.choice([n for n in (was - 2, was - 1, was + 1, was + 2, was * 10) if n > 0])
    return label + work[: place.start()] + str(now) + work[place.end() :] + count


def _swap(old: str, new: str) -> Callable[[str, random.Random], str | None]:
    def change(line: str, pick: random.Random) -> str | None:
        label, work, count = parted(line)
        places = list(re.finditer(rf"(?<!inv )\b{old}\b", work))
        if not places:
            return None
        place = pick.choice(places)
        return label + work[: place.start()] + new + work[place.end() :] + count

    return change


def _dropped(line: str, pick: random.Random) -> str | None:
    """One item of a group or of the round left out."""
    label, work, count = parted(line)
    places = list(re.finditer(r"(?<=[(,]) ?[\w ]+,|, [\w ]+(?=[,)]|$)", work))
    places = [p for p in places if "turn" not in p[0] and "in 2nd ch" not in p[0]]
    if not places:
        return None
    place = pick.choice(places)
    return label + (work[: place.start()] + work[place.end() :]).strip(" ,") + count


def _added(line: str, pick: random.Random) -> str | None:
    label, work, count = parted(line)
    if "around" in work or "turn" in work or work.endswith("st"):
        return None
    return f"{label}{work}, {pick.choice(['sc', 'inc', 'dec'])}{count}"


def _loop(line: str, _: random.Random) -> str | None:
    for old, new in (("BLO", "FLO"), ("FLO", "BLO"), ("front loops", "back loops"),
                     ("back loops", "front loops")):  # fmt: skip
        if old in line:
            return line.replace(old, new, 1)
    return None


def _repeat(line: str, pick: random.Random) -> str | None:
    label, work, count = parted(line)
    places = list(re.finditer(r"(?<=\) x )\d+|(?<=to last )\d+", work))
    if not places:
        return None
    place = pick.choice(places)
    now = max(1, int(place[0]) + pick.choice([-1, 1]))
    return label + work[: place.start()] + str(now) + work[place.end() :] + count


def _start(line: str, pick: random.Random) -> str | None:
    label, work, count = parted(line)
    ring = re.search(r"\d+(?= \w+ in magic ring)", work)
    chain = re.match(r"ch (\d+)", work) if "from hook" in work else None
    place = ring or chain
    if place is None:
        return None
    number = place[0] if ring else place[1]
    begin = place.start() if ring else place.start(1)
    now = str(int(number) + pick.choice([-1, 1]))
    return label + work[:begin] + now + work[begin + len(number) :] + count


def _stated(line: str, pick: random.Random) -> str | None:
    label, work, count = parted(line)
    if not count:
        return None
    was = int(re.findall(r"\d+", count)[0])
    return label + work + count.replace(str(was), str(max(1, was + pick.choice([-6, -1, 1, 6]))))


_WITHIN: dict[str, Callable[[str, random.Random], str | None]] = {
    "a number": _number,
    "inc for dec": _swap("inc", "dec"),
    "dec for inc": _swap("dec", "inc"),
    "inc for sc": _swap("sc", "inc"),
    "a stitch dropped": _dropped,
    "a stitch added": _added,
    "a wrong loop": _loop,
    "a wrong repeat": _repeat,
    "a wrong start": _start,
    "a wrong count": _stated,
}


def adds_up(piece: Clean, lines: Sequence[str]) -> bool:
    """Whether a piece holds by hand all the same: every round uses what there is and makes what it
    states, the numbers run on, and nothing is left behind. Such a change is another piece, which
    nobody can tell from the one that was meant."""
    text = as_text("\n".join(lines))
    script, findings = read_script(text, Context(Terms(piece.terms), {}, "piece"))
    rounds = script.rounds
    rows = ByHand(script, chain_counts=_chain_counts(piece)).whole()
    if findings or len(rows) < len(rounds):
        return False
    labels = [(r.label.first, r.label.last) for r in rounds]
    runs_on = labels[0][0] == 1 and all(
        before[1] + 1 == label[0] for before, label in itertools.pairwise(labels)
    )
    return runs_on and all(row is not None and not row.faults for row in rows)


def _chain_counts(piece: Clean) -> bool | None:
    said = re.search(r"chain_counts: (yes|no)", piece.body)
    return said[1] == "yes" if said else None


def without_some_counts(lines: Sequence[str], pick: random.Random, keep: int) -> tuple[str, ...]:
    """A quarter of the counts taken out, but for that of the line `keep`."""
    found = []
    for at, line in enumerate(lines):
        label, work, count = parted(line)
        drop = bool(count) and at != keep and pick.random() < 0.25
        found.append(label + work if drop else line)
    return tuple(found)
