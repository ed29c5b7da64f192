"""No photo that shows the whole."""

from __future__ import annotations

from roundproof.checks.base import Check, Found, missing
from roundproof.checks.photo_missing import CHECK as PHOTO
from roundproof.findings import Severity
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    photos = proof.pattern.photos
    if photos and all(photo.after is not None for photo in photos):
        count = len(photos)
        yield CHECK.finding(
            photos[0].span,
            f"{'The photo shows a step' if count == 1 else f'All {count} photos show steps'}; none"
            " shows the finished object.",
            "Add one without `after:`, better two: the whole from the front, and from behind.",
            severity=missing(proof.pattern.status),
        )


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
photos:
  - {{file: front.png, alt: A round grey stone seen from above{}}}
"""


CHECK = Check(
    id="photo-views",
    title="No photo of the finished object",
    why=(
        "Makers hold their work against the photo of the finished object again and again. Photos of"
        " single steps do not tell where everything ends up, nor how round the whole is."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format(", after: body R1"),
    good=_PATTERN.format(""),
    source="common practice, no source: a full view and details",
    run=_run,
    files=PHOTO.files,
)
