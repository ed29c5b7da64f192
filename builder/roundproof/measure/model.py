"""Measured figures. Millimetres, millilitres, grams, hours; None where a figure is unreliable.

Sizes are those of the fabric as it comes off the hook. Stuffing stretches it a little: that
enters the weight of the filling only (see `stuffing.py`).
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum

from roundproof.fabric.model import Edge
from roundproof.frozen import dataclass, field
from roundproof.measure.reach import Reach
from roundproof.measure.spacing import Plan
from roundproof.pattern.model import Join
from roundproof.source import Span


class Flatness(StrEnum):
    """The closed list of how a round lies."""

    CONE = "cone"
    CUPPED = "cupped"
    FLAT = "flat"
    WAVY = "wavy"
    RUFFLED = "ruffled"


class Frill(StrEnum):
    """How full a frill is."""

    GENTLE = "gentle"
    FULL = "full"
    TIGHT = "tight"


@dataclass(frozen=True, slots=True)
class RoundSize:
    """One round: `number` its number, `length_mm` the way round it, `radius_mm` and `height_mm`
    (from the start up) those of its upper edge, `flatness` its class, `fullness` its length over
    the circle it has to lie on (1 where it lies plain)."""

    number: int
    length_mm: float
    radius_mm: float
    height_mm: float
    flatness: Flatness
    fullness: float = 1.0


class Form(StrEnum):
    """What a piece is taken for when it is measured."""

    TURNED = "turned"
    """A surface of revolution."""
    OVAL = "oval"
    """Worked down both sides of a chain: stadiums."""
    ROWS = "rows"


@dataclass(frozen=True, slots=True)
class PieceSize:
    """One copy of a piece, before stuffing.

    `outline` has one entry a round, from the start up. `height_mm` is how far it reaches along its
    axis, `diameter_mm` the widest round, `edge_mm` the length of the last round. `length_mm` is set
    for ovals and rows, where `diameter_mm` is the width. `unreliable` says why which figure is
    missing: ("volume", "a piece worked in rows encloses nothing by itself"). `working` says how
    each figure that is there was reached.
    """

    piece: str
    form: Form
    outline: tuple[RoundSize, ...]
    height_mm: float | None
    diameter_mm: float | None
    length_mm: float | None
    edge_mm: float | None
    volume_ml: float | None
    guessed: bool
    """The gauge was guessed from the yarn's thickness."""
    unreliable: Mapping[str, str]
    working: Mapping[str, str] = field(default_factory=dict)


class Verdict(StrEnum):
    """How well two edges fit: silent, note, warning, error."""

    FITS = "fits"
    EASE = "ease in"
    CARE = "ease with care"
    MISFIT = "does not fit"


@dataclass(frozen=True, slots=True)
class Fit:
    """Two edges of a join, each measured in its own yarn.

    `edges`: the edge and what it is joined to; a place on a piece comes as an edge of the kind
    "footprint", "between" or "up". `counts` are the whole edges' stitches; `lengths_mm` (mm) are as
    they lie, half the edge where one is folded flat (`folded`). `suggest` is the count that would
    fit, one for each edge with the other unchanged.

    `fit` = first length / second, `mismatch` = longer / shorter - 1, `halved` where the limits
    are halved because the edge is sewn flat on a body, `by_count` where the two are in one gauge,
    so that the counts alone tell. `fullness` is given where the longer edge is gathered on
    purpose. None where a length cannot be told; `mismatch` is told all the same where both edges
    are in one yarn whose gauge is not known."""

    join: Join
    span: Span
    edges: tuple[Edge, Edge]
    counts: tuple[int | None, int | None]
    lengths_mm: tuple[float | None, float | None]
    fit: float | None
    mismatch: float | None
    suggest: tuple[int | None, int | None]
    verdict: Verdict | None
    halved: bool = False
    eased: bool = False
    folded: tuple[bool, bool] = (False, False)
    by_count: bool = False
    guessed: bool = False
    fullness: float | None = None
    frill: Frill | None = None
    working: str = ""
    kept: tuple[int | None, int | None] = (None, None)
    """Like `suggest`, in the multiple that the piece is worked in."""
    reach: tuple[Reach | None, Reach | None] = (None, None)
    """How each piece would come to end with the count that fits."""
    plan: Plan | None = None
    """How unlike counts meet, stitch by stitch, where the edges are joined all the same."""


@dataclass(frozen=True, slots=True)
class RunsOut:
    """Where a yarn runs out when the pieces are worked in the order of the file, copies one after
    another and seams last: in round `round` ("R17") of the copy `copy` (from 1) of `piece`. `round`
    is None where it lasts for the pieces, and not for sewing that copy on."""

    piece: str
    copy: int
    round: str | None


@dataclass(frozen=True, slots=True)
class YarnNeed:
    """Metres and grams of one yarn for all copies, tails and margin included; `estimated` unless
    a weighed swatch is given; `grams` and `balls` None where the put-up is not known, all None,
    and named in `unreliable`, where a round in this yarn could not be read.

    `margin` is the share that is added to be safe, `listed_metres` what the balls hold that the
    pattern lists, None where it lists none. `runs_out` tells where these end by what is needed
    without the margin; None where they last."""

    yarn: str
    metres: float | None
    grams: float | None
    balls: int | None
    estimated: bool
    unreliable: str = ""
    working: str = ""
    margin: float = 0.0
    listed_metres: float | None = None
    runs_out: RunsOut | None = None
    no_put_up: str = ""
    """Why grams and balls are missing where the metres are not."""


@dataclass(frozen=True, slots=True)
class Spent:
    """Time for a part of the work: `hours` from the quick to the slow maker, None where it cannot
    be told; `working` how it was reached, or why there is none."""

    hours: tuple[float, float] | None
    working: str


@dataclass(frozen=True, slots=True)
class Spread:
    """What `count` people measured: the least, the median and the most."""

    low: float
    middle: float
    high: float
    count: int


@dataclass(frozen=True, slots=True)
class Tested:
    """What testers used and took, to stand beside what is estimated: grams and metres by the keys
    of the yarns, hours in all."""

    grams: Mapping[str, Spread]
    metres: Mapping[str, Spread]
    hours: Spread | None


@dataclass(frozen=True, slots=True)
class NotionSize:
    """Something placed on a piece that is `was_mm` mm in the pattern and should be `size_mm` mm."""

    item: str
    was_mm: float
    size_mm: float


@dataclass(frozen=True, slots=True)
class Measures:
    pieces: Mapping[str, PieceSize]
    fits: tuple[Fit, ...]
    yarns: Mapping[str, YarnNeed]
    stuffing_g: float | None
    """Grams for the whole object, None where a volume is not known."""
    hours: tuple[float, float] | None
    """Making time as a range."""
    time: Mapping[str, Spent]
    """The same for all copies of each piece; with `making_up` they add up to `hours`."""
    making_up: Spent
    working: Mapping[str, str] = field(default_factory=dict)
    """How `stuffing_g` and `hours` were reached, or why they are missing."""
