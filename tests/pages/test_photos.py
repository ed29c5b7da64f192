"""Photos come out upright, in several sizes, with nothing in them but the picture."""

import io
import struct
import zlib
from pathlib import Path
from typing import Any

import pytest
from PIL import Image, ImageCms, ImageOps
from PIL.PngImagePlugin import PngInfo

from roundproof.pages import developing, photos
from roundproof.pages.photos import Find, Picture, Unusable, pictures
from roundproof.proof import Proof
from roundproof.store import Store

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


def files(picture: Picture) -> list[Image.Image]:
    """Every file of a picture, opened."""
    return [Image.open(io.BytesIO(data)) for data in picture.files.values()]


def colour(image: Image.Image, x: int, y: int) -> tuple[int, ...]:
    found = image.convert("RGB").getpixel((x, y))
    assert isinstance(found, tuple)
    return tuple(map(int, found))


def near(one: tuple[int, ...], two: tuple[int, ...], by: int = 6) -> bool:
    return all(abs(a - b) <= by for a, b in zip(one, two, strict=True))


# ---- sizes and forms ----
def test_a_wide_photo_comes_in_three_sizes_and_one_for_old_browsers(tmp_path: Path) -> None:
    saved(tmp_path, "finished.jpg", halves(2600, 1300))
    picture = made(tmp_path, "finished.jpg")
    assert [(r.width, r.height) for r in picture.made.sizes] == [
        (480, 240),
        (880, 440),
        (1280, 640),
    ]
    assert picture.srcset == (
        "photos/finished-480.webp 480w, photos/finished-880.webp 880w,"
        " photos/finished-1280.webp 1280w"
    )
    assert (picture.src, picture.width, picture.height) == ("photos/finished-880.jpg", 880, 440)
    assert [image.format for image in files(picture)] == ["WEBP"] * 3 + ["JPEG"]
    for address, data in picture.files.items():
        with Image.open(io.BytesIO(data)) as written:
            assert f"-{written.width}." in address


@pytest.mark.parametrize(
    ("width", "widths"),
    [(300, [300]), (480, [480]), (590, [590]), (800, [480, 800]), (1000, [480, 1000])],
)
def test_a_small_photo_is_never_blown_up(tmp_path: Path, width: int, widths: list[int]) -> None:
    saved(tmp_path, "small.jpg", halves(width, 100))
    picture = made(tmp_path, "small.jpg")
    assert [r.width for r in picture.made.sizes] == widths
    assert picture.width == widths[-1]


def test_a_drawing_keeps_its_edges_and_a_photo_as_png_becomes_small(tmp_path: Path) -> None:
    saved(tmp_path, "drawing.png", halves(700, 300))
    saved(tmp_path, "photo.png", Image.effect_noise((700, 300), 60).convert("RGB").rotate(2))
    noise = Image.merge("RGB", [Image.effect_noise((700, 300), 60) for _ in range(3)])
    saved(tmp_path, "photo.png", noise)
    drawing, photo = made(tmp_path, "drawing.png"), made(tmp_path, "photo.png")
    assert drawing.src.endswith(".png") and photo.src.endswith(".jpg")
    with Image.open(io.BytesIO(drawing.made.sizes[-1].data)) as written:  # letter for letter
        assert written.convert("RGB").tobytes() == halves(700, 300).tobytes()
    assert len(photo.made.fallback.data) < 700 * 300


def test_the_originals_are_not_touched(tmp_path: Path) -> None:
    saved(tmp_path, "finished.jpg", halves(1400, 700))
    path = tmp_path / "photos" / "finished.jpg"
    before = (path.read_bytes(), path.stat().st_mtime_ns)
    made(tmp_path, "finished.jpg")
    assert (path.read_bytes(), path.stat().st_mtime_ns) == before
    assert [each.name for each in path.parent.iterdir()] == ["finished.jpg"]


# ---- nothing but the picture ----
@pytest.mark.parametrize("name", ["shore.jpg", "shore.png", "shore.webp"])
def test_camera_and_location_data_are_gone(tmp_path: Path, name: str) -> None:
    exif = Image.Exif()
    exif[0x010F] = "Camera maker"
    exif.get_ifd(0x8825).update({1: "N", 2: (54.0, 30.0, 0.0)})
    aside: dict[str, object] = {"comment": b"taken at home"} if name == "shore.jpg" else {}
    if name == "shore.webp":
        aside = {"xmp": b"<x:xmpmeta>taken at home</x:xmpmeta>"}
    if name == "shore.png":
        text = PngInfo()
        text.add_text("Comment", "taken at home")
        aside = {"pnginfo": text}
    saved(tmp_path, name, halves(900, 600), exif=exif, **aside)
    whole = (tmp_path / "photos" / name).read_bytes()
    assert b"Camera maker" in whole and b"taken at home" in whole
    plain = {"jfif", "jfif_version", "jfif_unit", "jfif_density", "progressive", "progression"}
    plain |= {"loop", "background", "timestamp", "duration"}
    picture = made(tmp_path, name)
    for data in picture.files.values():
        assert b"Camera maker" not in data and b"taken at home" not in data
    for written in files(picture):
        assert not written.getexif()
        assert set(written.info) <= plain


