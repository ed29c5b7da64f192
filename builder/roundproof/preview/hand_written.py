"""The hand-written pages of a previewed site, and the theme's files, as the host makes them."""

from __future__ import annotations

import threading
from collections.abc import Callable, Mapping
from pathlib import Path
from tempfile import TemporaryDirectory

from roundproof.mkdocs_plugin import HostError, host_pages
from roundproof.pages.filling import Frame
from roundproof.pages.search_index import ADDRESS as SEARCH_INDEX
from roundproof.preview.around import Around


class HandWritten:
    """The host is asked only when one of its files changed, or what it prints of the patterns (the
    front page shows some) and a page is asked for."""

    def __init__(self, file: Path) -> None:
        self.file = file
        self.trouble = ""
        """Why the host could not make the pages; those of before are shown then."""
        self.warned: tuple[str, ...] = ()
        self._lock = threading.Lock()
        self._stale = True
        self._around: Around | None = None
        self._folder: TemporaryDirectory[str] | None = None
        self._there: Mapping[str, Path] = {}

    def begin_again(self) -> None:
        """The files have changed."""
        self._stale = True

    def prepare(self, around: Callable[[], Around]) -> None:
        """Has the pages made, if their files have changed, before anybody asks for them: so that
        there are some to keep should the next change break them."""
        with self._lock:
            if self._stale:
                self._make(around())

    def data(self, address: str, around: Around) -> bytes | None:
        """The file at an address; None if there is none."""
        with self._lock:
            other = self._around is not around and address.endswith((".html", SEARCH_INDEX))
            if self._stale or other:
                self._make(around)
            path = self._there.get(address)
            return path.read_bytes() if path else None

    def _make(self, around: Around) -> None:
        self._stale, self._around, self.trouble = False, around, ""
        folder = TemporaryDirectory(prefix="roundproof-", ignore_cleanup_errors=True)
        place = Path(folder.name)
        try:
            self.warned = host_pages(
                self.file, place, around.site, _frame(around), around.addresses
            )
        except HostError as stop:
            self.trouble = str(stop)
            folder.cleanup()
            return
        files = (path for path in place.rglob("*") if path.is_file())
        self._there = {path.relative_to(place).as_posix(): path for path in files}
        self._folder = folder  # the one before goes away with its last name


def _frame(around: Around) -> Frame:
    return around.filler.frame
