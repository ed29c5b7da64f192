"""Work on many files shared out over several processes, as if done by one.

A process is given files two at a time, so that it never waits, and gives back what came of each.
It ends with whoever started it, and has nothing to put away.
"""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any, Protocol, TypeVar

from roundproof.words import say

if TYPE_CHECKING:
    from multiprocessing.connection import Connection
    from multiprocessing.process import BaseProcess

MOST = 60
"""More processes cannot be waited for on some systems."""
AHEAD = 2
"""Files that a process is given before it has answered."""
START = "fork" if sys.platform == "linux" else "spawn"
"""How a process starts: as a copy of this one where that is safe and quick, else anew."""
NOT_TO_BE_COPIED = "typst"
"""A library whose threads do not come along into a copy of the process: it would wait for them."""


class Named(Protocol):
    """A file, or what else can be worked on and named to the user if that fails."""

    @property
    def name(self) -> str: ...


F = TypeVar("F", bound=Named)
T = TypeVar("T")
Begin = Callable[[], Callable[[F], T]]
"""Called once in each process; what it gives is called with each file. It goes to the process, so
it is a function of a module, or a `partial` of one."""


class WorkerLost(Exception):
    """A process ended in the middle of its work; the message is for the user."""


class ToMend(Exception):
    """Something that the user has to mend, in whichever process it shows; the message says what."""


class WorkerFault(Exception):
    """A fault of this program in another process, with what Python says of it as a note."""


def worth_starting(files: int, few: int) -> int:
    """How many processes pay, if each should have at least so few files."""
    return min(_cores(), files // few, MOST)


def _cores() -> int:
    """Cores that this process may use, which can be fewer than there are."""
    affinity = getattr(os, "sched_getaffinity", None)  # not on every system
    return len(affinity(0)) if affinity else os.cpu_count() or 1


def shared_out(files: Mapping[int, F], begin: Begin[F, T], count: int) -> dict[int, T]:
    """What came of each file, by its number. Raises WorkerLost."""
    from multiprocessing.connection import wait

    made: dict[int, T] = {}
    waiting = iter(files.items())
    workers: dict[Any, _Worker] = {}
    try:
        for _ in range(count):
            worker = _started(begin)
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


# ---- in the process that was started ----
def _work(to_main: Connection, begin: Begin[Any, Any], thresholds: tuple[int, int, int]) -> None:
    """Answers every file that is asked for, until nothing more is."""
    from signal import SIG_IGN, SIGINT, signal

    signal(SIGINT, SIG_IGN)  # the process that started this one ends it
    gc.set_threshold(*thresholds)
    does = begin()
    try:
        while (file := to_main.recv()) is not None:
            to_main.send(_answer(file, does))
    except (EOFError, OSError):
        return  # nobody is there any more who could be answered


def _answer(file: Any, does: Callable[[Any], Any]) -> Any:
    try:
        return does(file)
    except ToMend as stop:
        return stop
    except Exception as fault:
        from traceback import format_exc

        told = WorkerFault(f"{type(fault).__name__}: {fault}")
        told.add_note(format_exc())
        return told


# ---- in the process that starts them ----
class _Worker:
    """A process, the way to it, and the numbers of the files that it was given."""

    def __init__(self, process: BaseProcess, way: Connection) -> None:
        self.process = process
        self.way = way
        self.given: list[int] = []


def _start() -> str:
    return "spawn" if NOT_TO_BE_COPIED in sys.modules else START


def _started(begin: Begin[Any, Any]) -> _Worker:
    from multiprocessing import get_context

    context: Any = get_context(_start())
    ours, theirs = context.Pipe()
    given = (theirs, begin, gc.get_threshold())
    process = context.Process(target=_work, args=given, daemon=True)
    process.start()
    theirs.close()  # so that its end is seen here
    return _Worker(process, ours)


def _give(worker: _Worker, waiting: Any, files: Mapping[int, Any]) -> None:
    """The next file, if there is one, to a process."""
    for number, file in waiting:
        worker.given.append(number)
        try:
            worker.way.send(file)
        except OSError as end:
            raise _lost(worker, files) from end
        return


def _taken(worker: _Worker, files: Mapping[int, Any]) -> Any:
    try:
        answer = worker.way.recv()
    except (EOFError, OSError) as end:
        raise _lost(worker, files) from end
    if isinstance(answer, ToMend | WorkerFault):
        raise answer
    return answer


def _lost(worker: _Worker, files: Mapping[int, Any]) -> WorkerLost:
    worker.process.join(1)
    code = worker.process.exitcode or 0
    how = say("processes.signal" if code < 0 else "processes.code", number=abs(code))
    return WorkerLost(say("processes.lost", file=files[worker.given[0]].name, how=how))


def _ended(workers: list[_Worker]) -> None:
    """Ends all processes, whatever they are at: they write nothing that could be left half."""
    for worker in workers:
        worker.process.terminate()
    for worker in workers:
        worker.process.join()
        worker.way.close()
