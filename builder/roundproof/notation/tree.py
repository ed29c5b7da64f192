"""The instruction tree: what a round says, once it has been read.

Text is parsed once; everything later comes from here. Stitches bear the ids of the stitch table,
which are the US short names ("sc"), whatever terms the pattern is written in. Spans are left out
of comparisons: two trees are equal when they say the same.
"""

from __future__ import annotations

from enum import StrEnum

from roundproof.frozen import dataclass, field
from roundproof.reference import stitches
from roundproof.source import Span


class Loop(StrEnum):
    """Which strand of the top of a stitch the hook goes under."""

    BOTH = "both"
    FRONT = "front"
    BACK = "back"


@dataclass(frozen=True, slots=True)
class Fill:
    """As often as it takes to fill the round, but for the last `before` stitches."""

    before: int = 0


Times = int | Fill


class Where(StrEnum):
    """What a stitch goes into, where it is not simply the next one."""

    NEXT = "next"
    RING = "ring"
    FIRST = "first"
    SAME = "same"
    LAST = "last"
    HOOK = "from hook"
    """The nth chain from the hook: see `Stitches.nth`."""


class Spot(StrEnum):
    """What a place of its own is: see `Onto`."""

    PIECE = "piece"
    """The last round of another piece, joined on the hook."""
    UNWORKED = "unworked"
    """Stitches that an earlier round left."""
    CHAIN = "chain"
    """The other side of the chains made in this round."""
    PATH = "path"
    """The path of a piece worked on the surface."""


@dataclass(frozen=True, slots=True)
class Onto:
    """A place of their own that stitches go into, not the round below. `piece` is the key of a
    piece, or the word as written where the pattern has none, empty for the piece itself; `copy`
    which of its copies, 0 where nothing is said; `round` the round that left the stitches, 0 for
    the latest. `both` tells that each stitch goes through the round below as well; `front` that it
    takes only the front layer of what is there."""

    spot: Spot
    piece: str = ""
    copy: int = 0
    round: int = 0
    both: bool = False
    front: bool = False


UNCOUNTED = frozenset(kind.id for kind in stitches().values() if not kind.counts)
"""Stitches that count for nothing in their round."""


@dataclass(frozen=True, slots=True)
class Unit:
    """A stitch or a group of stitches made as one: `makes` in working order as (stitch id, how
    many), over `uses` stitches. An increase makes more than it uses, a decrease makes one of two
    or more, skipping makes nothing. `word` is the designer's name for it ("inc", "dec",
    "inv dec"), empty where it goes by its stitches."""

    makes: tuple[tuple[str, int], ...]
    uses: int = 1
    word: str = ""

    @property
    def skips(self) -> bool:
        """Whether it only passes stitches over: nothing is made, and it has no name of its own."""
        return not self.makes and not self.word

    @property
    def made(self) -> int:
        """Stitches it leaves for the next round; a picot is none."""
        return sum(count for kind, count in self.makes if kind not in UNCOUNTED)


@dataclass(frozen=True, slots=True)
class Stitches:
    """A unit worked `times` times: each into the next stitch, or as `where` says."""

    unit: Unit
    times: Times
    span: Span = field(compare=False, repr=False)
    loop: Loop | None = None
    where: Where = Where.NEXT
    nth: int = 0
    layers: int = 1
    onto: Onto | None = None


@dataclass(frozen=True, slots=True)
class Repeat:
    """A group of items worked `times` times."""

    body: tuple[Item, ...]
    times: Times
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Chain:
    """`count` chains in a row. `counts` is what the text says of one that lifts the work to its
    round: whether it counts as a stitch, or None."""

    count: int
    span: Span = field(compare=False, repr=False)
    counts: bool | None = None


@dataclass(frozen=True, slots=True)
class Colour:
    """From here on with another yarn; `yarn` is a yarn's key, or the word as written where the
    pattern lists no such yarn."""

    yarn: str
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class FarSide:
    """From here on along the other side of the foundation chain."""

    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class JoinRound:
    """A slip stitch into the first stitch: closes the round, uses and makes nothing."""

    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Turn:
    """The work is turned round."""

    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Leave:
    """Stitches announced as left unworked."""

    count: int
    span: Span = field(compare=False, repr=False)


Item = Stitches | Repeat | Chain | Colour | FarSide | JoinRound | Turn | Leave


@dataclass(frozen=True, slots=True)
class FreeLoops:
    """The whole round goes into loops an earlier round left free."""

    loop: Loop
    round: int
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Instruction:
    """The work of one round. `loop` holds for every stitch that names no loop of its own."""

    items: tuple[Item, ...]
    loop: Loop | None = None
    into: FreeLoops | None = None


@dataclass(frozen=True, slots=True)
class Label:
    """The number a round goes by, `first` to `last` for a range. `row` tells rows from rounds;
    `given` is False where the text has no label and the number was counted on."""

    first: int
    last: int
    span: Span = field(compare=False, repr=False)
    row: bool = False
    given: bool = True

    @property
    def rounds(self) -> int:
        return self.last - self.first + 1

    def __str__(self) -> str:
        return f"R{self.first}" if self.first == self.last else f"R{self.first}-R{self.last}"


@dataclass(frozen=True, slots=True)
class Stated:
    """A stitch count as the text states it."""

    count: int
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Round:
    """A line of work. `readings` holds every way the wording can be taken, mostly one; it is
    empty where the text could not be read. `work` is the span of the instruction alone. `beside`
    are words within it that are no work (they stand in `remark`); `stray` are unknown words
    without which the line would read. `doubtful` are abbreviations that stand for something else
    as well ('MC', 'st')."""

    label: Label
    readings: tuple[Instruction, ...]
    stated: Stated | None
    span: Span = field(compare=False, repr=False)
    work: Span = field(compare=False, repr=False)
    remark: str = ""
    repeats: Again | None = None
    beside: tuple[Span, ...] = ()
    stray: tuple[Span, ...] = ()
    doubtful: tuple[Span, ...] = ()


@dataclass(frozen=True, slots=True)
class Again:
    """Earlier rounds worked again: `first` to `last`, `times` times in all."""

    first: int
    last: int
    times: int
    span: Span = field(compare=False, repr=False)


class Act(StrEnum):
    """The closed list of actions."""

    CHANGE_YARN = "change yarn"
    CHANGE_HOOK = "change hook"
    JOIN_YARN = "join yarn"
    FASTEN_OFF = "fasten off"
    KEEP_YARN = "do not fasten off"
    TURN = "turn"
    FOLD_FLAT = "fold flat"
    STUFF = "stuff"
    MOVE_START = "move start"
    MARK = "mark"


@dataclass(frozen=True, slots=True)
class Action:
    """A line with a meaning but no stitches. `yarn` a yarn's key, `number` a hook in mm or a
    count of stitches, `name` a mark, or the words for a yarn that the pattern does not list."""

    act: Act
    text: str
    span: Span = field(compare=False, repr=False)
    yarn: str | None = None
    number: float | None = None
    name: str | None = None
    between: tuple[int, int] | None = None


@dataclass(frozen=True, slots=True)
class Note:
    """Words for the maker. Private lines (`#`) are dropped while reading."""

    text: str
    span: Span = field(compare=False, repr=False)


Entry = Round | Action | Note


@dataclass(frozen=True, slots=True)
class Script:
    """All that a piece's `rounds` say, in order."""

    entries: tuple[Entry, ...]

    @property
    def rounds(self) -> tuple[Round, ...]:
        return tuple(e for e in self.entries if isinstance(e, Round))
