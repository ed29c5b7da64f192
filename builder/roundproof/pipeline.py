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
from roundproof.pattern.files import PATTERNS, PatternFile, find_patterns
from roundproof.pattern.load import Defaults, load_defaults, load_pattern
from roundproof.pattern.model import Pattern, Status
from roundproof.pattern.traps import FILE_UNUSABLE
from roundproof.proof import Proof


def prove(
    *paths: Path | str, status: Status | None = None, judge_as: Status | None = None
) -> Results:
    """Everything about the patterns that some paths name: a file, a pattern's folder or its slug,
    or a folder of patterns; `patterns/` if none is named. Never raises for what users write.

    With `status`, only patterns of that status; files that cannot be used stay all the same. With
    `judge_as`, each is judged as if it had that status.
    """
    proving, found = Proving(status, judge_as), []
    for each in proving.planned(*paths):
        result = each if isinstance(each, Result) else proving.file(each)
        found += [result] if result else []
    return Results(tuple(found))


def prove_pattern(
    pattern: Pattern, found: tuple[Finding, ...], folder: Path
) -> tuple[Proof, tuple[Finding, ...]]:
    """The proof of a loaded pattern, and all findings in the order of the file."""
    fabric, worked = work(pattern)
    proof = Proof(pattern, fabric, (*found, *worked), folder)
    findings = set_aside((*proof.reading, *run_checks(proof)), pattern.accept)
    return proof, tuple(in_order(findings))


class Proving:
    """File after file, with the defaults of each collection read once."""

    def __init__(self, status: Status | None = None, judge_as: Status | None = None) -> None:
        self.status = status
        self.judge_as = judge_as
        self.defaults: dict[Path, tuple[Defaults | None, tuple[Finding, ...]]] = {}

    def planned(self, *paths: Path | str) -> Iterator[Result | PatternFile]:
        """What some paths name, in order, each once: pattern files, still to be proved, and what
        there is to say of other files and paths."""
        seen: set[Path] = set()
        for path in map(_located, map(Path, paths or (PATTERNS,))):
            files, findings = find_patterns(path)
            for finding in findings:
                yield _unproved(finding.span.source.name, path, (finding,))
            for file in files:
                if (place := file.path.resolve()) not in seen:
                    seen.add(place)
                    yield from self._first(file)
                    yield file

    def file(self, file: PatternFile) -> Result | None:
        """What came of a file; None where its pattern is of another status."""
        defaults, _ = self._shared(file)
        pattern, found = load_pattern(file.path, file.name, defaults, self.judge_as)
        if pattern is None:
            return _unproved(file.name, file.path, found)
        if self.status not in (None, pattern.status):
            return None
        proof, findings = prove_pattern(pattern, found, file.path.parent)
        return Result(file.name, file.path, proof, findings)

    def _first(self, file: PatternFile) -> Iterator[Result]:
        """What there is to say of the defaults of a collection, the first time they are met."""
        if file.defaults not in self.defaults and (found := self._shared(file)[1]):
            yield _unproved(file.defaults_name, file.defaults, found)

    def _shared(self, file: PatternFile) -> tuple[Defaults | None, tuple[Finding, ...]]:
        if file.defaults not in self.defaults:
            self.defaults[file.defaults] = load_defaults(file.defaults, file.defaults_name)
        return self.defaults[file.defaults]


def _unproved(name: str, path: Path, findings: tuple[Finding, ...]) -> Result:
    usable = all(finding.check != FILE_UNUSABLE for finding in findings)
    return Result(name, path, None, tuple(in_order(findings)), usable)


def _located(path: Path) -> Path:
    """A pattern may go by its slug alone."""
    named = PATTERNS / path
    slug = len(path.parts) == 1 and not exists(path) and isdir(named)
    return named if slug else path
