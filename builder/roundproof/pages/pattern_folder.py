"""All that one pattern puts on the site: its page, its tester's copy, its colours, its photos."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from hashlib import sha256

from roundproof.checks.results import Result
from roundproof.drawing.colour import GROUNDS
from roundproof.frozen import dataclass
from roundproof.pages import photos
from roundproof.pages.findings_shown import ShownFinding, shown
from roundproof.pages.gallery import Shown
from roundproof.pages.label import label
from roundproof.pages.pattern import pattern_page
from roundproof.pages.tester import tester_page
from roundproof.pages.values import Picture
from roundproof.pages.yarns import Grounds, yarn_sheet
from roundproof.proof import Proof
from roundproof.writing.slug import slug


@dataclass(frozen=True, slots=True)
class SitePage:
    """A page to be made: `values` is what its template prints, by name. Only listed pages are in
    the sitemap; search engines are told to pass the others by."""

    address: str
    template: str
    values: Mapping[str, object]
    listed: bool = True
    changed: date | None = None


@dataclass(frozen=True, slots=True)
class SiteFile:
    """A file to be written as it is."""

    address: str
    data: bytes


@dataclass(frozen=True, slots=True)
class Folder:
    """`shown` is the pattern as the gallery shows it, None where there is none to show; `troubles`
    are sentences on photos that cannot be shown."""

    pages: tuple[SitePage, ...]
    files: tuple[SiteFile, ...] = ()
    shown: Shown | None = None
    troubles: tuple[str, ...] = ()


def address_of(result: Result) -> str:
    """The pattern's folder on the site: made of the name of its own. A name without any letter
    from a to z still has an address, and always the same."""
    name = result.path.parent.name
    return "patterns/" + (slug(name) or "pattern-" + sha256(name.encode()).hexdigest()[:8])


def pattern_folder(
    result: Result, proof: Proof, *, listed: bool, preview: bool, grounds: Grounds = GROUNDS
) -> Folder:
    """The folder of a pattern that has a page. The preview shows findings beside the rounds."""
    pattern, at = proof.pattern, address_of(result)
    sold = pattern.show is not None and pattern.show.value == "preview"
    # Photos of single rounds belong to the rounds.
    shots = [photo for photo in pattern.photos if not (sold and photo.after)]
    found = photos.pictures([photo.file.value for photo in shots], proof.photo)
    usable = {file: made for file, made in found.items() if isinstance(made, photos.Picture)}
    pictures = {file: _value(made) for file, made in usable.items()}
    changed = pattern.date.value if pattern.date else None
    page = pattern_page(proof, pictures)
    values = {
        "page": page,
        "findings": shown(result.findings) if preview else (),
    }
    pages = [SitePage(f"{at}/index.html", "pattern.html", values, listed, changed)]
    # A pattern whose rounds are sold elsewhere does not hand them out in a tester's copy.
    if preview or not sold:
        copy = {"page": tester_page(proof, pictures)}
        pages.append(SitePage(f"{at}/tester.html", "tester.html", copy, listed=False))
    if (card := label(proof)) is not None:
        drawn = {"label": card, "plate": page.plate}
        pages.append(SitePage(f"{at}/label.html", "label.html", drawn, listed=False))
    files = [SiteFile(f"{at}/yarns.css", yarn_sheet(pattern, grounds).encode())]
    files += [
        SiteFile(f"{at}/{r.address}", r.data) for made in usable.values() for r in made.renditions
    ]
    troubles = [made.why for made in found.values() if isinstance(made, photos.Unusable)]
    named = tuple(f"{result.name}: {why}" for why in troubles)
    in_gallery = Shown(f"{at}/index.html", page, proof) if listed or preview else None
    return Folder(tuple(pages), tuple(files), in_gallery, named)


def _value(made: photos.Picture) -> Picture:
    return Picture(made.src, made.width, made.height, made.srcset)


def unread_page(result: Result) -> SitePage:
    """What the preview shows in the place of a pattern that could not be made of its file."""
    values = {"unread": unread(result)}
    return SitePage(f"{address_of(result)}/index.html", "unread.html", values, listed=False)


@dataclass(frozen=True, slots=True)
class Unread:
    """A file that no pattern could be made of, and why."""

    name: str
    findings: tuple[ShownFinding, ...]


def unread(result: Result) -> Unread:
    return Unread(result.name, shown(result.findings))
