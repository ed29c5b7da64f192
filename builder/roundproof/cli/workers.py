"""Many patterns checked, by several processes where that pays, as if by one.

What a proof holds besides what is to be told stays with the process and is let go at once, so that
none grows with the number of patterns. Results stand in the order of the files, whoever had them.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from roundproof.checks.results import Result, Results, let_go
from roundproof.frozen import dataclass
from roundproof.pattern.files import PatternFile
from roundproof.pattern.model import Status
from roundproof.pipeline import Proving
from roundproof.processes import MOST, shared_out, worth_starting

FEW = 12
"""Patterns that a process should have at least: starting it takes as long as checking some."""

Plan = list[Result | PatternFile]


@dataclass(frozen=True, slots=True)
class Job:
    """What is asked of every file: only those of a status, judged as of another; whether its
    worked pieces are wanted besides the findings."""

    status: Status | None = None
    judge_as: Status | None = None
    with_pieces: bool = False


def checked(paths: Sequence[str], job: Job, jobs: int | None = None) -> Results:
    """What `prove` says of some paths, without the proofs. `jobs` is how many processes share the
    work; if it is not said, as many as are worth starting. Raises WorkerLost."""
    proving = Proving(job.status, job.judge_as)
    plan: Plan = list(proving.planned(*paths))
    files = {at: each for at, each in enumerate(plan) if isinstance(each, PatternFile)}
    wanted = worth_starting(len(files), FEW) if jobs is None else jobs
    count = min(wanted, len(files), MOST)
    if count > 1:
        made = shared_out(files, partial(_begun, job), count)
    else:
        made = {at: _checked(file, proving, job) for at, file in files.items()}
    found = (each if isinstance(each, Result) else made[at] for at, each in enumerate(plan))
    return Results(tuple(result for result in found if result))


def _begun(job: Job) -> Callable[[PatternFile], Result | None]:
    proving = Proving(job.status, job.judge_as)
    return lambda file: _checked(file, proving, job)


def _checked(file: PatternFile, proving: Proving, job: Job) -> Result | None:
    result = proving.file(file)
    if result is None or result.proof is None:
        return result
    if job.with_pieces:
        from roundproof.telling.json_ import piece_values

        return let_go(result, piece_values(result))
    return let_go(result)
