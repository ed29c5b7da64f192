"""A pattern as its file says it: every value with its place, nothing worked out yet.

A field is None, or an empty tuple, where the file says nothing. Lengths are millimetres, weights
grams, whatever unit the file uses. Keys that are words of Python carry an underscore (`with_`).
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from enum import StrEnum

from roundproof.frozen import dataclass
from roundproof.pattern.verbs import (
    Around,
    At,
    Close,
    Embroider,
    Insert,
    Join,
    Joint,
    Place,
    Step,
    Stuff,
    Thread,
    Verb,
)
from roundproof.source import Located, Source, Span, Text

__all__ = [
    "Accept", "Around", "At", "Ball", "Change", "Close", "Embroider", "Gauge", "Insert", "Join",
    "Joint", "Notion", "Pattern", "Permissions", "Photo", "Piece", "Place", "RealSize", "Size",
    "SpecialStitch", "Specimen", "StandIn", "Starts", "Statement", "Status", "Step", "Stuff",
    "Swatch", "Terms", "Thread", "Verb", "Worked", "Yarn"
]  # fmt: skip


class Terms(StrEnum):
    US = "US"
    UK = "UK"


class Status(StrEnum):
    DRAFT = "draft"
    TESTING = "testing"
    PUBLISHED = "published"


class Worked(StrEnum):
    SPIRAL = "spiral"
    JOINED = "joined"
    ROWS = "rows"
    SURFACE = "surface"


@dataclass(frozen=True, slots=True)
class Gauge:
    """`stitches` and `rounds` counted over `over` mm, in the stitch `stitch` (US id, "sc")."""

    stitches: float
    rounds: float
    over: float
    span: Span
    stitch: str = "sc"

    @property
    def stitch_width(self) -> float:
        """Width of one stitch in mm."""
        return self.over / self.stitches

    @property
    def round_height(self) -> float:
        """Height of one round in mm."""
        return self.over / self.rounds


@dataclass(frozen=True, slots=True)
class Ball:
    """How a yarn is put up: grams and metres a ball."""

    grams: float
    metres: float
    span: Span


@dataclass(frozen=True, slots=True)
class Swatch:
    """A weighed swatch: so many stitches weigh so many grams."""

    stitches: int
    grams: float
    span: Span


@dataclass(frozen=True, slots=True)
class StandIn:
    """A maker's own yarn in the place of the one listed, known by its gauge alone: how thick it is
    likely to be, in mm; None where that of the listed one is not known either."""

    thickness: float | None


@dataclass(frozen=True, slots=True)
class Yarn:
    """One colour of one yarn. Entries with `colours:` come as one Yarn a colour.

    `key` is "slate", or "cotton/sand" for a colour of a yarn with several. `words` are the words
    by which rounds may call it (key, colour key, colour name, letter), lower-case; one that two
    yarns share stays with one of them. `letter` is given in order where the file has none.
    """

    key: str
    letter: str
    name: str
    words: tuple[str, ...]
    span: Span
    shade: Located[str] | None = None
    fibre: Located[str] | None = None
    weight: Located[int] | None = None
    ball: Ball | None = None
    balls: Located[int] | None = None
    hook: Located[float] | None = None
    gauge: Gauge | None = None
    swatch: Swatch | None = None
    shared: bool = False
    """True for a yarn of defaults.yaml, which need not be used."""
    gauge_of: tuple[str, ...] = ()
    """The entries of `yarns` that its gauge is, or would be, taken from: its own, then what it is
    like, up to the first that says one."""
    stands_in: StandIn | None = None


@dataclass(frozen=True, slots=True)
class Notion:
    """Something needed besides yarn and hook. `size` in mm, `amount` as written ("1 g")."""

    item: Located[str]
    span: Span
    size: Located[float] | None = None
    count: Located[int] | None = None
    amount: Located[str] | None = None
    hazard: Located[str] | None = None
    or_: Located[str] | None = None


@dataclass(frozen=True, slots=True)
class Starts:
    """Grown out of edges of other pieces: `in_` the edges in words; how copies share the loops."""

    in_: tuple[Located[str], ...]
    span: Span
    each: Located[int] | None = None
    first: tuple[Located[int], ...] = ()


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece of the object and how it is worked."""

    key: str
    span: Span
    """The place of the key."""
    name: str
    make: int = 1
    make_span: Span | None = None
    yarn: Located[str] | None = None
    worked: Located[Worked] | None = None
    stands_for: Located[str] | None = None
    marks: Mapping[str, Located[str]] | None = None
    rounds: Text | None = None
    starts: Starts | None = None
    open_edge: Located[bool] | None = None
    mirror: Located[str] | None = None
    same_as: Located[str] | None = None
    gauge: Gauge | None = None
    hook: Located[float] | None = None
    strands: Located[int] | None = None
    chain_counts: Located[bool] | None = None
    right_side: Located[str] | None = None
    start_at: Located[str] | None = None
    path: Mapping[str, Located[str]] | None = None


