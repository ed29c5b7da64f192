"""Photos come out upright, in two widths, with nothing in them but the picture."""

import io
import struct
import zlib
from pathlib import Path
from typing import Any

import pytest
from PIL import Image, ImageCms

from roundproof.pages import photos
from roundproof.pages.photos import Find, Picture, Unusable, pictures
from roundproof.proof import Proof

RED, BLUE = (200, 30, 30), (30, 30, 200)


def halves(width: int, height: int) -> Image.Image:
    """A picture whose left half is red and whose right half is blue."""
    image = Image.new("RGB", (width, height), RED)
    image.paste(BLUE, (width // 2, 0, width, height))
    return image


def saved(folder: Path, name: str, image: Image.Image, **how: object) -> None:
    (folder / "photos").mkdir(exist_ok=True)
    image.save(folder / "photos" / name, **how)  # type: ignore[arg-type]


def finder(folder: Path) -> Find:
    nothing: Any = None
    return Proof(nothing, nothing, folder=folder).photo


def made(folder: Path, name: str) -> Picture:
    picture = pictures([name], finder(folder))[name]
    assert isinstance(picture, Picture), picture
    return picture


def refused(folder: Path, name: str) -> str:
    picture = pictures([name], finder(folder))[name]
    assert isinstance(picture, Unusable), picture
    return picture.why


def test_a_wide_photo_comes_in_two_widths(tmp_path: Path) -> None:
    saved(tmp_path, "finished.jpg", halves(2600, 1300))
    picture = made(tmp_path, "finished.jpg")
    assert [(r.width, r.height) for r in picture.renditions] == [(480, 240), (1280, 640)]
    assert picture.src == "photos/finished-1280.jpg"
    assert picture.srcset == "photos/finished-480.jpg 480w, photos/finished-1280.jpg 1280w"


@pytest.mark.parametrize(("width", "widths"), [(300, [300]), (480, [480]), (800, [480, 800])])
def test_a_small_photo_is_never_blown_up(tmp_path: Path, width: int, widths: list[int]) -> None:
    saved(tmp_path, "small.png", halves(width, 100))
    assert [r.width for r in made(tmp_path, "small.png").renditions] == widths


def test_camera_and_location_data_are_gone(tmp_path: Path) -> None:
    exif = Image.Exif()
    exif[0x010F] = "Camera maker"
    exif.get_ifd(0x8825).update({1: "N", 2: (54.0, 30.0, 0.0)})
    saved(tmp_path, "shore.jpg", halves(900, 600), exif=exif, comment=b"taken at home")
    whole = (tmp_path / "photos/shore.jpg").read_bytes()
    assert b"Camera maker" in whole and b"taken at home" in whole
    for rendition in made(tmp_path, "shore.jpg").renditions:
        with Image.open(io.BytesIO(rendition.data)) as written:
            assert not written.getexif()
            assert set(written.info) <= {
                "jfif",
                "jfif_version",
                "jfif_unit",
                "jfif_density",
                "progressive",
                "progression",
            }
        assert b"Camera maker" not in rendition.data
        assert b"taken at home" not in rendition.data


def test_a_photo_held_sideways_is_turned_upright(tmp_path: Path) -> None:
    exif = Image.Exif()
    exif[0x0112] = 6  # the camera was held upright: turn right by a quarter
    saved(tmp_path, "upright.jpg", halves(800, 600), exif=exif)
    picture = made(tmp_path, "upright.jpg")
    assert (picture.width, picture.height) == (600, 800)
    with Image.open(io.BytesIO(picture.renditions[-1].data)) as written:
        red = written.convert("RGB").getpixel((300, 100))
        blue = written.convert("RGB").getpixel((300, 700))
    assert isinstance(red, tuple) and red[0] > 150 > red[2]
    assert isinstance(blue, tuple) and blue[2] > 150 > blue[0]


def test_a_see_through_drawing_stays_see_through(tmp_path: Path) -> None:
    saved(tmp_path, "drawing.webp", Image.new("RGBA", (600, 300), (0, 0, 0, 0)), lossless=True)
    smallest = made(tmp_path, "drawing.webp").renditions[0]
    assert smallest.address == "photos/drawing-480.png"
    with Image.open(io.BytesIO(smallest.data)) as written:
        assert written.getpixel((5, 5)) == (0, 0, 0, 0)


def test_the_same_photo_gives_the_same_bytes(tmp_path: Path) -> None:
    saved(tmp_path, "finished.jpg", halves(1400, 700))
    assert made(tmp_path, "finished.jpg") == made(tmp_path, "finished.jpg")


def test_colours_are_those_of_the_screen_and_their_profile_is_gone(tmp_path: Path) -> None:
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    saved(tmp_path, "a.jpg", halves(600, 400), icc_profile=profile)
    saved(tmp_path, "print.jpg", halves(600, 400).convert("CMYK"))
    for name in ("a.jpg", "print.jpg"):
        with Image.open(io.BytesIO(made(tmp_path, name).renditions[0].data)) as written:
            assert written.mode == "RGB"
            assert "icc_profile" not in written.info
            red = written.getpixel((50, 50))
            assert isinstance(red, tuple) and red[0] > 150 > red[2]


def test_a_file_too_large_to_be_a_photo_is_not_opened(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    saved(tmp_path, "big.png", halves(600, 400))
    monkeypatch.setattr(photos, "MOST_BYTES", 100)
    assert "larger than" in refused(tmp_path, "big.png")


@pytest.mark.parametrize("name", ["../../secret.png", "/etc/hostname", "a\0b.png", ".."])
def test_a_name_that_leads_elsewhere_is_refused(tmp_path: Path, name: str) -> None:
    pattern = tmp_path / "patterns" / "pebble"
    pattern.mkdir(parents=True)
    (pattern / "photos").mkdir()
    halves(10, 10).save(tmp_path / "secret.png")
    assert "outside" in refused(pattern, name) or "not in" in refused(pattern, name)


def test_a_link_that_leads_elsewhere_is_refused(tmp_path: Path) -> None:
    halves(10, 10).save(tmp_path / "secret.png")
    pattern = tmp_path / "pebble"
    (pattern / "photos").mkdir(parents=True)
    (pattern / "photos" / "link.png").symlink_to(tmp_path / "secret.png")
    assert "outside" in refused(pattern, "link.png")


def bomb() -> bytes:
    """A PNG of a few bytes that says it is 60,000 pixels square."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return (
            struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
        )

    head = struct.pack(">IIBBBBB", 60_000, 60_000, 8, 2, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", head)
        + chunk(b"IDAT", zlib.compress(b""))
        + chunk(b"IEND", b"")
    )


@pytest.mark.parametrize(
    ("data", "why"),
    [
        (b"", "no JPEG, PNG or WebP"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "no JPEG, PNG or WebP"),
        (b"GIF89a" + bytes(30), "no JPEG, PNG or WebP"),
        (bomb(), "million pixels"),
    ],
)
def test_what_is_no_photo_is_named(tmp_path: Path, data: bytes, why: str) -> None:
    (tmp_path / "photos").mkdir()
    (tmp_path / "photos" / "odd.png").write_bytes(data)
    assert why in refused(tmp_path, "odd.png")


def test_a_photo_cut_short_is_named(tmp_path: Path) -> None:
    saved(tmp_path, "cut.jpg", halves(900, 900))
    path = tmp_path / "photos" / "cut.jpg"
    path.write_bytes(path.read_bytes()[:2000])
    assert refused(tmp_path, "cut.jpg") == "The photo cut.jpg is damaged."


def test_two_names_that_come_out_alike_stay_two_files(tmp_path: Path) -> None:
    for name in ("my eye.png", "my-eye.png"):
        saved(tmp_path, name, halves(20, 20))
    ready = pictures(["my eye.png", "my-eye.png"], finder(tmp_path))
    names = [p.src for p in ready.values() if isinstance(p, Picture)]
    assert names == ["photos/my-eye-20.png", "photos/my-eye-2-20.png"]
