"""A text put in the place of another in one go: come what may, the file is the old or the new."""

from __future__ import annotations

import os
import shutil
import stat
import tempfile
from contextlib import suppress
from pathlib import Path

from roundproof.words import say

_BOM = b"\xef\xbb\xbf"


class CannotWrite(Exception):
    """The file stays as it was; the message tells the designer why."""


def put_in_place(path: Path, old: str, new: str) -> None:
    """Writes `new` where `old` stood, in UTF-8, with the mark at its start that the file may have
    and with its permissions. Raises CannotWrite."""
    try:
        _may_be_written(path)
        data = path.read_bytes()
        mark = _BOM if data.startswith(_BOM) else b""
        if data[len(mark) :] != old.encode("utf-8"):
            raise CannotWrite(say("tidy.changed_meanwhile", file=path))
        _swap(path, mark + new.encode("utf-8"))
    except OSError as stop:
        raise CannotWrite(say("tidy.unwritable", file=path, why=stop.strerror)) from stop


def _may_be_written(path: Path) -> None:
    """A swap needs no leave of the file itself, so it is asked for here."""
    about = path.lstat()
    if stat.S_ISLNK(about.st_mode):
        raise CannotWrite(say("tidy.link", file=path, target=os.readlink(path)))
    if not about.st_mode & stat.S_IWUSR or not os.access(path, os.W_OK):
        raise CannotWrite(say("tidy.read_only", file=path))


def _swap(path: Path, data: bytes) -> None:
    """A file beside the old one, whole on the disk before it takes its place."""
    descriptor, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with os.fdopen(descriptor, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        shutil.copymode(path, name)
        os.replace(name, path)
    except BaseException:
        with suppress(OSError):
            os.unlink(name)
        raise
