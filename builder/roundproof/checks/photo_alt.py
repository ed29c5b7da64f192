"""A photo that nobody describes."""

from __future__ import annotations

from roundproof.checks.base import Check, Found, missing, quoted
from roundproof.checks.photo_missing import CHECK as PHOTO
from roundproof.expressions import expression
from roundproof.findings import Severity
from roundproof.proof import Proof

FILE_NAME = expression(
    r"\S+\.(png|jpe?g|webp|gif|heic|tiff?)|(img|dsc\w?|pxl|image|photo)[\W_]*\d+"
)
EMPTY_WORDS = frozenset({"photo", "picture", "image", "foto", "photograph", "a photo", "alt"})

_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
photos:
  - {{file: front.png, alt: {alt}}}
"""


def _run(proof: Proof) -> Found:
    mend = "Say in a sentence what the photo shows, as to someone on the telephone."
    for photo in proof.pattern.photos:
        alt = " ".join(photo.alt.value.split()).lower() if photo.alt else ""
        if not alt or photo.alt is None:
            yield CHECK.finding(
                photo.file.span,
                f"{quoted(photo.file.value)} has no description in words (`alt`).",
                mend,
                severity=missing(proof.pattern.status),
            )
        elif FILE_NAME.fullmatch(alt) or alt == photo.file.value.rpartition(".")[0].lower():
            yield CHECK.finding(
                photo.alt.span,
                f"{quoted(photo.alt.value)} is the name of a file, no description.",
                mend,
            )
        elif alt in EMPTY_WORDS:
            yield CHECK.finding(
                photo.alt.span, f"{quoted(photo.alt.value)} does not say what can be seen.", mend
            )


CHECK = Check(
    id="photo-alt",
    title="Photo without a description",
    why=(
        "Makers who listen to a page, or whose connection drops the pictures, know a photo only by"
        " its description. A file name tells them nothing."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format(alt="IMG_0231.png"),
    good=_PATTERN.format(alt="A round grey stone seen from the front"),
    source="Web Content Accessibility Guidelines 2.2, criterion 1.1.1",
    run=_run,
    files=PHOTO.files,
)
