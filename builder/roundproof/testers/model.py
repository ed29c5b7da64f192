"""A tester's report as its file says it: every value with its place.

A field is None or empty where the report says nothing. Lengths are millimetres, weights grams,
times hours. Nothing here is ever published but in sum.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from enum import StrEnum

from roundproof.findings import Finding
from roundproof.frozen import dataclass, field
from roundproof.pattern.model import Ball, Gauge
from roundproof.source import Located, Span, Text


class Kind(StrEnum):
    """What a tester says of a round, the gravest first: a wrong number, then what stops the work,
    what is misread, slips, taste. Common practice, no source."""

    WRONG_COUNT = "wrong count"
    CANNOT_GO_ON = "cannot go on"
    UNCLEAR = "unclear"
    TYPING_SLIP = "typing slip"
    SUGGESTION = "suggestion"
    REMARK = "remark"

    @property
    def stumble(self) -> bool:
        """Whether something is wrong with the words, and not only might be better."""
        return self not in (Kind.SUGGESTION, Kind.REMARK)


class Verdict(StrEnum):
    """What a designer decides about a place that testers wrote about."""

    ACCEPTED = "accepted"
    DECLINED = "declined"
    LATER = "later"


class Standing(StrEnum):
    """How the version that was tested stands to that of the pattern."""

    CURRENT = "current"
    WORDING = "wording"
    """Only wording has changed since: what was measured still holds."""
    STALE = "stale"
    """The instructions, the object or its size have changed since."""
    UNKNOWN = "unknown"
    """Of a version that never was, or of none."""
    OTHER = "another pattern"

    @property
    def holds(self) -> bool:
        """Whether what was measured holds for the pattern as it is."""
        return self in (Standing.CURRENT, Standing.WORDING)


@dataclass(frozen=True, slots=True)
class Said:
    """What a tester wrote about a place: a `remark` in free words, or what was read, what was done
    and what might stand there instead."""

    span: Span
    kind: Located[Kind] | None = None
    read: Text | None = None
    did: Text | None = None
    instead: Text | None = None
    remark: Text | None = None


@dataclass(frozen=True, slots=True)
class Place:
    """What a tester, or a decision, speaks of: `piece` by its key and `round` by its label as
    printed, the range that has it ("R4-R6"). Empty where it is none of the pattern's: then only
    the `words` tell, those of the file or `whole`. Places sort as they stand in the pattern."""

    order: tuple[int, int, str]
    words: str
    piece: str = ""
    round: str = ""


@dataclass(frozen=True, slots=True)
class Note:
    """Something said, and of which place; `about` is the question that it answers, where one was
    put: the assembly, the materials, the abbreviations."""

    place: Place
    said: Said
    about: str = ""

    @property
    def kind(self) -> Kind:
        return self.said.kind.value if self.said.kind else Kind.REMARK


@dataclass(frozen=True, slots=True)
class YarnUsed:
    """One yarn of the tester's own, in the place of a listed one; `before` and `after` what was
    there, in grams."""

    span: Span
    yarn: Located[str] | None = None
    ball: Ball | None = None
    before: Located[float] | None = None
    after: Located[float] | None = None

    @property
    def grams(self) -> float | None:
        """What was used: what was there before less what was left; None where that cannot be."""
        if self.before is None or self.after is None:
            return None
        used = self.before.value - self.after.value
        return used if used >= 0 else None

    @property
    def metres(self) -> float | None:
        """The same in metres, by the tester's own ball: grams used x metres of a ball / its grams
        (sassandstitch.com, yardage; franciscangypsydesigns.com, 2015)."""
        if self.grams is None or self.ball is None:
            return None
        return self.grams * self.ball.metres / self.ball.grams


@dataclass(frozen=True, slots=True)
class Sizes:
    """The finished thing in mm, and between which points it was measured."""

    span: Span
    height: Located[float] | None = None
    width: Located[float] | None = None
    length: Located[float] | None = None
    depth: Located[float] | None = None
    span_: Located[float] | None = None
    around: Located[float] | None = None
    points: Text | None = None


@dataclass(frozen=True, slots=True)
class Times:
    """Hours on the hook, and for making up."""

    span: Span
    crochet: Located[float] | None = None
    assembly: Located[float] | None = None


@dataclass(frozen=True, slots=True)
class Pictures:
    """Which pictures there are, and whether they may be shown, under which name."""

    span: Span
    taken: tuple[Located[str], ...] = ()
    shown: Located[str] | None = None
    credit: Located[str] | None = None


@dataclass(frozen=True, slots=True)
class Report:
    """One report. `file` is its name as it is reported. One that could not be read has nothing but
    that, and findings that say why."""

    file: str
    span: Span
    readable: bool = True
    standing: Standing = Standing.UNKNOWN
    pattern: Located[str] | None = None
    version: Located[str] | None = None
    tester: Located[str] | None = None
    started: Located[date] | None = None
    finished: Located[date] | None = None
    hook: Located[float] | None = None
    hook_make: Text | None = None
    yarns: Mapping[str, YarnUsed] = field(default_factory=dict)
    stuffing: Located[float] | None = None
    gauge: Mapping[str, Gauge] = field(default_factory=dict)
    gauge_met: Located[str] | None = None
    size: Sizes | None = None
    time: Times | None = None
    notes: tuple[Note, ...] = ()
    stitches: Mapping[str, Located[int]] = field(default_factory=dict)
    photos_enough: Located[str] | None = None
    difficulty: Located[str] | None = None
    hand: Located[str] | None = None
    reading_aids: Text | None = None
    pictures: Pictures | None = None
    findings: tuple[Finding, ...] = ()

    @property
    def who(self) -> str:
        """The identity on the copy; the file where the report does not say it."""
        return self.tester.value if self.tester else self.file.rpartition("/")[2]


@dataclass(frozen=True, slots=True)
class Decision:
    """What the designer decided about a place, why, and in which version it is mended."""

    place: Place
    span: Span
    verdict: Located[Verdict]
    because: Text | None = None
    in_: Located[str] | None = None


@dataclass(frozen=True, slots=True)
class Reports:
    """All that lies in a pattern's `testers/`: reports by the names of their files, decisions in
    the order of theirs, and what there is to say of other files there and of the decisions."""

    reports: tuple[Report, ...] = ()
    decisions: tuple[Decision, ...] = ()
    others: tuple[Finding, ...] = ()

    @property
    def findings(self) -> tuple[Finding, ...]:
        return (*(f for report in self.reports for f in report.findings), *self.others)

    @property
    def own(self) -> tuple[Report, ...]:
        """The reports that can be read and are of this pattern."""
        return tuple(r for r in self.reports if r.readable and r.standing is not Standing.OTHER)

    @property
    def holding(self) -> tuple[Report, ...]:
        """The reports whose figures hold for the pattern as it is."""
        return tuple(report for report in self.reports if report.standing.holds)
