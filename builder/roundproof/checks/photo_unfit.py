"""A photo that is there and cannot be shown: too large, cut short, damaged, or not what it says."""

from __future__ import annotations

from pathlib import Path

from roundproof.checks._pictures import MOST_BYTES, MOST_PIXELS, Seen, promised, seen
from roundproof.checks.base import Check, Found, quoted
from roundproof.checks.photo_missing import CHECK as PHOTO
from roundproof.findings import Severity
from roundproof.proof import Proof

_AGAIN = "Open it where pictures are edited and save it anew, or copy it once more from the camera."
_SMALLER = "Save it smaller: no page shows more than 1280 pixels across."


def _run(proof: Proof) -> Found:
    for photo in proof.pattern.photos:
        path = proof.photo(photo.file.value)
        if path is not None and (said := _said(path)):
            message, mend = said
            yield CHECK.finding(photo.file.span, f"{quoted(photo.file.value)} {message}.", mend)


def _said(path: Path) -> tuple[str, str] | None:
    """What is wrong with a photo, the plainest first, and the mend; what is none at all is told by
    another check."""
    picture = seen(path)
    if picture is None:
        return None
    if (size := path.stat().st_size) > MOST_BYTES:
        least = f"at most {MOST_BYTES // 1_000_000} MB"
        return f"has {size / 1_000_000:.0f} MB, and a page takes photos of {least}", _SMALLER
    if picture.pixels > MOST_PIXELS:
        across = f"{picture.width:,} x {picture.height:,} pixels"
        most = f"{MOST_PIXELS // 1_000_000} million are the most"
        return f"says that it has {across}, and {most}", _SMALLER
    return _not_whole(picture) or _not_itself(picture, path)


def _not_whole(picture: Seen) -> tuple[str, str] | None:
    if not picture.whole:
        return "ends before the picture does", _AGAIN
    if not picture.sound or not picture.pixels:
        return f"begins like a {picture.kind} file and is damaged further on", _AGAIN
    return None


def _not_itself(picture: Seen, path: Path) -> tuple[str, str] | None:
    if picture.beside:
        return f"has {picture.beside} in it beside the picture", _AGAIN
    kind = promised(path.name)
    if kind is not None and kind != picture.kind:
        ending = path.suffix.lower()
        mend = f"Give it the ending of a {picture.kind} file, here and in `photos/`."
        return f"ends in {ending} and is a {picture.kind} picture by what is in it", mend
    return None


CHECK = Check(
    id="photo-unfit",
    title="Photo that cannot be shown",
    why=(
        "A photo that is cut short leaves a grey band, one of a hundred million pixels can use up"
        " all memory of the machine that builds the site, and a file that is a picture to one"
        " program and a web page or an archive to another is how unwanted things are carried about."
        " Pages print pictures that are made anew from the pixels alone; a file that is not plainly"
        " a picture is not opened for it."
    ),
    severity=Severity.ERROR,
    bad=PHOTO.good.replace("front.png", "front.jpg"),
    good=PHOTO.good,
    source="derived from ITU-T T.81, the PNG specification and RFC 9649; the limits: common"
    " practice, no source",
    run=_run,
    files={**PHOTO.files, "photos/front.jpg": PHOTO.files["photos/front.png"]},
)
