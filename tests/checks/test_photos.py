"""Photos have to be there, be pictures, stay inside the folder and be described."""

from __future__ import annotations

from pathlib import Path

import pytest

from proving import proved
from roundproof.checks.photo_missing import CHECK
from roundproof.pipeline import prove

PNG = CHECK.files["photos/front.png"]
PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
photos:
  - {file: FILE, alt: ALT}
"""


def photos(file: str = "front.png", alt: str = "A grey stone", **files: bytes) -> list[str]:
    text = PATTERN.replace("FILE", file).replace("ALT", alt)
    there = {f"photos/{name.replace('_', '.')}": data for name, data in files.items()}
    _, findings = proved(text, there)
    return [f"{f.check} {f.severity}: {f.mend}" for f in findings if f.check.startswith("photo-")]


@pytest.mark.parametrize(
    "head", [PNG, b"\xff\xd8\xff\xe0\x00\x10JFIF", b"RIFF\x24\x00\x00\x00WEBPVP8 "]
)
def test_pictures_are_known_by_their_first_bytes(head: bytes) -> None:
    assert not [said for said in photos(front_png=head) if said.startswith("photo-missing")]


@pytest.mark.parametrize("data", [b"", b"GIF89a", b"<svg onload='x'>", b"%PDF-1.7", PNG[1:]])
def test_anything_else_is_refused(data: bytes) -> None:
    (said,) = photos(front_png=data)
    assert said.startswith("photo-missing error")


def test_a_photo_not_there_is_told_with_the_nearest_that_is() -> None:
    assert photos("frnt.png", front_png=PNG) == [
        "photo-missing note: Write `front.png`, which is there."
    ]


def test_letters_count_on_every_system() -> None:
    (said,) = photos("Front.PNG", front_png=PNG)
    assert "`front.png`" in said


@pytest.mark.parametrize(
    "file",
    ["../secret.png", "a/../../secret.png", "/etc/passwd", '"..\\\\secret.png"', '"C:\\\\a.png"'],
)
def test_no_name_leads_out_of_the_folder(file: str) -> None:
    (said,) = photos(file)
    assert said.startswith("photo-missing error: Put the photo into `photos/`")


def test_no_link_leads_out_of_the_folder(tmp_path: Path) -> None:
    folder = tmp_path / "pebble"
    (folder / "photos").mkdir(parents=True)
    (tmp_path / "secret.png").write_bytes(PNG)
    (folder / "photos" / "front.png").symlink_to(tmp_path / "secret.png")
    (folder / "pattern.yaml").write_text(
        PATTERN.replace("FILE", "front.png").replace("ALT", "A grey stone")
    )
    found = [f for f in prove(folder).findings if f.check == "photo-missing"]
    assert ["leads out" in f.message for f in found] == [True]


def test_a_name_that_no_file_can_have_is_a_photo_not_there() -> None:
    assert photos("x" * 5000)[0].startswith("photo-missing")


@pytest.mark.parametrize(
    "alt", ["front.png", "IMG_0231.JPG", "img 0231", "front", "Photo", "DSC00017"]
)
def test_a_file_name_or_an_empty_word_describes_nothing(alt: str) -> None:
    (said,) = photos(alt=alt, front_png=PNG)
    assert said.startswith("photo-alt error")


def test_a_photo_without_any_description_is_still_to_say() -> None:
    text = PATTERN.replace(", alt: ALT", "").replace("FILE", "front.png")
    _, findings = proved(text, {"photos/front.png": PNG})
    assert [(f.check, str(f.severity)) for f in findings if f.check == "photo-alt"] == [
        ("photo-alt", "note")
    ]
    published = text.replace("title: Pebble", "title: Pebble\nstatus: published")
    _, findings = proved(published, {"photos/front.png": PNG})
    assert [str(f.severity) for f in findings if f.check == "photo-alt"] == ["error"]