# ---- upright ----
@pytest.mark.parametrize("turn", range(1, 9))
@pytest.mark.parametrize("name", ["held.jpg", "held.png", "held.webp"])
def test_a_photo_is_turned_the_way_the_camera_was_held(
    tmp_path: Path, turn: int, name: str
) -> None:
    quarters = Image.new("RGB", (900, 700), RED)
    quarters.paste(BLUE, (450, 0, 900, 350))
    quarters.paste((30, 160, 30), (0, 350, 450, 700))
    exif = Image.Exif()
    exif[0x0112] = turn
    saved(tmp_path, name, quarters, exif=exif)
    with Image.open(tmp_path / "photos" / name) as opened:  # Pillow is the reference
        upright = ImageOps.exif_transpose(opened).convert("RGB")
    picture = made(tmp_path, name)
    assert picture.width * upright.height == pytest.approx(
        picture.height * upright.width, rel=0.002
    )
    for written in files(picture):
        for x, y in ((0.25, 0.25), (0.75, 0.25), (0.25, 0.75), (0.75, 0.75)):
            there = colour(written, int(x * written.width), int(y * written.height))
            wanted = colour(upright, int(x * upright.width), int(y * upright.height))
            assert near(there, wanted, 12), (written.format, x, y)


def test_the_largest_size_counts_across_as_it_is_seen(tmp_path: Path) -> None:
    exif = Image.Exif()
    exif[0x0112] = 6
    saved(tmp_path, "held.jpg", halves(3000, 2000), exif=exif)
    assert [(r.width, r.height) for r in made(tmp_path, "held.jpg").made.sizes][-1] == (1280, 1920)


@pytest.mark.parametrize("told", [0, 9, 65535])
def test_an_orientation_that_there_is_not_is_passed_by(tmp_path: Path, told: int) -> None:
    exif = Image.Exif()
    exif[0x0112] = told
    saved(tmp_path, "odd.jpg", halves(600, 400), exif=exif)
    assert colour(files(made(tmp_path, "odd.jpg"))[-1], 100, 200)[0] > 150


# ---- colours ----
GREEN = (60, 200, 90)


def wide_gamut() -> bytes:
    """A profile of a screen with stronger colours than sRGB: sRGB's own with other primaries, near
    those of Display P3 (adapted to D50; the values are from memory, and any would do)."""
    profile = bytearray(ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes())
    primaries = {b"rXYZ": (0.51512, 0.24120, -0.00105), b"gXYZ": (0.29198, 0.69225, 0.04189)}
    primaries[b"bXYZ"] = (0.15710, 0.06657, 0.78407)
    count = struct.unpack(">I", profile[128:132])[0]
    for place in range(count):
        tag, at, _ = struct.unpack(">4sII", profile[132 + 12 * place : 144 + 12 * place])
        if tag in primaries:
            numbers = [round(value * 65536) for value in primaries[tag]]
            profile[at + 8 : at + 20] = struct.pack(">3i", *numbers)
    return bytes(profile)


@pytest.mark.parametrize("name", ["wide.jpg", "wide.png", "wide.webp"])
@pytest.mark.parametrize("mode", ["RGB", "RGBA", "P"])
def test_stronger_colours_of_other_screens_are_brought_to_srgb(
    tmp_path: Path, name: str, mode: str
) -> None:
    if (mode == "RGBA" and name == "wide.jpg") or (mode == "P" and name != "wide.png"):
        mode = "RGB"
    image = Image.new("RGB", (600, 400), GREEN)
    image = image.quantize(4) if mode == "P" else image.convert(mode)
    profile = wide_gamut()
    how: dict[str, object] = {"quality": 100} if name != "wide.png" else {}
    saved(tmp_path, name, image, icc_profile=profile, **how)
    # littleCMS by itself is the reference
    own = ImageCms.ImageCmsProfile(io.BytesIO(profile))
    screen = ImageCms.createProfile("sRGB")
    one = Image.new("RGB", (1, 1), GREEN)
    wanted = colour(ImageCms.profileToProfile(one, own, screen) or one, 0, 0)
    assert not near(wanted, GREEN, 12)
    for written in files(made(tmp_path, name)):
        assert "icc_profile" not in written.info
        assert near(colour(written, 300, 200), wanted, 5), written.format


def test_colours_of_screens_stay(tmp_path: Path) -> None:
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    saved(tmp_path, "a.jpg", halves(600, 400), icc_profile=profile)
    for written in files(made(tmp_path, "a.jpg")):
        assert written.mode == "RGB" and "icc_profile" not in written.info
        assert near(colour(written, 50, 50), RED, 8)


