"""The bytes of some notes as lines of text, whatever wrote them.

Notes come from mail, word processors and web pages. Each line keeps its number as an editor counts
it, and the text as it stood; characters that no pattern file may hold are written out (`\\x07`).
"""

from __future__ import annotations

import re
from codecs import BOM_UTF8, BOM_UTF16_BE, BOM_UTF16_LE, BOM_UTF32_LE
from pathlib import Path

from roundproof.frozen import dataclass
from roundproof.words import say

MOST_BYTES = 2_000_000
"""Longer notes would make a pattern file that is too long itself."""

_OTHER_FILES = (
    (b"%PDF", "pdf"),
    (b"PK\x03\x04", "document"),
    (b"\xd0\xcf\x11\xe0", "document"),
    (b"{\\rtf", "document"),
    (b"\x89PNG", "picture"),
    (b"\xff\xd8\xff", "picture"),
    (b"GIF8", "picture"),
)
_LINE = re.compile(r"\r\n|\n|\r")
_WITHIN = re.compile("[\x0b\x0c\x85\u2028\u2029]")
_UNWRITABLE = re.compile("[^\t\x20-\x7e\xa0-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]")


class Unreadable(Exception):
    """The notes cannot be read; the message says why, and what to do."""


@dataclass(frozen=True, slots=True)
class Written:
    """A line of the notes: its number from 1, and its text without the white space around it."""

    number: int
    text: str


def notes_of(path: Path) -> bytes:
    """What a file of notes holds. Raises Unreadable."""
    try:
        if path.exists() and not path.is_file():
            raise Unreadable(say("new.notes_no_file", file=path))
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or error
        raise Unreadable(say("new.notes_unread", file=path, why=why)) from None
    return checked(data, str(path))


def checked(data: bytes, name: str) -> bytes:
    """The same bytes, where they are a text that is not too long. Raises Unreadable."""
    if len(data) > MOST_BYTES:
        raise Unreadable(say("new.notes_long", file=name))
    for start, kind in _OTHER_FILES:
        if data.startswith(start):
            raise Unreadable(say(f"new.notes_{kind}", file=name))
    if b"\0" in data and not _utf16(data) and not _utf8(data):
        raise Unreadable(say("new.notes_no_text", file=name))
    return data


def lines_of(data: bytes) -> list[Written]:
    """All lines, blank ones too. Where a line holds a break of another kind (a new page, a line
    broken by hand in a word processor), its parts have the same number."""
    text = decoded(data)
    return [
        Written(number, written_out(part).strip())
        for number, line in enumerate(_LINE.split(text), 1)
        for part in _WITHIN.split(line)
    ]


def decoded(data: bytes) -> str:
    """Text in UTF-8 or UTF-16, else as the usual Western encoding has it; never fails."""
    if encoding := _utf16(data):
        return data.decode(encoding, "replace").removeprefix("\ufeff")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        # latin-1 has a place for each byte; cp1252 has quotes and dashes there, but some gaps
        return "".join(_western(byte) for byte in data.removeprefix(BOM_UTF8))


def written_out(text: str) -> str:
    """A text with whatever a pattern file may not hold written out: `\\x07`, `\\uffff`."""
    return _UNWRITABLE.sub(lambda m: m[0].encode("unicode_escape").decode(), text)


def _utf8(data: bytes) -> bool:
    try:
        data.decode("utf-8")
        return True
    except UnicodeDecodeError:
        return False


def _western(byte: int) -> str:
    one = bytes((byte,))
    return one.decode("cp1252", "ignore") or one.decode("latin-1")


def _utf16(data: bytes) -> str:
    """The name of the UTF-16 that a text is in; empty where it is in none."""
    if data.startswith(BOM_UTF16_LE) and not data.startswith(BOM_UTF32_LE):
        return "utf-16-le"
    if data.startswith(BOM_UTF16_BE):
        return "utf-16-be"
    start = b"" if data.startswith(BOM_UTF8) else data[:4000]
    even, odd = start[::2], start[1::2]
    for encoding, low, high in (("utf-16-le", even, odd), ("utf-16-be", odd, even)):
        if high and high.count(0) > 0.6 * len(high) and low.count(0) == 0:
            return encoding
    return ""
