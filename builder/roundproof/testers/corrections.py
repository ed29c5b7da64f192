"""What is to be corrected: for each place what testers wrote, how many stumbled there, and what
was decided. The gravest comes first.

Two or more who stumble at one place: it is rewritten; one: judged (after a designer's account of
her tests, thedilettantemama.com)."""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum

from roundproof.frozen import dataclass
from roundproof.testers.model import Decision, Kind, Note, Place, Report, Reports, Verdict
from roundproof.testers.versions import numbers

_GRAVITY = tuple(Kind)
REWRITE_FROM = 2


class Advice(StrEnum):
    """What is usually done about a place."""

    REWRITE = "rewrite"
    JUDGE = "judge"
    READ = "read"
    """Nobody stumbled: there are suggestions or remarks."""


@dataclass(frozen=True, slots=True)
class Written:
    """What one tester wrote about a place."""

    report: Report
    note: Note


@dataclass(frozen=True, slots=True)
class Correction:
    """A place, and all that was written about it, the gravest first. `again` are the testers who
    stumbled there in the version that was to mend it, or a later one."""

    place: Place
    written: tuple[Written, ...]
    stumbled: tuple[str, ...]
    decision: Decision | None
    again: tuple[str, ...] = ()

    @property
    def gravest(self) -> Kind:
        return self.written[0].note.kind

    @property
    def advice(self) -> Advice:
        if not self.stumbled:
            return Advice.READ
        return Advice.REWRITE if len(self.stumbled) >= REWRITE_FROM else Advice.JUDGE

    @property
    def open(self) -> bool:
        """Whether a decision is wanted. A remark alone wants none."""
        undecided = self.decision is None and self.gravest is not Kind.REMARK
        return undecided or bool(self.again)


def corrections(reports: Reports) -> tuple[Correction, ...]:
    """All places that testers wrote about: by how grave it is, then by how many stumbled, then as
    they stand in the pattern."""
    by_place: dict[Place, list[Written]] = {}
    for report in reports.own:
        for note in report.notes:
            by_place.setdefault(note.place, []).append(Written(report, note))
    decided = {decision.place: decision for decision in reports.decisions}
    found = [_correction(place, each, decided.get(place)) for place, each in by_place.items()]
    return tuple(sorted(found, key=_rank))


def _rank(one: Correction) -> tuple[object, ...]:
    return _GRAVITY.index(one.gravest), -len(one.stumbled), one.place.order


def _correction(place: Place, written: list[Written], decision: Decision | None) -> Correction:
    ranked = sorted(written, key=lambda each: _GRAVITY.index(each.note.kind))
    grave = [each.report for each in ranked if each.note.kind.stumble]
    again = [report.who for report in grave if decision and _mended_before(report, decision)]
    stumbled = _once(report.who for report in grave)
    return Correction(place, tuple(ranked), stumbled, decision, _once(again))


def _once(names: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(names))


def _mended_before(report: Report, decision: Decision) -> bool:
    """Whether a report is of a version in which the place was to be mended."""
    if decision.verdict.value is not Verdict.ACCEPTED or not decision.in_ or not report.version:
        return False
    return numbers(report.version.value) >= numbers(decision.in_.value)
