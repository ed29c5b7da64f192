"""What a pattern promises, for whom it says it is, and what is private in it."""

from __future__ import annotations

import io

import pytest
from PIL import Image

from checks.claimed import PATTERN, found, words
from proving import proved


# ---- word-safe: Directive 2009/48/EC, articles 16 and 17: the mark is the maker's declaration ----
@pytest.mark.parametrize(
    ("text", "claim"),
    [
        ("Safe for babies.", "Safe"),
        ("A child-safe stone.", "child-safe"),
        ("With toy safe eyes.", "toy safe"),
        ("All yarn is non-toxic.", "non-toxic"),
        ("It is certified.", "certified"),
        ("CE marked, of course.", "CE marked"),
        ("It has the UKCA mark.", "UKCA mark"),
        ("Conforms to EN 71.", "Conforms to EN 71"),
        ("A safety-tested friend.", "safety-tested"),
    ],
)
def test_a_promise_is_told_at_its_words(text: str, claim: str) -> None:
    assert words("word-safe", f"summary: {text}") == [claim]


@pytest.mark.parametrize(
    "text",
    [
        "Set the safety eyes, read the safety note, close the safety pin.",
        "Nothing here says that it is safe.",
        "Nobody can call it safe for children.",
        "It is not certified.",
        "Keep the pins in a safe place.",
        "Keep it safe from moths.",
        "To be safe, count twice.",
        "The wool is machine-safe.",
        "A pot of 300 CE, and the once-a-year fence.",
        "Sew it on safely.",
        "If you want it safe for a baby, embroider the eyes.",
        "The cotton is safe to machine wash.",
        "Both yarns are colour safe.",
        "It is unsafe to leave it there.",
    ],
)
def test_other_words_promise_nothing(text: str) -> None:
    assert words("word-safe", f'summary: "{text}"') == []


@pytest.mark.parametrize(
    "more",
    [
        "title: Safe pebble",
        "safety: {note: It is safe.}",
        "care: Safe in any water.",
        "credits: [It was certified by Io.]",
        "notions: [child-safe eyes]",
        "assembly:\n  - close: {edge: body, by: gather}\n    step: Now it is safe.",
        "specimen: {simplified: [It is safe.]}",
        "changes: [{version: 1.0.0, date: 2026-05-04, note: Now safe.}]",
    ],
)
def test_every_text_that_is_printed_is_read(more: str) -> None:
    _, findings = proved(PATTERN.format(more=more).replace("title: Pebble\n", "", "title:" in more))
    assert [f.check for f in findings if f.check == "word-safe"] == ["word-safe"]


def test_in_a_folded_text_the_words_are_marked_all_the_same() -> None:
    (finding,) = found("word-safe", "summary: >-\n  A stone that is non\n  toxic and small.")
    assert finding.span.text.split() == ["non", "toxic"]


# ---- age-line: US 16 CFR 1501, EN 71-1, Directive 2009/48/EC article 11 ----
EYES = "notions:\n  - {item: safety eyes, hazard: small part}\n"
STUFFED = "notions:\n  - fibrefill 3 g\n"


@pytest.mark.parametrize(
    "line",
    ["suitable from birth", "for babies", "0+", "for toddlers", "for all ages", "from 6 months",
     "ages 1+", "for children under 3"],
)  # fmt: skip
def test_a_line_for_the_youngest_speaks_against_small_parts(line: str) -> None:
    assert words("age-line", f"{EYES}summary: A stone, {line}, grey.") == [line]
    assert words("age-line", f"summary: A stone, {line}, grey.") == []


@pytest.mark.parametrize(
    "line",
    ["not for children under 3", "not suitable for children under 36 months", "for ages 3+",
     "not under three", "3+", "from 3 years", "ages 3 and up"],
)  # fmt: skip
def test_a_line_that_leaves_the_youngest_out_does_not_stand_on_what_is_stuffed(line: str) -> None:
    (finding,) = found("age-line", f"{STUFFED}summary: A stone, {line}, grey.")
    assert finding.span.text == line and "2009/48/EC" in finding.message
    assert words("age-line", f"{EYES}summary: A stone, {line}, grey.") == []


@pytest.mark.parametrize(
    "text",
    [
        "Nothing for babies.",
        "For toddlers, embroider the eyes instead.",
        "If it is made for a baby, the eyes are sewn.",
        "Leave the eyes out when it is for a newborn.",
        "Not for young children.",
        "R3 + R4 make 24, for 2+ hours.",
        "A species of the Ice Age, 3 months under water.",
        "Under 3 stitches it tears; for the next 3 years it holds.",
    ],
)
def test_other_numbers_are_no_line_about_years(text: str) -> None:
    assert words("age-line", f'{EYES}  - fibrefill 3 g\nsummary: "{text}"') == []


# ---- private-data ----
@pytest.mark.parametrize(
    ("more", "private"),
    [
        ("credits: [Tested by io@example.org]", "io@example.org"),
        ("credits: [Write to +44 20 7946 0018]", "+44 20 7946 0018"),
        ("summary: Call 0161 496 0000 for yarn.", "0161 496 0000"),
        ("photos: [{file: a.png, alt: A stone, by: io@example.org}]", "io@example.org"),
    ],
)
def test_what_is_private_is_told_where_it_stands(more: str, private: str) -> None:
    assert words("private-data", more) == [private]


def test_it_is_an_error_once_published_and_a_note_before() -> None:
    more = "credits: [Tested by io@example.org]"
    (draft,) = found("private-data", more)
    (published,) = found("private-data", f"status: published\n{more}")
    assert (draft.severity, published.severity) == ("note", "error")


@pytest.mark.parametrize(
    "more",
    [
        "contact: io@example.org\ncredits: [Write to io@example.org]",
        "specimen: {references: ['A. Reader, ISBN 978-3-16-148410-0, doi 10.1000/182.4-123456.']}",
        "summary: 12 + 34 567 stitches @ 3 mm",
    ],
)
def test_the_contact_and_other_numbers_are_not_private(more: str) -> None:
    assert words("private-data", more) == []


def photo(kind: str, *, place: bool = False, owner: str = "") -> bytes:
    exif = Image.Exif()
    exif[0x010F] = "Camera maker"
    if place:
        exif.get_ifd(0x8825).update({1: "N", 2: (54.0, 30.0, 0.0), 3: "W", 4: (3.0, 1.0, 0.0)})
    if owner:
        exif[0x013B] = owner
    out = io.BytesIO()
    Image.new("RGB", (8, 8), (90, 110, 130)).save(out, kind, exif=exif)
    return out.getvalue()


PHOTO = "photos: [{file: a.png, alt: A grey stone, by: Io Reader}]"


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_a_place_or_a_name_inside_a_photo_is_told(kind: str) -> None:
    def told(**how: object) -> list[str]:
        files = {"photos/a.png": photo(kind, **how)}  # type: ignore[arg-type]
        return [f.message for f in found("private-data", PHOTO, files)]

    assert told() == []
    assert "the place where it was taken" in told(place=True)[0]
    assert "a name, `Someone Else`" in told(owner="Someone Else")[0]
    assert told(owner="Io Reader") == []


@pytest.mark.parametrize("cut", [0, 3, 12, 30, 50, 80, 120])
def test_a_damaged_photo_tells_nothing_and_breaks_nothing(cut: int) -> None:
    data = photo("JPEG", place=True)
    at = data.find(b"Exif") + cut
    for bad in (data[:at], data[:at] + b"\xff" * 40):
        found("private-data", PHOTO, {"photos/a.png": bad})