@dataclass(frozen=True, slots=True)
class Photo:
    """A picture that belongs to the pattern."""

    file: Located[str]
    span: Span
    alt: Located[str] | None = None
    shows: Located[str] | None = None
    after: Located[str] | None = None
    by: Located[str] | None = None
    licence: Located[str] | None = None
    source: Located[str] | None = None


@dataclass(frozen=True, slots=True)
class Change:
    """One entry of the history, newest first or last."""

    version: Located[str]
    span: Span
    date: Located[date] | None = None
    note: Text | None = None


@dataclass(frozen=True, slots=True)
class Size:
    """Finished size in mm, by dimension."""

    span: Span
    height: Located[float] | None = None
    width: Located[float] | None = None
    length: Located[float] | None = None
    depth: Located[float] | None = None
    span_: Located[float] | None = None
    around: Located[float] | None = None
    with_: Located[str] | None = None
    without: Located[str] | None = None


@dataclass(frozen=True, slots=True)
class RealSize:
    """How big the specimen is, in mm, and the reference that says so."""

    span: Span
    height: Located[float] | None = None
    width: Located[float] | None = None
    length: Located[float] | None = None
    depth: Located[float] | None = None
    span_: Located[float] | None = None
    around: Located[float] | None = None
    source: Located[int] | None = None


@dataclass(frozen=True, slots=True)
class Statement:
    """Something said of the specimen, with its reference by number."""

    says: Text
    span: Span
    source: Located[int] | None = None


@dataclass(frozen=True, slots=True)
class Specimen:
    """What the object stands for."""

    span: Span
    name: Located[str] | None = None
    scientific: Located[str] | None = None
    real_size: RealSize | None = None
    parts: Mapping[str, Text] | None = None
    simplified: tuple[Text, ...] = ()
    statements: tuple[Statement, ...] = ()
    references: tuple[Text, ...] = ()
    handed: Located[bool] | None = None


@dataclass(frozen=True, slots=True)
class SpecialStitch:
    """A stitch the pattern invents: how many stitches it uses and makes, its height in single
    crochets, how it is worked."""

    key: str
    span: Span
    uses: int = 1
    makes: int = 1
    height: float = 1.0
    how: Text | None = None


@dataclass(frozen=True, slots=True)
class Accept:
    """A finding set aside: which check, at which piece or round, and why."""

    check: Located[str]
    span: Span
    at: Located[str] | None = None
    because: Located[str] | None = None


@dataclass(frozen=True, slots=True)
class Permissions:
    """What makers may do, in the designer's words."""

    span: Span
    print: Located[str] | None = None
    sell: Located[str] | None = None
    change: Located[str] | None = None
    translate: Located[str] | None = None
    photos: Located[str] | None = None


@dataclass(frozen=True, slots=True)
class Pattern:
    """A pattern file with the defaults merged in. `slug` is the name of its folder."""

    slug: str
    source: Source
    span: Span
    """Where things that the whole file lacks are reported: the title, or the first line."""
    title: Located[str] | None = None
    version: Located[str] | None = None
    """From `version`, or else from the newest entry of `changes`; `date` likewise."""
    date: Located[date] | None = None
    status: Status = Status.DRAFT
    show: Located[str] | None = None
    open: tuple[Text, ...] = ()
    summary: Text | None = None
    designer: Located[str] | None = None
    contact: Located[str] | None = None
    terms: Located[Terms] | None = None
    level: Located[str] | None = None
    pace: Located[float] | None = None
    stretch: Located[float] | None = None
    """Single crochets in a minute of working."""
    licence: Located[str] | None = None
    permissions: Permissions | None = None
    size: Size | None = None
    yarns: tuple[Yarn, ...] = ()
    notions: tuple[Notion, ...] = ()
    safety_note: Text | None = None
    care: Text | None = None
    pieces: tuple[Piece, ...] = ()
    assembly: tuple[Step, ...] = ()
    photos: tuple[Photo, ...] = ()
    changes: tuple[Change, ...] = ()
    stitches: tuple[SpecialStitch, ...] = ()
    letters: Mapping[str, Located[str]] | None = None
    left_right: Located[str] | None = None
    specimen: Specimen | None = None
    credits: tuple[Text, ...] = ()
    accept: tuple[Accept, ...] = ()

    @property
    def written_in(self) -> Terms:
        """The terms its rounds are in; US where it does not say."""
        return self.terms.value if self.terms else Terms.US

    def yarn(self, word: str) -> Yarn | None:
        """The yarn that a word, letter or key names, or None."""
        low = word.lower()
        return next((y for y in self.yarns if low == y.key.lower() or low in y.words), None)

    def piece(self, key: str) -> Piece | None:
        return next((p for p in self.pieces if p.key == key), None)
