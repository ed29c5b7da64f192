"""What a picture's file says of itself, without decoding it: its kind, how large it is, whether it
is whole, and what else is in it.

JPEG: ITU-T T.81 (1992), annex B. PNG: W3C, Portable Network Graphics (2003), 5. WebP: RFC 9649
(2024), 2. A file that is whole by these may still not decode; the build tells that.
"""

from __future__ import annotations

import mmap
import zlib
from collections.abc import Iterator
from pathlib import Path

from roundproof.frozen import dataclass

MOST_BYTES = 60_000_000
MOST_PIXELS = 80_000_000
"""Above these a file is no photo for a page: unpacking it could exhaust the memory."""
KINDS = {"PNG": (0, b"\x89PNG\r\n\x1a\n"), "JPEG": (0, b"\xff\xd8\xff"), "WebP": (8, b"WEBP")}
"""Kinds of pictures that a page can show, with the bytes they start with and from where."""
ENDINGS = {
    "JPEG": ("jpg", "jpeg", "jpe", "jfif"),
    "PNG": ("png",),
    "WebP": ("webp",),
    "": ("gif", "svg", "htm", "html", "heic", "avif", "tif", "tiff", "bmp", "pdf", "zip"),
}
FOREIGN = {
    b"<script": "a script",
    b"<html": "a web page",
    b"<!doctype html": "a web page",
    b"<svg": "an SVG drawing",
    b"<?php": "a program",
    b"%pdf-": "a PDF",
    b"pk\x03\x04": "an archive",
}
"""What other programs would take a file for, whatever its name; in small letters."""
MOST_PARTS = 20_000
"""Segments or chunks; a photo has some thousand at most."""
_PLAIN = {0x01, *range(0xD0, 0xD9)}
"""Markers of JPEG that stand alone."""
_FRAMES = set(range(0xC0, 0xD0)) - {0xC4, 0xC8, 0xCC}

Span = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Seen:
    """`kind` is one of KINDS; `width` and `height` in pixels, 0 where they are not said. `whole` is
    whether its end is there, `sound` whether it keeps to the rules of its kind; `beside` names what
    it holds besides a picture."""

    kind: str
    width: int
    height: int
    whole: bool
    sound: bool
    beside: str = ""

    @property
    def pixels(self) -> int:
        return self.width * self.height


def kind_of(head: bytes) -> str:
    """The kind that a file is by its first 16 bytes; empty for none that a page can show."""
    for kind, (start, begins) in KINDS.items():
        if head.startswith(begins, start):
            return kind
    return ""


def promised(name: str) -> str | None:
    """The kind that the ending of a name promises, empty for one that no page shows; None where it
    promises nothing."""
    ending = name.rpartition(".")[2].lower() if "." in name else ""
    return next((kind for kind, endings in ENDINGS.items() if ending in endings), None)


def seen(path: Path) -> Seen | None:
    """What a file says; None where it cannot be read or is no picture. One of too many bytes is not
    looked through."""
    try:
        if not path.is_file():
            return None
        with path.open("rb") as file, mmap.mmap(file.fileno(), 0, access=mmap.ACCESS_READ) as data:
            kind = kind_of(data[:16])
            if len(data) > MOST_BYTES and kind:
                return Seen(kind, 0, 0, whole=True, sound=False)
            look = {"JPEG": _jpeg, "PNG": _png, "WebP": _webp}.get(kind)
            return look(data) if look else None
    except (OSError, ValueError):  # a file of no bytes cannot be mapped
        return None


def _jpeg(data: mmap.mmap) -> Seen:
    width = height = 0
    aside: list[Span] = []
    at, end = 2, len(data)
    while at + 4 <= end:
        mark = data[at + 1]
        if data[at] != 0xFF or len(aside) > MOST_PARTS:
            return Seen("JPEG", width, height, whole=True, sound=False)
        if mark == 0xFF or mark in _PLAIN:
            at += 1 if mark == 0xFF else 2
            continue
        size = int.from_bytes(data[at + 2 : at + 4], "big")
        if mark in _FRAMES:
            height, width = (int.from_bytes(data[at + n : at + n + 2], "big") for n in (5, 7))
        if mark == 0xFE or 0xE0 <= mark <= 0xEF:
            aside.append((at + 4, at + 2 + size))
        at += 2 + size
        if mark == 0xDA:
            break
    else:
        return Seen("JPEG", width, height, whole=False, sound=True)
    close = data.find(b"\xff\xd9", at)
    # What follows may be a second picture, as phones add it.
    aside.append((close + 2 if close >= 0 else end, end))
    return Seen("JPEG", width, height, close >= 0, bool(width), _beside(data, aside))


def _png(data: mmap.mmap) -> Seen:
    width, height = (int.from_bytes(data[n : n + 4], "big") for n in (16, 20))
    aside: list[Span] = []
    at, sound, parts = 8, data[12:16] == b"IHDR", 0
    while at + 12 <= len(data):
        size, kind = int.from_bytes(data[at : at + 4], "big"), data[at + 4 : at + 8]
        after = at + 12 + size
        if after > len(data):
            break
        parts += 1
        if parts > MOST_PARTS:
            return Seen("PNG", width, height, whole=True, sound=False)
        if zlib.crc32(memoryview(data)[at + 4 : after - 4]) != _number(data, after - 4):
            sound = False
        if kind not in (b"IHDR", b"PLTE", b"IDAT"):
            aside.append((at + 8, after - 4))
        at = after
        if kind == b"IEND":
            aside.append((at, len(data)))
            return Seen("PNG", width, height, True, sound, _beside(data, aside))
    return Seen("PNG", width, height, whole=False, sound=sound, beside=_beside(data, aside))


def _number(data: mmap.mmap, at: int) -> int:
    return int.from_bytes(data[at : at + 4], "big")


def _webp(data: mmap.mmap) -> Seen:
    ends = 8 + int.from_bytes(data[4:8], "little")
    width, height = _webp_size(data[12:30])
    aside: list[Span] = [(ends, len(data))]
    at, sound, parts = 12, data[:4] == b"RIFF", 0
    while at + 8 <= min(ends, len(data)) and parts < MOST_PARTS:
        parts += 1
        size = int.from_bytes(data[at + 4 : at + 8], "little")
        if data[at : at + 4] not in (b"VP8 ", b"VP8L", b"VP8X", b"ALPH", b"ANMF"):
            aside.append((at + 8, at + 8 + size))
        at += 8 + size + size % 2
    whole = ends <= len(data) and at <= ends
    return Seen("WebP", width, height, whole, sound and bool(width), _beside(data, aside))


def _webp_size(head: bytes) -> tuple[int, int]:
    """From the first chunk, its name and length first."""
    kind, body = head[:4], head[8:]
    if kind == b"VP8X":
        return tuple(int.from_bytes(body[n : n + 3], "little") + 1 for n in (4, 7))  # type: ignore[return-value]
    if kind == b"VP8L":
        bits = int.from_bytes(body[1:5], "little")
        return (bits & 0x3FFF) + 1, (bits >> 14 & 0x3FFF) + 1
    if kind == b"VP8 ":
        return tuple(int.from_bytes(body[n : n + 2], "little") & 0x3FFF for n in (6, 8))  # type: ignore[return-value]
    return 0, 0


def _beside(data: mmap.mmap, spans: list[Span]) -> str:
    """What else is in the parts of a file that are no picture."""
    return next(_foreign(data, spans), "")


def _foreign(data: mmap.mmap, spans: list[Span]) -> Iterator[str]:
    for start, end in spans:
        part = data[start:end].lower()
        yield from (what for sign, what in FOREIGN.items() if sign in part)
