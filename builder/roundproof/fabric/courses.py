"""A piece round by round and stitch by stitch, as it lies: what each stitch stands on.

Ranges are taken apart into their single rounds, so this grows with the number of stitches; whoever
calls says how many there may be.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from enum import StrEnum
from itertools import groupby, islice

from roundproof.fabric.edges import in_rows
from roundproof.fabric.laid import Foot, Into, Laid, laid
from roundproof.fabric.model import Base, WorkedPiece, WorkedRound
from roundproof.frozen import dataclass, replace
from roundproof.notation.tree import Act, Action, Chain, Colour, Turn


class Ground(StrEnum):
    """What the stitches of a course stand on."""

    RING = "ring"
    """A ring, or one chain that all go into."""
    CHAIN = "chain"
    """The foundation chain."""
    BELOW = "below"
    """The course before this one."""
    EDGE = "edge"
    """An edge of another piece, loops left free, or the layers of a fold."""


@dataclass(frozen=True, slots=True)
class Course:
    """One round. `number` is that of its label, `nth` how often the piece had it before. `room` is
    how many places its ground has; `stands` the places each stitch stands on, from 0 in the
    direction of work, those on the far side of a chain counted on from `room`: empty for what
    stands on nothing of it (chains, and what goes into another place). `within` are the stitches
    of this course that a stitch goes into. `founded` are the chains of the foundation. `far` tells
    that both its sides are worked, `back` that the work was turned before this course, `folded`
    that it goes through both layers of the piece folded flat."""

    number: int
    nth: int
    row: bool
    ground: Ground
    room: int
    founded: tuple[Laid, ...]
    stitches: tuple[Laid, ...]
    stands: tuple[tuple[int, ...], ...]
    within: tuple[tuple[int, ...], ...]
    far: bool
    back: bool
    folded: bool

    @property
    def symbols(self) -> int:
        """All that is made in it, whether it counts or not."""
        return len(self.founded) + len(self.stitches)

    def places(self, room: int) -> tuple[tuple[int, ...], ...]:
        """The stitches that each of the `room` places is made of which this course leaves for the
        next: each stitch and chain, each stitch and each run of chains, or each stitch alone; where
        none of these is as many, places at even distances."""
        counted = [i for i, s in enumerate(self.stitches) if s.number]
        if len(counted) == room:
            return tuple((i,) for i in counted)
        runs: list[tuple[int, ...]] = []
        for chain, same in groupby(counted, key=lambda i: self.stitches[i].kind == "ch"):
            members = list(same)
            runs += [tuple(members)] if chain else [(i,) for i in members]
        if len(runs) == room:
            return tuple(runs)
        alone = [i for i in counted if self.stitches[i].kind != "ch"]
        if len(alone) != room and counted:
            return tuple((counted[n * len(counted) // room],) for n in range(room))
        return tuple((i,) for i in alone)


def courses(piece: WorkedPiece, most: int) -> tuple[Course, ...] | None:
    """All courses of a piece; None where a round could not be read or there are more than `most`
    stitches in all."""
    found: list[Course] = []
    seen: dict[int, int] = {}
    total, rows, flat = 0, in_rows(piece), False
    named = any(worked.round.label.row for worked in piece.rounds)
    for worked, turned in _with_turns(piece):
        for number, single in _singles(worked):
            if single is None:
                return None
            row = list(islice((s for s in laid(single) if s.kind != "sk"), most - total + 1))
            total += len(row)
            if total > most:
                return None
            # A row is turned at its end, whether that is said or not.
            back = bool(found) and (turned or flat or _turns_first(single))
            if row:
                found.append(_course(single, row, number, seen.get(number, 0), back))
            turned = _turns_at_the_end(worked)
            flat = worked.round.label.row if named else rows
        for number in range(worked.round.label.first, worked.round.label.last + 1):
            seen[number] = seen.get(number, 0) + 1
    return tuple(found)


def _with_turns(piece: WorkedPiece) -> Iterator[tuple[WorkedRound, bool]]:
    """Each line of work, and whether the work was turned since the one before."""
    turned = False
    for entry in piece.entries:
        if isinstance(entry, WorkedRound):
            yield entry, turned
            turned = _turns_at_the_end(entry)
        elif isinstance(entry, Action) and entry.act is Act.TURN:
            turned = not turned


def _turns_at_the_end(worked: WorkedRound) -> bool:
    items = worked.instruction.items if worked.instruction else ()
    return bool(items) and isinstance(items[-1], Turn)


def _turns_first(worked: WorkedRound) -> bool:
    """Whether it is turned before anything is worked but the chain that lifts it."""
    for item in worked.instruction.items if worked.instruction else ():
        if isinstance(item, Turn):
            return True
        if not isinstance(item, Chain | Colour):
            return False
    return False


def _singles(worked: WorkedRound) -> Iterator[tuple[int, WorkedRound | None]]:
    """The rounds of a range one by one, each over what the one before it made."""
    made = [count for rounds, count in worked.run for _ in range(rounds)]
    there, yarn = worked.available, worked.yarn
    last = worked.stretches[-1].yarn if worked.stretches else yarn
    for place in range(worked.rounds):
        number = worked.round.label.first + place
        if worked.instruction is None or worked.available is None:
            yield number, None
            continue
        same = there == worked.available and yarn == worked.yarn
        yield number, worked if same else replace(worked, available=there, yarn=yarn)
        yarn = last  # the one in hand
        there = made[place] if place < len(made) else worked.made


def _course(worked: WorkedRound, row: Sequence[Laid], number: int, nth: int, back: bool) -> Course:
    founded = tuple(row[: worked.chains]) if worked.chains and row[0].kind == "ch" else ()
    if len(founded) == len(row):  # a chain alone is what is made
        founded = ()
    stitches = tuple(row[len(founded) :])
    ground, room = _ground(worked, stitches)
    chains = [i for i, s in enumerate(stitches) if s.kind == "ch"]
    stands, within = list[tuple[int, ...]](), list[tuple[int, ...]]()
    for stitch in stitches:
        own = _in_own_chains(worked, stitch, founded, chains)
        within.append(own)
        stands.append(() if own else tuple(_stood(worked, stitch.feet, ground, room)))
    return Course(
        number,
        nth,
        worked.round.label.row,
        ground,
        room,
        founded,
        stitches,
        tuple(stands),
        tuple(within),
        worked.far_side,
        back,
        worked.folded,
    )


def _ground(worked: WorkedRound, stitches: Sequence[Laid]) -> tuple[Ground, int]:
    room = worked.available or 0
    into_ring = any(foot.into is Into.RING for s in stitches for foot in s.feet)
    if worked.base is Base.RING or into_ring or (worked.base is Base.CHAIN and room <= 1):
        return Ground.RING, 1
    if worked.folded:
        return Ground.EDGE, room // 2
    if worked.base is Base.CHAIN:
        return Ground.CHAIN, room
    return (Ground.BELOW if worked.base is Base.ROUND else Ground.EDGE), room


def _in_own_chains(
    worked: WorkedRound, stitch: Laid, founded: Sequence[Laid], chains: Sequence[int]
) -> tuple[int, ...]:
    """The chains of its own round that a stitch goes back into."""
    if founded and worked.base is Base.CHAIN:
        return ()
    numbers = [foot.number for foot in stitch.feet if foot.into is Into.CHAIN]
    return tuple(chains[n - 1] for n in numbers if 0 < n <= len(chains))


def _stood(worked: WorkedRound, feet: Sequence[Foot], ground: Ground, room: int) -> Iterator[int]:
    for foot in feet:
        if foot.into is Into.RING:
            yield 0
        elif foot.into is Into.FAR_SIDE and worked.far_side:
            yield room + max(0, min(room - 1, room - 1 - foot.number))
        elif foot.into in (Into.STITCH, Into.POST, Into.CHAIN) and room:
            if worked.folded and foot.number > room:
                continue  # the layer behind, at the same place
            yield 0 if ground is Ground.RING else min(foot.number, room) - 1
