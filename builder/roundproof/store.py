"""What was worked out once, kept in `.roundproof/` by a key made of all that it depends on.

Nothing in it is needed: the folder may be deleted at any time, and read and written by several
processes at once. An entry is written under another name first and carries a hash of its key and
its bytes, so that one that is cut short, damaged or not ours counts as not there. Whatever the disk
refuses (no room, no right) costs time and nothing else.

Whole files are kept by their content, and can be linked to where they are wanted: many files cost
least that way. One that somebody changed in its other place counts as not there here: those that
are as large and as old as when they were kept are taken to be whole, and others are read.

The hash keeps accidents out, not people: whoever may write into the folder could write what passes.
It is as trustworthy as the files beside it, and it keeps itself out of version control, so that
none comes along with a site from elsewhere. All the same, nothing that is read from it may be run.
"""

from __future__ import annotations

import os
import re
import shutil
from collections.abc import Callable, Iterable, Iterator
from contextlib import suppress
from hashlib import blake2b, sha256
from itertools import count
from pathlib import Path
from time import time, time_ns

from roundproof.frozen import dataclass

FOLDER = ".roundproof"
"""Its name, beside the site's settings."""
MOST_BYTES = 600_000_000
"""All entries together; those that were longest of no use go first."""
LATE = 3600.0
"""Seconds after which a half-written entry is nobody's, and an entry's time of use is set anew."""

_HEAD = b"roundproof 1\n"
_DIGEST = 16
_ENTRY = re.compile(r"[0-9a-f]{38}|[0-9a-f]{62}")
_HALF = re.compile(rf"({_ENTRY.pattern})\.\d+-\d+")


def key(*parts: str | bytes) -> str:
    """The key for what depends on just these parts; the order counts."""
    made = blake2b(digest_size=20)
    for part in parts:
        data = part.encode("utf-8", "surrogatepass") if isinstance(part, str) else part
        made.update(len(data).to_bytes(8, "big"))
        made.update(data)
    return made.hexdigest()


def stamp(folders: Iterable[Path], endings: Iterable[str]) -> str:
    """Stands for the content of all files with such endings (".py") in some folders."""
    wanted = tuple(endings)
    parts: list[str | bytes] = []
    for folder in folders:
        for file in sorted(_files(folder)):
            if file.endswith(wanted):
                with suppress(OSError):  # gone in the meantime
                    parts += [os.path.relpath(file, folder), Path(file).read_bytes()]
    return key(*parts)


def code_stamp() -> str:
    """Stands for the code and the tables of this package."""
    return stamp([Path(__file__).parent], (".py", ".toml", ".txt"))


@dataclass(frozen=True, slots=True)
class Kept:
    """A file that is kept: the name of its content, its size in bytes, and when it was changed
    last, in nanoseconds."""

    digest: str
    size: int
    changed: int


def digest_of(data: bytes) -> str:
    """The name of a file's content: its SHA-256 in hexadecimal."""
    return sha256(data).hexdigest()


