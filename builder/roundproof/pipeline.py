"""From paths to proofs and findings: load, read and work, check; nothing else."""

from __future__ import annotations

from collections.abc import Iterator
from os.path import exists, isdir  # these take any name, where Path's own raise for some
from pathlib import Path

from roundproof.checks import run_checks
from roundproof.checks.accept import set_aside
from roundproof.checks.results import Result, Results
from roundproof.fabric.work import work
from roundproof.findings import Finding, in_order
from roundproof.pattern.files import PatternFile, find_patterns
from roundproof.pattern.load import Defaults, load_defaults, load_pattern
from roundproof.pattern.model import Pattern, Status
from roundproof.pattern.traps import FILE_UNUSABLE
from roundproof.proof import Proof

PATTERNS = Path("patterns")
"""Where patterns are looked for when no path is named."""


def prove(
    *paths: Path | str, status: Status | None = None, judge_as: Status | None = None
) -> Results:
    """Everything about the patterns that some paths name: a file, a pattern's folder or its slug,
    or a folder of patterns; `patterns/` if none is named. Never raises for what users write.

    With `status`, only patterns of that status; files that cannot be used stay all the same. With
    `judge_as`, each is judged as if it had that status.
    """
    proving = _Proving(status, judge_as)
    for path in paths or (PATTERNS,):
        proving.path(_located(Path(path)))
    return Results(tuple(proving.results))


def prove_pattern(
    pattern: Pattern, found: tuple[Finding, ...], folder: Path
) -> tuple[Proof, tuple[Finding, ...]]:
    """The proof of a loaded pattern, and all findings in the order of the file."""
    fabric, worked = work(pattern)
    proof = Proof(pattern, fabric, (*found, *worked), folder)
    findings = set_aside((*proof.reading, *run_checks(proof)), pattern.accept)
    return proof, tuple(in_order(findings))


class _Proving:
    """Several paths, one after the other: every file once, and defaults once a folder."""

    def __init__(self, status: Status | None, judge_as: Status | None) -> None:
        self.status = status
        self.judge_as = judge_as
        self.results: list[Result] = []
        self.seen: set[Path] = set()
        self.defaults: dict[Path, Defaults | None] = {}

    def path(self, path: Path) -> None:
        files, findings = find_patterns(path)
        for finding in findings:
            self.results.append(_unproved(finding.span.source.name, path, (finding,)))
        for file in files:
            if (place := file.path.resolve()) not in self.seen:
                self.seen.add(place)
                self.results += self.file(file)

    def file(self, file: PatternFile) -> Iterator[Result]:
        yield from self.shared(file)
        pattern, found = load_pattern(
            file.path, file.name, self.defaults[file.defaults], self.judge_as
        )
        if pattern is None:
            yield _unproved(file.name, file.path, found)
        elif self.status in (None, pattern.status):
            proof, findings = prove_pattern(pattern, found, file.path.parent)
            yield Result(file.name, file.path, proof, findings)

    def shared(self, file: PatternFile) -> Iterator[Result]:
        """Reads the defaults of a collection the first time they are met."""
        if file.defaults not in self.defaults:
            self.defaults[file.defaults], found = load_defaults(file.defaults, file.defaults_name)
            if found:
                yield _unproved(file.defaults_name, file.defaults, found)


def _unproved(name: str, path: Path, findings: tuple[Finding, ...]) -> Result:
    usable = all(finding.check != FILE_UNUSABLE for finding in findings)
    return Result(name, path, None, tuple(in_order(findings)), usable)


def _located(path: Path) -> Path:
    """A pattern may go by its slug alone."""
    named = PATTERNS / path
    slug = len(path.parts) == 1 and not exists(path) and isdir(named)
    return named if slug else path
