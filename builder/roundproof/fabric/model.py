"""Worked rounds, as numbers: nothing here grows with the number of stitches in a round."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from functools import cached_property

from roundproof.frozen import dataclass, field
from roundproof.notation.tree import Entry, Instruction, Loop, Onto, Round
from roundproof.pattern.model import Piece
from roundproof.source import Span


class Base(StrEnum):
    """What a round is worked into."""

    RING = "ring"
    CHAIN = "chain"
    ROUND = "round"
    EDGE = "edge"
    """An edge of another piece, or loops an earlier round left free."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """So many stitches in a row made in one yarn. `yarn` is a yarn's key, or None if unknown."""

    yarn: str | None
    made: int


@dataclass(frozen=True, slots=True)
class Uneven:
    """A repeat told to fill the round which does not come out even: each time uses `each` of the
    `available` stitches there are for it and `over` are left."""

    each: int
    available: int
    over: int
    span: Span = field(compare=False)


@dataclass(frozen=True, slots=True)
class Misfit:
    """Round `round` needs `needed` stitches (those it leaves on purpose included) where there are
    `available`: `over` too many, or `left` left over. `span`: the words at which they run out, or
    the whole work. On the other side of a chain `needed` may be no more than `available`."""

    round: int
    available: int
    needed: int
    over: int
    left: int
    span: Span = field(compare=False)


@dataclass(frozen=True, slots=True)
class FreeRun:
    """Loops left free in a round: how many, and of which kind."""

    round: int
    loop: Loop
    count: int


@dataclass(frozen=True, slots=True)
class WorkedRound:
    """One line of work as worked; for a range one entry, whose numbers are those of design 10.

    `carries` is what the next round starts from after going on from a wrong count. `tally` counts
    the stitches of ONE round by (stitch id, yarn key); decreases and increases count the stitches
    they make. `height` is the mean height of the round's stitches in single crochets. `loops` the
    loop used by every stitch, None where they differ.
    """

    round: Round
    base: Base
    available: int | None
    used: int | None
    unworked: int
    made: int | None
    stated: int | None
    carries: int | None
    instruction: Instruction | None = None
    yarn: str | None = None
    stretches: tuple[Stretch, ...] = ()
    tally: Mapping[tuple[str, str | None], int] = field(default_factory=dict)
    height: float = 1.0
    loop: Loop | None = Loop.BOTH
    chains: int = 0
    """Chains in the foundation this round starts from; with `far_side`, worked down both sides."""
    far_side: bool = False
    uneven: Uneven | None = None
    misfit: Misfit | None = None
    unsettled: bool = False
    """The wording has several readings and none, or more than one, fits."""
    run: tuple[tuple[int, int], ...] = ()
    """(rounds, stitches made in each), in order: one entry for a single round or an even range,
    more where the counts change from round to round of a range."""
    folded: bool = False
    """Worked through both layers of the piece folded flat."""
    onto: tuple[tuple[Onto, int, int | None], ...] = ()
    """Places of their own that stitches go into: how many are used and how many there were."""
    instead: tuple[FreeRun, ...] | None = None
    """For a round told to go into loops that are not free: those that are."""
    lifted: bool = False
    """The chain that lifts the round was taken for a stitch."""
    absorbed: int = 0
    """Stitches that share a loop and are drawn together again by the next round: no width."""

    @property
    def rounds(self) -> int:
        return self.round.label.rounds

    @property
    def sound(self) -> bool:
        """Whether nothing is wrong with the count, so that other arithmetic may rest on it."""
        if self.made is None or self.misfit or self.uneven or self.unsettled:
            return False
        return self.stated is None or self.stated == self.made

    @property
    def label(self) -> str:
        return str(self.round.label)


@dataclass(frozen=True)
class WorkedPiece:
    """A piece worked to its end. `entries` is everything of the script in order, each round as
    worked; `free` the loops left free and not worked into since."""

    piece: Piece
    entries: tuple[WorkedRound | Entry, ...]
    free: tuple[FreeRun, ...] = ()
    left: Mapping[int, int] = field(default_factory=dict)
    """Stitches announced as left unworked, by round number."""
    fastened: bool = False
    gathered: bool = False
    """The last round is drawn together (6 stitches or fewer drawn shut, or said so)."""
    of: str | None = None
    """The key of the piece whose rounds these are, or are the mirror image of."""

    @cached_property
    def rounds(self) -> tuple[WorkedRound, ...]:
        return tuple(e for e in self.entries if isinstance(e, WorkedRound))

    def at(self, number: int) -> WorkedRound | None:
        """The round that bears a number, ranges included; the last one if numbers restart."""
        found = None
        for worked in self.rounds:
            if worked.round.label.first <= number <= worked.round.label.last:
                found = worked
        return found

    @property
    def last(self) -> WorkedRound | None:
        return self.rounds[-1] if self.rounds else None

    @property
    def stitches(self) -> int | None:
        """Stitches in one copy of the piece, or None where a round could not be read."""
        total = 0
        for worked in self.rounds:
            if worked.made is None:
                return None
            total += worked.made * worked.rounds
        return total


@dataclass(frozen=True, slots=True)
class Edge:
    """A named edge of a piece: `count` stitches or loops, in the yarn `yarn`.

    `kind` is "round", "front loops", "back loops", "unworked", "row ends", "far side" or
    "foundation". `per_row` is True for row ends, whose length goes by round height.
    """

    piece: str
    text: str
    kind: str
    count: int | None
    yarn: str | None
    round: int | None = None
    per_row: bool = False


@dataclass(frozen=True, slots=True)
class Claim:
    """Stitches or loops of an edge that are worked into: `count` from the `first` on (0 where that
    is not said), in the copy `copy` of the piece (0: whichever), of the `there` that the edge has.
    `by` is the piece that works into them, `label` its round, empty where it starts there."""

    piece: str
    kind: str
    round: int | None
    copy: int
    first: int
    count: int
    there: int | None
    by: str
    label: str
    span: Span = field(compare=False)


@dataclass(frozen=True, slots=True)
class Fabric:
    """All pieces of a pattern, worked. `claims` are the edges that rounds of other pieces, or later
    ones of the same, work into; `differing` what a piece would be that says it mirrors another
    and is written out all the same."""

    pieces: Mapping[str, WorkedPiece]
    claims: tuple[Claim, ...] = ()
    differing: Mapping[str, WorkedPiece] = field(default_factory=dict)
