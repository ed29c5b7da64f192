"""Something private in what would be published: an address, a telephone number, a place."""

from __future__ import annotations

import re
from functools import cache

from roundproof.checks._metadata import private_tags
from roundproof.checks._prose import Said, lines, promised
from roundproof.checks.base import Check, Found, light, missing, quoted
from roundproof.checks.photo_missing import CHECK as PHOTO
from roundproof.findings import Severity
from roundproof.pattern.model import Pattern
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    yield from _in_words(proof)
    yield from _in_photos(proof)


def _in_words(proof: Proof) -> Found:
    pattern = proof.pattern
    contact = pattern.contact.value.lower() if pattern.contact else ""
    for line in (*promised(proof), *_further(pattern)):
        if not ("@" in line.text or re.search(r"\d[\d ()./-]{5}", line.text)):
            continue
        for match in _private().finditer(line.text):
            if match.group().lower() in contact:
                continue
            what = "a mail address" if "@" in match.group() else "a telephone number"
            yield CHECK.finding(
                line.place(*match.span()),
                f"{quoted(match.group())} is {what}, and it would be printed.",
                "Take it out; the one address that a page needs stands under `contact`.",
                severity=missing(pattern.status),
            )


def _further(pattern: Pattern) -> list[Said]:
    """What is printed beside the running text."""
    photos = [text for photo in pattern.photos for text in (photo.by, photo.licence, photo.source)]
    references = pattern.specimen.references if pattern.specimen else ()
    return [*lines(pattern.designer, pattern.licence, *photos, *references)]


def _in_photos(proof: Proof) -> Found:
    for photo in proof.pattern.photos:
        path = proof.photo(photo.file.value)
        found = private_tags(path) if path else None
        if found is None:
            continue
        known = (photo.by.value if photo.by else "", _designer(proof.pattern))
        owner = "" if found.owner in known else found.owner
        if not found.place and not owner:
            continue
        tells = "the place where it was taken" if found.place else f"a name, {quoted(owner)}"
        yield CHECK.finding(
            photo.file.span,
            f"Inside {quoted(photo.file.value)} the camera has written {tells}. Pages show the"
            " picture alone, but whoever gets the folder gets this too.",
            "Save the photo again without what the camera adds (metadata, EXIF).",
            severity=light(proof.pattern.status),
        )


def _designer(pattern: Pattern) -> str:
    return pattern.designer.value if pattern.designer else ""


@cache
def _private() -> re.Pattern[str]:
    """Mail addresses, and numbers that are said to be a telephone's or are written like one."""
    return re.compile(
        r"[\w.+-]+@[\w-]+(?:\.[\w-]+)+"
        r"|(?<![\w.+])\+\d{1,3}[ (]\s?\d[\d ()/-]{6,}\d"
        r"|(?i:(?<=tel )|(?<=tel\. )|(?<=tel: )|(?<=phone )|(?<=phone: )|(?<=telephone )|(?<=call )"
        r"|(?<=mobile )|(?<=mobile: )|(?<=ring ))\+?\(?\d[\d ()/-]{6,}\d"
    )


_PATTERN = """\
title: Pebble
terms: US
contact: errata@example.org
pieces:
  body: |
    R1: 6 sc in magic ring (6)
credits: [{}]
"""

CHECK = Check(
    id="private-data",
    title="Something private",
    why=(
        "What is published stays. An address of a tester that slipped in with the thanks, or the"
        " place of the designer's kitchen table inside a photo, cannot be called back. Pages carry"
        " the pictures without what a camera writes beside them; files that are handed on do not."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format("Tested by Io (io@example.org)"),
    good=_PATTERN.format("Tested by Io; write to errata@example.org"),
    source="common practice, no source",
    run=_run,
    files=PHOTO.files,
)
