"""A photo that is not there, or not to be used."""

from __future__ import annotations

from pathlib import Path

from roundproof.checks._pictures import KINDS, kind_of
from roundproof.checks.base import Check, Found, missing, quoted
from roundproof.findings import Edit, Severity
from roundproof.pattern.model import Photo
from roundproof.pattern.near import nearest
from roundproof.proof import Proof

_PIXEL = bytes.fromhex(
    "89504e470d0a1a0a0000000d49484452000000010000000108000000003a7e9b550000000a49444154789c63"
    "6800000082008177cd72b60000000049454e44ae426082"
)
"""A picture of one grey point."""

_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
photos:
  - {{file: {file}, alt: A round grey stone seen from above}}
"""


def _run(proof: Proof) -> Found:
    kinds = ", ".join(KINDS)
    for photo in proof.pattern.photos:
        path = proof.photo(photo.file.value)
        if path is None:
            yield CHECK.finding(
                photo.file.span,
                f"{quoted(photo.file.value)} leads out of the pattern's folder of photos.",
                "Put the photo into `photos/` beside the pattern, and write its name alone.",
            )
        elif path.name not in _names(path.parent):
            yield from _not_there(proof, photo, path)
        elif not _is_picture(path):
            yield CHECK.finding(
                photo.file.span,
                f"{quoted(photo.file.value)} is none of the pictures that a page shows: {kinds}.",
                "Save the photo again as one of these.",
            )


def _not_there(proof: Proof, photo: Photo, path: Path) -> Found:
    near = nearest(path.name, _names(path.parent))
    parent = photo.file.value[: -len(path.name)]
    yield CHECK.finding(
        photo.file.span,
        f"There is no {quoted(photo.file.value)} in the pattern's `photos/`.",
        f"Write `{parent}{near}`, which is there." if near else "Put it there, or take it out.",
        severity=missing(proof.pattern.status),
        edits=(Edit(photo.file.span, parent + near),) if near else (),
    )


def _names(folder: Path) -> list[str]:
    """What the folder holds, letter for letter: some systems find `A.png` for `a.png`."""
    try:
        return sorted(entry.name for entry in folder.iterdir())
    except OSError:
        return []


def _is_picture(path: Path) -> bool:
    try:
        with path.open("rb") as file:
            return kind_of(file.read(16)) != ""
    except OSError:
        return False


CHECK = Check(
    id="photo-missing",
    title="Photo not there",
    why=(
        "A photo shows what words cannot: where the face sits, how round the back is. A name that"
        " leads nowhere leaves a hole in the page, and one that leads out of the folder could"
        " publish a file that was never meant to be seen."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format(file="finished.jpg"),
    good=_PATTERN.format(file="front.png"),
    source="common practice, no source",
    run=_run,
    files={"photos/front.png": _PIXEL},
)
