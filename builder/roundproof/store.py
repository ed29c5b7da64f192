"""What was worked out once, kept in `.roundproof/` by a key made of all that it depends on.

Nothing in it is needed: the folder may be deleted at any time, and read and written by several
processes at once. An entry is written under another name first and carries a hash of its key and
its bytes, so that one that is cut short, damaged or not ours counts as not there. Whatever the disk
refuses (no room, no right) costs time and nothing else.

Whole files are kept by their content, and can be linked to where they are wanted: many files cost
least that way. Should somebody change one in its other place, it counts as not there here.

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
from time import time

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

    def has(self, digest: str) -> bool:
        """Whether a file of such content is kept, and whole."""
        return self._read(digest, lambda kept: digest_of(kept) == digest) is not None

    def keep(self, data: bytes) -> str | None:
        """Keeps a file by its content. The name of the content; None if it cannot be kept."""
        digest = digest_of(data)
        return digest if self.has(digest) or self._write(digest, data) else None

    def link(self, digest: str, path: str) -> None:
        """Puts a file that is kept in another place as well, where nothing is yet, with the folders
        above it. Raises OSError."""
        kept, folder = self._path(digest), os.path.dirname(path)
        if not os.path.isdir(folder):
            os.makedirs(folder)
        try:
            os.link(kept, path)
        except OSError:  # another disk, or one without links
            shutil.copyfile(kept, path)

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
        if time() - state.st_mtime > LATE:
            with suppress(OSError):
                os.utime(path)
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
                    kept.append((state.st_mtime, state.st_size, file.path))
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


def _digest(key: str, data: bytes) -> bytes:
    made = blake2b(key.encode(), digest_size=_DIGEST)
    made.update(data)
    return made.digest()


def _files(folder: Path) -> Iterator[str]:
    for at, folders, names in os.walk(folder):
        folders[:] = (name for name in folders if name != "__pycache__")
        yield from (os.path.join(at, name) for name in names)
