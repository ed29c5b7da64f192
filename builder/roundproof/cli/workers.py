"""Many patterns checked by several processes at a time, as if by one.

A process is given the names of files, two at a time so that it never waits, and gives back what is
to be told of each; what a proof holds besides stays with it and is let go at once, so that no
process grows with the number of patterns. Results stand in the order of the files, whoever had
them.
"""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from roundproof.checks.results import Kept, Result, Results
from roundproof.cli.shared import COLLECT
from roundproof.frozen import dataclass
from roundproof.pattern.files import PatternFile
from roundproof.pattern.model import Status
from roundproof.pipeline import Proving
from roundproof.words import say

if TYPE_CHECKING:
    from multiprocessing.connection import Connection
    from multiprocessing.process import BaseProcess

FEW = 12
"""Patterns that a process should have at least: starting it takes as long as checking some."""
MOST = 60
"""More processes cannot be waited for on some systems."""
AHEAD = 2
"""Files that a process is given before it has answered."""
START = "fork" if sys.platform == "linux" else "spawn"
"""How a process starts: as a copy of this one where that is safe and quick, else anew."""

Plan = list[Result | PatternFile]


@dataclass(frozen=True, slots=True)
class Job:
    """What is asked of every file: only those of a status, judged as of another; whether its
    worked pieces are wanted besides the findings."""

    status: Status | None = None
    judge_as: Status | None = None
    with_pieces: bool = False


class WorkerLost(Exception):
    """A process ended in the middle of its work; the message is for the user."""


class WorkerFault(Exception):
    """A fault of this program in another process, with what Python says of it as a note."""


def checked(paths: Sequence[str], job: Job, jobs: int | None = None) -> Results:
    """What `prove` says of some paths, without the proofs. `jobs` is how many processes share the
    work; if it is not said, as many as are worth starting. Raises WorkerLost."""
    proving = Proving(job.status, job.judge_as)
    plan: Plan = list(proving.planned(*paths))
    files = {at: each for at, each in enumerate(plan) if isinstance(each, PatternFile)}
    count = min(_worth_starting(len(files)) if jobs is None else jobs, len(files), MOST)
    if count > 1:
        made = _shared_out(files, job, count)
    else:
        made = {at: _checked(file, proving, job) for at, file in files.items()}
    found = (each if isinstance(each, Result) else made[at] for at, each in enumerate(plan))
    return Results(tuple(result for result in found if result))


def _worth_starting(files: int) -> int:
    return min(_cores(), files // FEW)


def _cores() -> int:
    """Cores that this process may use, which can be fewer than there are."""
    affinity = getattr(os, "sched_getaffinity", None)  # not on every system
    return len(affinity(0)) if affinity else os.cpu_count() or 1


def _checked(file: PatternFile, proving: Proving, job: Job) -> Result | None:
    result = proving.file(file)
    if result is None or result.proof is None:
        return result
    pieces: tuple[dict[str, Any], ...] = ()
    if job.with_pieces:
        from roundproof.telling.json_ import piece_values

        pieces = piece_values(result)
    kept = Kept(result.title, pieces)
    return Result(result.name, result.path, None, result.findings, result.usable, kept=kept)


# ---- in the process that was started ----
def _work(to_main: Connection, job: Job) -> None:
    """Answers every file that is asked for, until nothing more is."""
    from signal import SIG_IGN, SIGINT, signal

    signal(SIGINT, SIG_IGN)  # the process that started this one ends it
    gc.set_threshold(*COLLECT)
    proving = Proving(job.status, job.judge_as)
    try:
        while (file := to_main.recv()) is not None:
            to_main.send(_answer(file, proving, job))
    except (EOFError, OSError):
        return  # nobody is there any more who could be answered


def _answer(file: PatternFile, proving: Proving, job: Job) -> Result | WorkerFault | None:
    try:
        return _checked(file, proving, job)
    except Exception as fault:
        from traceback import format_exc

        told = WorkerFault(f"{type(fault).__name__}: {fault}")
        told.add_note(format_exc())
        return told


# ---- in the process that starts them ----
class _Worker:
    """A process, the way to it, and where the files that it was given stand in the plan."""

    def __init__(self, process: BaseProcess, way: Connection) -> None:
        self.process = process
        self.way = way
        self.given: list[int] = []


def _shared_out(files: dict[int, PatternFile], job: Job, count: int) -> dict[int, Result | None]:
    """What came of each file, by its place in the plan."""
    from multiprocessing.connection import wait

    made: dict[int, Result | None] = {}
    waiting = iter(files.items())
    workers: dict[Any, _Worker] = {}
    try:
        for _ in range(count):
            worker = _started(job)
            workers[worker.way] = worker
        for worker in [*workers.values()] * AHEAD:
            _give(worker, waiting, files)
        while len(made) < len(files):
            for way in wait(list(workers)):
                worker = workers[way]
                made[worker.given[0]] = _taken(worker, files)
                worker.given.pop(0)
                _give(worker, waiting, files)
    finally:
        _ended(list(workers.values()))
    return made


def _started(job: Job) -> _Worker:
    from multiprocessing import get_context

    context: Any = get_context(START)
    ours, theirs = context.Pipe()
    process = context.Process(target=_work, args=(theirs, job), daemon=True)
    process.start()
    theirs.close()  # so that its end is seen here
    return _Worker(process, ours)


def _give(worker: _Worker, waiting: Any, files: dict[int, PatternFile]) -> None:
    """The next file, if there is one, to a process."""
    for at, file in waiting:
        worker.given.append(at)
        try:
            worker.way.send(file)
        except OSError as end:
            raise _lost(worker, files) from end
        return


def _taken(worker: _Worker, files: dict[int, PatternFile]) -> Result | None:
    try:
        answer = worker.way.recv()
    except (EOFError, OSError) as end:
        raise _lost(worker, files) from end
    if isinstance(answer, WorkerFault):
        raise answer
    result: Result | None = answer
    return result


def _lost(worker: _Worker, files: dict[int, PatternFile]) -> WorkerLost:
    worker.process.join(1)
    code = worker.process.exitcode or 0
    how = say("check.worker_signal" if code < 0 else "check.worker_code", number=abs(code))
    return WorkerLost(say("check.worker_lost", file=files[worker.given[0]].name, how=how))


def _ended(workers: list[_Worker]) -> None:
    """Ends all processes, whatever they are at: they write nothing."""
    for worker in workers:
        worker.process.terminate()
    for worker in workers:
        worker.process.join()
        worker.way.close()
