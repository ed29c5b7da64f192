"""What the review copy prints: plain values, nothing to work out."""

from __future__ import annotations

from markupsafe import Markup

from roundproof.frozen import dataclass
from roundproof.pages.values import Drawn, Materials, Step


@dataclass(frozen=True, slots=True)
class Room:
    """Room for an answer under a key. `of` is the mark of what is asked about; `said` what was
    answered, `by` whom; `stale` where that was before its words changed."""

    key: str
    of: str
    said: str = ""
    by: str = ""
    stale: bool = False


@dataclass(frozen=True, slots=True)
class ReviewFinding:
    """A finding with the words it points at. `reason` is the designer's, where it was set aside;
    `room` is there for what a person decides."""

    check: str
    title: str
    severity: str
    where: str
    line: int
    words: str
    message: str
    mend: str
    accepted: bool
    reason: str
    room: Room | None


@dataclass(frozen=True, slots=True)
class ReviewRound:
    """One line of work: as printed and as typed, with its counts; `said` what stands before it,
    `found` what is found in it."""

    label: str
    work: Markup
    typed: str
    available: str
    used: str
    unworked: str
    made: str
    stated: str
    sound: bool
    said: tuple[Markup, ...]
    found: tuple[ReviewFinding, ...]


@dataclass(frozen=True, slots=True)
class ReviewPiece:
    id: str
    name: str
    make: int
    rounds: tuple[ReviewRound, ...]
    after: tuple[Markup, ...]
    found: tuple[ReviewFinding, ...]
    drawn: tuple[Drawn, ...] = ()


@dataclass(frozen=True, slots=True)
class Figure:
    """A measured figure and how it was reached; `value` is empty where it cannot be told, and
    `how` says why."""

    of: str
    name: str
    value: str
    how: str


@dataclass(frozen=True, slots=True)
class Question:
    """What is left to a person: `about` what is looked at, `text` the question."""

    number: int
    about: str
    text: str
    room: Room


@dataclass(frozen=True, slots=True)
class ReviewPage:
    """`open` counts what a person has still to settle; `answers` is the text that a file of
    answers starts from."""

    title: str
    version: str
    date: str
    status: str
    terms: str
    file: str
    designer: str
    contact: str
    note: Markup
    rules: str
    errors: int
    warnings: int
    notes: int
    accepted: int
    findings: tuple[ReviewFinding, ...]
    materials: Materials
    pieces: tuple[ReviewPiece, ...]
    steps: tuple[Step, ...]
    figures: tuple[Figure, ...]
    questions: tuple[Question, ...]
    unread: tuple[str, ...]
    answers: str
    open: int
    drawn: tuple[Drawn, ...] = ()
