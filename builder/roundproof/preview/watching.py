"""Waits for something to happen to a site's files.

Word of a change only wakes whoever looks: what changed is found by looking at all files, which
takes a few milliseconds. So it does not matter how an editor saves, whether a word was lost, or
what a file is called now. Where the system gives no word (a network, too many folders), a look is
taken every so often all the same.
"""

from __future__ import annotations

import threading
import time
from collections.abc import Callable, Iterable
from contextlib import suppress
from pathlib import Path

from watchdog.events import FileSystemEvent, FileSystemEventHandler
from watchdog.observers import Observer
from watchdog.observers.api import ObservedWatch

QUIET = 0.03
"""Seconds without a word before a look: whoever empties a file and then writes it is done."""
LATEST = 0.25
"""Seconds after the first word when a look is taken though words still come."""
ANYWAY = 2.0
"""Seconds after which a look is taken without any word."""
SOON = 0.1
"""The same while there is something to prepare; a save has to wait for one pattern at most."""
CHANGES = frozenset({"created", "modified", "deleted", "moved", "closed"})
"""What counts as a change; to look at files is none."""


class Watcher(FileSystemEventHandler):
    """Calls `look` after every change below some folders, one call at a time, until it is ended.
    A look tells whether there is more to do while nothing happens: then the next comes soon."""

    def __init__(
        self, look: Callable[[], bool], folders: Callable[[], Iterable[Path]], home: Path
    ) -> None:
        """`home` is watched too, without the folders in it: the settings stand there."""
        self._look, self._folders, self._home = look, folders, home
        self._word = threading.Event()
        self._over = threading.Event()
        self._watched: dict[Path, ObservedWatch] = {}
        self._observer = Observer()
        self._thread = threading.Thread(target=self._run, daemon=True)

    def begin(self) -> None:
        self._observer.start()
        self._watch()
        with suppress(OSError):
            self._observer.schedule(self, str(self._home), recursive=False)
        self._word.set()  # to take a first look
        self._thread.start()

    def end(self) -> None:
        self._over.set()
        self._word.set()
        self._observer.stop()
        self._thread.join(5)

    def dispatch(self, event: FileSystemEvent) -> None:
        if event.event_type in CHANGES:
            self._word.set()

    def _run(self) -> None:
        more = False
        while not self._over.is_set():
            if self._word.wait(SOON if more else ANYWAY):
                self._until_quiet()
            if not self._over.is_set():
                more = self._look()
                self._watch()

    def _until_quiet(self) -> None:
        until = time.monotonic() + LATEST
        while self._word.is_set() and time.monotonic() < until and not self._over.is_set():
            self._word.clear()
            self._word.wait(QUIET)
        self._word.clear()

    def _watch(self) -> None:
        """Watches the folders there are now; one that is gone may come back."""
        wanted = set(self._folders())
        for folder in [each for each in self._watched if each not in wanted or not each.is_dir()]:
            with suppress(Exception):  # the folder went, and its watch with it
                self._observer.unschedule(self._watched[folder])
            del self._watched[folder]
        for folder in wanted - self._watched.keys():
            with suppress(OSError):  # too many, or not there: looks are taken anyway
                self._watched[folder] = self._observer.schedule(self, str(folder), recursive=True)
