"""What a camera writes beside a picture: whether a place, and whose name. Only as much is read as
this takes, and a file that is damaged tells nothing.

Exif 2.32 (CIPA DC-008, 2019): tags 0x8825 place, 0xA430 owner, 0x013B artist. JPEG keeps them in
the segment APP1, PNG in the chunk eXIf, WebP in the chunk EXIF.
"""

from __future__ import annotations

from pathlib import Path

from roundproof.frozen import dataclass

_MOST = 1_000_000
"""Bytes. What a camera writes stands before the picture; WebP and PNG may put it behind."""
_PLACE, _OWNER, _ARTIST, _MORE = 0x8825, 0xA430, 0x013B, 0x8769
_LATITUDE = 2
_TEXT = 2
_MOST_TAGS = 500


@dataclass(frozen=True, slots=True)
class Tags:
    """Whether the place is told, and a name, empty where none is."""

    place: bool
    owner: str


def private_tags(path: Path) -> Tags | None:
    """What a picture tells beside itself; None for nothing."""
    try:
        with path.open("rb") as file:
            data = file.read(_MOST)
            if file.read(1):
                file.seek(-min(_MOST, path.stat().st_size - _MOST), 2)
                data += file.read()
    except OSError:
        return None
    found = _exif(data)
    return _Reader(found).tags() if found else None


def _exif(data: bytes) -> bytes:
    """The block of tags, from its order of bytes on."""
    if data.startswith(b"\xff\xd8"):
        return _after(data, b"Exif\0\0", 0)
    if data.startswith(b"\x89PNG"):
        return _after(data, b"eXIf", 0)
    if data[8:12] == b"WEBP":
        block = _after(data, b"EXIF", 4)
        return block[6:] if block.startswith(b"Exif\0\0") else block
    return b""


def _after(data: bytes, mark: bytes, more: int) -> bytes:
    at = data.find(mark)
    return data[at + len(mark) + more :] if at >= 0 else b""


class _Reader:
    """The tags of one block, by their numbers."""

    def __init__(self, block: bytes) -> None:
        self.block = block
        self.little = block[:2] == b"II"
        self.sound = self.little or block[:2] == b"MM"

    def tags(self) -> Tags | None:
        if not self.sound:
            return None
        first = self._folder(self._number(4, 4))
        inner = self._folder(self._number(first[_MORE] + 8, 4)) if _MORE in first else {}
        place = self._folder(self._number(first[_PLACE] + 8, 4)) if _PLACE in first else {}
        owner = self._text(inner.get(_OWNER)) or self._text(first.get(_ARTIST))
        return Tags(_LATITUDE in place, owner)

    def _folder(self, at: int) -> dict[int, int]:
        """Where each tag of a folder stands, by its number."""
        count = min(self._number(at, 2), _MOST_TAGS)
        places = (at + 2 + 12 * i for i in range(count))
        return {self._number(p, 2): p for p in places if p + 12 <= len(self.block)}

    def _text(self, at: int | None) -> str:
        if at is None or self._number(at + 2, 2) != _TEXT:
            return ""
        length = self._number(at + 4, 4)
        start = at + 8 if length <= 4 else self._number(at + 8, 4)
        return self.block[start : start + min(length, 200)].decode("latin-1").strip("\0 \t\r\n")

    def _number(self, at: int, size: int) -> int:
        return int.from_bytes(self.block[at : at + size], "little" if self.little else "big")