class Store:
    """Bytes by key, and files by content, in a folder that need not be there yet."""

    def __init__(self, folder: Path, most_bytes: int = MOST_BYTES) -> None:
        self.folder = folder / "kept"
        self.most_bytes = most_bytes
        self._written = 0
        self._number = count(1)

    def get(self, key: str) -> bytes | None:
        """What was kept under a key; None if nothing is, or nothing whole."""
        head = len(_HEAD) + _DIGEST
        return self._read(key, lambda kept: kept[:head] == _HEAD + _digest(key, kept[head:]), head)

    def put(self, key: str, data: bytes) -> None:
        """Keeps bytes under a key, in the place of what was there."""
        self._write(key, _HEAD + _digest(key, data), data)

    def keep(self, data: bytes) -> Kept | None:
        """Keeps a file by its content; None if it cannot be kept."""
        digest = digest_of(data)
        if not self._is_whole(digest) and not self._write(digest, data):
            return None
        try:
            return Kept(digest, len(data), os.stat(self._path(digest)).st_mtime_ns)
        except OSError:
            return None

    def has(self, file: Kept) -> bool:
        """Whether a file is still there, and whole."""
        path = self._path(file.digest)
        try:
            state = os.stat(path)
        except OSError:
            return False
        if (state.st_size, state.st_mtime_ns) != (file.size, file.changed):
            return self._is_whole(file.digest)
        _used(path, state)
        return True

    def link(self, file: Kept, path: str) -> None:
        """Puts a file that is kept in another place as well, where nothing is yet, with the folders
        above it. Raises OSError."""
        kept, folder = self._path(file.digest), os.path.dirname(path)
        if not os.path.isdir(folder):
            os.makedirs(folder)
        try:
            os.link(kept, path)
        except OSError:  # another disk, or one without links
            shutil.copyfile(kept, path)

    def _is_whole(self, digest: str) -> bool:
        return self._read(digest, lambda kept: digest_of(kept) == digest) is not None

    def _read(self, name: str, whole: Callable[[bytes], bool], head: int = 0) -> bytes | None:
        path = self._path(name)
        try:
            with open(path, "rb", buffering=0) as file:
                state = os.fstat(file.fileno())
                kept = file.read(self.most_bytes + 1)
        except OSError:
            return None
        if not whole(kept):
            return None
        _used(path, state)
        return kept[head:]

    def _write(self, name: str, *parts: bytes) -> bool:
        size = sum(map(len, parts))
        if size > self.most_bytes // 4:
            return False
        path = self._path(name)
        half = f"{path}.{os.getpid()}-{next(self._number)}"
        try:
            self._make(os.path.dirname(path))
            with open(half, "wb") as file:
                file.writelines(parts)
            os.replace(half, path)
        except OSError:
            with suppress(OSError):
                os.unlink(half)
            return False
        self._written += size
        if self._written > self.most_bytes // 4:
            self.trim()
        return True

    def trim(self) -> None:
        """Takes away what is longest of no use until the rest is small enough. Touches nothing but
        entries."""
        self._written = 0
        now, kept = time(), []
        for file in self._entries():
            with suppress(OSError):
                state = file.stat(follow_symlinks=False)
                if _HALF.fullmatch(file.name):
                    if now - state.st_mtime > LATE:
                        os.unlink(file.path)
                else:
                    kept.append((_last_use(state), state.st_size, file.path))
        left = sum(size for _, size, _ in kept)
        for _, size, path in sorted(kept):
            if left <= self.most_bytes:
                break
            with suppress(OSError):
                os.unlink(path)
                left -= size

    def _path(self, key: str) -> str:
        return f"{self.folder}/{key[:2]}/{key[2:]}"

    def _make(self, folder: str) -> None:
        if os.path.isdir(folder):
            return
        os.makedirs(folder, exist_ok=True)
        ignored = self.folder.parent / ".gitignore"  # wherever it lies, it is for nobody else
        with suppress(FileExistsError), open(ignored, "x", encoding="utf-8") as file:
            file.write("*\n")

    def _entries(self) -> Iterator[os.DirEntry[str]]:
        with suppress(OSError):
            for folder in os.scandir(self.folder):
                if len(folder.name) == 2 and folder.is_dir(follow_symlinks=False):
                    for file in os.scandir(folder.path):
                        if _ENTRY.fullmatch(file.name) or _HALF.fullmatch(file.name):
                            yield file


def _used(path: str, state: os.stat_result) -> None:
    """Sets the time of use, and leaves that of the last change."""
    if time() - _last_use(state) > LATE:
        with suppress(OSError):
            os.utime(path, ns=(time_ns(), state.st_mtime_ns))


def _last_use(state: os.stat_result) -> float:
    return max(state.st_atime, state.st_mtime)


def _digest(key: str, data: bytes) -> bytes:
    made = blake2b(key.encode(), digest_size=_DIGEST)
    made.update(data)
    return made.digest()


def _files(folder: Path) -> Iterator[str]:
    for at, folders, names in os.walk(folder):
        folders[:] = (name for name in folders if name != "__pycache__")
        yield from (os.path.join(at, name) for name in names)