def test_a_profile_that_is_damaged_leaves_the_colours(tmp_path: Path) -> None:
    saved(tmp_path, "a.jpg", halves(600, 400), icc_profile=b"no profile at all")
    for written in files(made(tmp_path, "a.jpg")):
        assert near(colour(written, 50, 50), RED, 8)


@pytest.mark.parametrize(
    ("name", "mode", "value", "wanted"),
    [
        ("print.jpg", "CMYK", (0, 255, 255, 0), (255, 0, 0)),
        ("grey.jpg", "L", 90, (90, 90, 90)),
        ("grey.png", "L", 90, (90, 90, 90)),
        ("line.png", "1", 1, (255, 255, 255)),
        ("deep.png", "I;16", 40_000, (156, 156, 156)),
        ("grey-alpha.png", "LA", (90, 255), (90, 90, 90)),
    ],
)
def test_pictures_of_other_kinds_keep_their_colours(
    tmp_path: Path, name: str, mode: str, value: Any, wanted: tuple[int, ...]
) -> None:
    saved(tmp_path, name, Image.new(mode, (600, 400), value))
    for written in files(made(tmp_path, name)):
        assert written.mode in ("RGB", "RGBA")
        assert near(colour(written, 300, 200), wanted, 4), written.format


def test_a_palette_keeps_its_colours_and_what_is_see_through(tmp_path: Path) -> None:
    image = halves(600, 400).convert("P", palette=Image.Palette.ADAPTIVE, colors=4)
    saved(tmp_path, "palette.png", image)
    clear = image.getpixel((10, 10))
    saved(tmp_path, "clear.png", image, transparency=clear)
    for written in files(made(tmp_path, "palette.png")):
        assert near(colour(written, 100, 200), RED) and near(colour(written, 400, 200), BLUE)
    for written in files(made(tmp_path, "clear.png")):
        there = written.convert("RGBA").getpixel((100, 200))
        assert isinstance(there, tuple) and there[3] == 0


def test_a_see_through_drawing_stays_see_through(tmp_path: Path) -> None:
    saved(tmp_path, "drawing.webp", Image.new("RGBA", (600, 300), (0, 0, 0, 0)), lossless=True)
    picture = made(tmp_path, "drawing.webp")
    assert picture.src == "photos/drawing-600.png"
    for written in files(picture):
        there = written.convert("RGBA").getpixel((5, 5))
        assert isinstance(there, tuple) and there[3] == 0


def test_a_second_picture_behind_the_first_is_left_out(tmp_path: Path) -> None:
    """As some phones save them (CIPA DC-007, multi-picture)."""
    (tmp_path / "photos").mkdir()
    first, second = halves(700, 500), Image.new("RGB", (70, 50))
    first.save(tmp_path / "photos/two.jpg", "MPO", save_all=True, append_images=[second])
    picture = made(tmp_path, "two.jpg")
    assert near(colour(files(picture)[-1], 100, 200), RED, 8)
    assert picture.width == 700


# ---- made once ----
def test_the_same_photo_gives_the_same_bytes(tmp_path: Path) -> None:
    for name, image in {
        "a.jpg": halves(1400, 700),
        "b.png": halves(1400, 700),
        "c.png": Image.effect_noise((1400, 700), 60).convert("RGB"),
    }.items():
        saved(tmp_path, name, image)
        assert made(tmp_path, name) == made(tmp_path, name)


def test_what_came_of_a_photo_is_kept_by_its_content(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    store, find = Store(tmp_path / "kept"), finder(tmp_path)
    saved(tmp_path, "a.jpg", halves(900, 600))
    fresh = pictures(["a.jpg"], find, store)["a.jpg"]
    assert isinstance(fresh, Picture) and fresh == made(tmp_path, "a.jpg")
    (tmp_path / "photos/a.jpg").rename(tmp_path / "photos/b.jpg")
    developed: list[Path] = []
    real = developing.developed
    monkeypatch.setattr(photos, "developed", lambda p: (developed.append(p), real(p))[1])
    again = pictures(["b.jpg"], find, store)["b.jpg"]
    assert isinstance(again, Picture) and again.made == fresh.made
    assert (again.src, developed) == ("photos/b-880.jpg".replace("880", "900"), [])
    saved(tmp_path, "b.jpg", halves(900, 601))
    changed = pictures(["b.jpg"], find, store)["b.jpg"]
    assert isinstance(changed, Picture) and changed.made != fresh.made and len(developed) == 1
    monkeypatch.setattr(photos, "RECIPE", "another")
    pictures(["b.jpg"], find, store)
    assert len(developed) == 2


def test_what_is_kept_and_damaged_is_made_anew(tmp_path: Path) -> None:
    store, find = Store(tmp_path / "kept"), finder(tmp_path)
    saved(tmp_path, "a.jpg", halves(900, 600))
    fresh = pictures(["a.jpg"], find, store)["a.jpg"]
    (entry,) = (path for path in store.folder.rglob("*") if path.is_file())
    entry.write_bytes(entry.read_bytes()[:-9] + b"something")
    assert pictures(["a.jpg"], find, store)["a.jpg"] == fresh


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
