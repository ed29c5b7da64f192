"""What a photo's file says of itself: real files of every kind, and what is wrong with others."""

from __future__ import annotations

import io
import struct
import zlib
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from proving import ids_of, proved
from roundproof.checks import _pictures
from roundproof.checks._pictures import promised, seen
from roundproof.checks.photo_unfit import CHECK


def text(name: str) -> str:
    """A pattern with one photo."""
    return CHECK.good.replace("front.png", name)


def picture(kind: str, size: tuple[int, int] = (61, 43), **how: object) -> bytes:
    out = io.BytesIO()
    noise = Image.effect_noise(size, 60).convert("RGB")
    noise.save(out, kind, **how)  # type: ignore[arg-type]
    return out.getvalue()


def chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def bomb() -> bytes:
    """A PNG of a few bytes that says it is 60,000 pixels square."""
    head = struct.pack(">IIBBBBB", 60_000, 60_000, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IEND", b"")


def with_comment(words: bytes) -> bytes:
    data = picture("JPEG")
    return data[:2] + b"\xff\xfe" + struct.pack(">H", len(words) + 2) + words + data[2:]


def said(tmp_path: Path, name: str, data: bytes) -> list[str]:
    """What the check says of a photo."""
    _, findings = proved(text(name), {f"photos/{name}": data})
    return [finding.message for finding in findings if finding.check == "photo-unfit"]


# ---- what is sound ----
SOUND: dict[str, Callable[[], bytes]] = {
    "plain.jpg": lambda: picture("JPEG"),
    "progressive.jpeg": lambda: picture("JPEG", progressive=True),
    "grey.jpg": lambda: _saved(Image.new("L", (61, 43), 90), "JPEG"),
    "print.jpg": lambda: _saved(Image.new("CMYK", (61, 43)), "JPEG"),
    "with-exif.jpg": lambda: picture("JPEG", exif=_exif()),
    "two-in-one.jpg": lambda: _two_in_one(),
    "restarts.jpg": lambda: picture("JPEG", restart_marker_rows=1),
    "trailer.jpg": lambda: picture("JPEG") + b"\0SEFT of some phone",
    "plain.png": lambda: picture("PNG"),
    "palette.png": lambda: _saved(Image.new("P", (61, 43)), "PNG"),
    "deep.png": lambda: _saved(Image.new("I;16", (61, 43)), "PNG"),
    "lossy.webp": lambda: picture("WEBP"),
    "lossless.webp": lambda: picture("WEBP", lossless=True),
    "see-through.webp": lambda: _saved(Image.new("RGBA", (61, 43), (9, 9, 9, 9)), "WEBP"),
    "with-exif.webp": lambda: picture("WEBP", exif=_exif()),
    "no-ending": lambda: picture("JPEG"),
}


def _saved(image: Image.Image, kind: str) -> bytes:
    out = io.BytesIO()
    image.save(out, kind)
    return out.getvalue()


def _exif() -> Image.Exif:
    exif = Image.Exif()
    exif[0x0112] = 6
    return exif


def _two_in_one() -> bytes:
    """As phones save them: a second picture behind the first."""
    out = io.BytesIO()
    first, second = Image.new("RGB", (61, 43)), Image.new("RGB", (20, 10))
    first.save(out, "MPO", save_all=True, append_images=[second])
    return out.getvalue()


@pytest.mark.parametrize("name", SOUND)
def test_nothing_is_said_of_a_sound_photo(tmp_path: Path, name: str) -> None:
    data = SOUND[name]()
    assert said(tmp_path, name, data) == []
    (tmp_path / name).write_bytes(data)
    found = seen(tmp_path / name)
    assert found is not None and (found.width, found.height) == (61, 43)
    with Image.open(tmp_path / name) as opened:  # Pillow is the reference
        assert (found.width, found.height) == opened.size


# ---- what is not ----
@pytest.mark.parametrize(
    ("name", "data", "why"),
    [
        ("cut.jpg", lambda: picture("JPEG")[:-200], "`cut.jpg` ends before the picture does."),
        ("head.jpg", lambda: picture("JPEG")[:40], "`head.jpg` ends before the picture does."),
        ("cut.png", lambda: picture("PNG")[:-60], "ends before the picture does"),
        ("cut.webp", lambda: picture("WEBP")[:-60], "ends before the picture does"),
        ("odd.jpg", lambda: b"\xff\xd8\xff\xe0\0\x04ab" + b"junk" * 20, "damaged further on"),
        ("odd.png", lambda: picture("PNG").replace(b"IDAT", b"IDAU", 1), "damaged further on"),
        ("flipped.png", lambda: flipped(picture("PNG")), "damaged further on"),
        ("bomb.png", bomb, "says that it has 60,000 x 60,000 pixels, and 80 million are the most"),
        ("a.jpg", lambda: picture("PNG"), "ends in .jpg and is a PNG picture by what is in it"),
        ("a.png", lambda: picture("JPEG"), "ends in .png and is a JPEG picture"),
        ("a.webp", lambda: picture("JPEG"), "ends in .webp and is a JPEG picture"),
        ("a.svg", lambda: picture("PNG"), "ends in .svg and is a PNG picture"),
        ("p.jpg", lambda: picture("JPEG") + b"PK\x03\x04rest", "has an archive in it beside"),
        ("p.png", lambda: picture("PNG") + b"<HTML><body>", "has a web page in it beside"),
        ("c.jpg", lambda: with_comment(b"*/alert(1)//<script>"), "has a script in it beside"),
        ("t.png", lambda: with_text(b"Comment\0<svg onload='x'>"), "has an SVG drawing in it"),
        ("p.webp", lambda: picture("WEBP") + b"%PDF-1.7", "has a PDF in it beside the picture"),
        ("h.webp", lambda: picture("WEBP", xmp=b"<?php echo 1;"), "has a program in it"),
    ],
)
def test_what_cannot_be_shown_is_told(
    tmp_path: Path, name: str, data: Callable[[], bytes], why: str
) -> None:
    (message,) = said(tmp_path, name, data())
    assert why in message


def flipped(data: bytes) -> bytes:
    """With one bit of the picture the other way round."""
    at = data.index(b"IDAT") + 20
    return data[:at] + bytes([data[at] ^ 1]) + data[at + 1 :]


def with_text(words: bytes) -> bytes:
    data = picture("PNG")
    return data[:33] + chunk(b"tEXt", words) + data[33:]


def test_too_many_bytes_are_not_looked_through(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(_pictures, "MOST_BYTES", 2_000_000)
    monkeypatch.setattr("roundproof.checks.photo_unfit.MOST_BYTES", 2_000_000)
    monkeypatch.setattr(_pictures, "_jpeg", None)
    (message,) = said(tmp_path, "large.jpg", picture("JPEG") + bytes(3_000_000))
    assert "has 3 MB, and a page takes photos of at most 2 MB" in message


@pytest.mark.parametrize("begins", [b"<svg/>", b"<!DOCTYPE html>", b"GIF89a", b"%PDF-"])
def test_what_is_no_picture_at_all_is_told_once(tmp_path: Path, begins: bytes) -> None:
    assert ids_of(text("odd.jpg"), {"photos/odd.jpg": begins + bytes(40)}) == ["photo-missing"]


@pytest.mark.parametrize("data", [b"", b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n", b"RIFF\0\0\0\0WEBP"])
def test_a_beginning_alone_is_told_once(tmp_path: Path, data: bytes) -> None:
    assert len(ids_of(text("a.bin"), {"photos/a.bin": data})) == 1


def test_many_parts_take_no_time(tmp_path: Path) -> None:
    """Millions of empty chunks are no photo."""
    for name, data in {
        "a.png": picture("PNG")[:33] + chunk(b"tEXt", b"") * 100_000,
        "a.jpg": b"\xff\xd8" + b"\xff\xe1\0\x02" * 100_000,
    }.items():
        (message,) = said(tmp_path, name, data)
        assert "damaged further on" in message


def test_a_folder_and_a_name_that_is_not_there(tmp_path: Path) -> None:
    assert seen(tmp_path) is None and seen(tmp_path / "nothing.png") is None


@pytest.mark.parametrize(
    ("name", "kind"),
    [("a.JPG", "JPEG"), ("a.b.png", "PNG"), ("a.svg", ""), ("a", None), ("a.photo", None)],
)
def test_what_an_ending_promises(name: str, kind: str | None) -> None:
    assert promised(name) == kind


@given(st.binary(max_size=300), st.sampled_from(["JPEG", "PNG", "WEBP"]), st.integers(0, 400))
def test_whatever_a_file_holds_nothing_raises(data: bytes, kind: str, at: int) -> None:
    whole = picture(kind, (9, 7))
    mixed = whole[:at] + data + whole[at + len(data) :]
    path = Path(_folder(), "any.jpg")
    path.write_bytes(mixed)
    seen(path)


def _folder() -> str:
    from tempfile import gettempdir

    return gettempdir()
