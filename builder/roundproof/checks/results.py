"""What came of proving some patterns: the value that every command tells about."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from roundproof.findings import Finding, Severity
from roundproof.frozen import dataclass
from roundproof.measure.finished import Finished
from roundproof.measure.model import NotionSize
from roundproof.pattern.model import Status
from roundproof.proof import Proof


@dataclass(frozen=True, slots=True)
class Summary:
    """How many findings of each severity, those set aside not counted."""

    errors: int
    warnings: int
    notes: int
    accepted: int


@dataclass(frozen=True, slots=True)
class Regauged:
    """What stood for a pattern before it was put into other gauges: `gauges` as the maker says
    them, by the keys of the yarns; `notions` what is placed on it and `finished` the measures of
    the whole, with sizes then and now."""

    was: Proof
    gauges: Mapping[str, str]
    notions: tuple[NotionSize, ...]
    finished: tuple[Finished, ...]


@dataclass(frozen=True, slots=True)
class Kept:
    """What is left of a proof that was let go once its findings were there: the pattern's title
    and status and, for who asked, its worked pieces as plain values."""

    title: str | None
    status: Status
    pieces: tuple[Mapping[str, Any], ...] = ()


@dataclass(frozen=True, slots=True)
class Result:
    """One file. `name` is what it is reported as: its path from where the command runs, with
    forward slashes. `proof` is None where no pattern could be made of it. `usable` is False where
    the file itself is not to be used: not there, not text, empty, too big, broken YAML. `regauged`
    is set where `proof` is in another gauge than the pattern's own; `kept` where it was let go."""

    name: str
    path: Path
    proof: Proof | None
    findings: tuple[Finding, ...]
    usable: bool = True
    regauged: Regauged | None = None
    kept: Kept | None = None

    @property
    def title(self) -> str | None:
        if self.kept:
            return self.kept.title
        title = self.proof.pattern.title if self.proof else None
        return title.value if title else None

    @property
    def status(self) -> Status | None:
        """None where no pattern could be made of the file."""
        if self.kept:
            return self.kept.status
        return self.proof.pattern.status if self.proof else None

    @property
    def summary(self) -> Summary:
        return summary(self.findings)

    @property
    def has_errors(self) -> bool:
        return self.summary.errors > 0


def let_go(result: Result, pieces: tuple[Mapping[str, Any], ...] = ()) -> Result:
    """The same without its proof, which is much larger than what there is to say of it."""
    if result.proof is None:
        return result
    kept = Kept(result.title, result.proof.pattern.status, pieces)
    return Result(result.name, result.path, None, result.findings, result.usable, kept=kept)


@dataclass(frozen=True, slots=True)
class Results:
    """Everything proved in one go. A file of shared defaults stands among `files` only if there
    is something to say about it."""

    files: tuple[Result, ...]

    @property
    def findings(self) -> tuple[Finding, ...]:
        return tuple(finding for result in self.files for finding in result.findings)

    @property
    def proofs(self) -> Iterator[Proof]:
        return (result.proof for result in self.files if result.proof)

    @property
    def unusable(self) -> tuple[Result, ...]:
        return tuple(result for result in self.files if not result.usable)

    @property
    def summary(self) -> Summary:
        return summary(self.findings)

    def exit_code(self, *, fail_on: Severity = Severity.ERROR) -> int:
        """0 where all holds, 1 for findings that weigh `fail_on` or more, 2 for input that cannot
        be used, which wins over 1."""
        if self.unusable:
            return 2
        grave = _WEIGHTS[: _WEIGHTS.index(fail_on) + 1]
        return int(any(f.severity in grave and not f.accepted for f in self.findings))


_WEIGHTS = (Severity.ERROR, Severity.WARNING, Severity.NOTE)


def summary(findings: tuple[Finding, ...]) -> Summary:
    """Counts findings."""
    live = [finding.severity for finding in findings if not finding.accepted]
    return Summary(
        live.count(Severity.ERROR),
        live.count(Severity.WARNING),
        live.count(Severity.NOTE),
        len(findings) - len(live),
    )
