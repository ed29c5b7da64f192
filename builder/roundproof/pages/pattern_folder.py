"""All that one pattern puts on the site: its page, its tester's copy, its colours, its photos."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from hashlib import sha256

from roundproof.checks.results import Result
from roundproof.drawing.colour import GROUNDS
from roundproof.drawing.sheets import Sheets
from roundproof.frozen import dataclass
from roundproof.pages import photos
from roundproof.pages.credits import Credited, credited
from roundproof.pages.drawn import NONE, drawings
from roundproof.pages.feed import Edition, editions
from roundproof.pages.findings_shown import ShownFinding
from roundproof.pages.findings_shown import shown as shown_findings
from roundproof.pages.gallery import Shown, shown
from roundproof.pages.label import label
from roundproof.pages.margins import margins
from roundproof.pages.once import Once
from roundproof.pages.paper.beside import Beside, booklets
from roundproof.pages.paper.printing import Printer
from roundproof.pages.paper.printing import Shown as PageShown
from roundproof.pages.pattern import pattern_page
from roundproof.pages.plate import is_preview
from roundproof.pages.search_index import Entry, pattern_entry
from roundproof.pages.share_card import Card, card_of
from roundproof.pages.standing import Standing, standing
from roundproof.pages.structured import structured
from roundproof.pages.tester import tester_page
from roundproof.pages.values import Picture
from roundproof.pages.yarns import Grounds, yarn_sheet
from roundproof.pattern.files import PATTERN_FILE
from roundproof.proof import Proof
from roundproof.store import Kept, Store
from roundproof.testers.progress import Progress, progress
from roundproof.writing.slug import slug


@dataclass(frozen=True, slots=True)
class SitePage:
    """A page to be made: `values` is what its template prints, by name. Only listed pages are in
    the sitemap; search engines are told to pass the others by."""

    address: str
    template: str
    values: Mapping[str, object]
    listed: bool = True


@dataclass(frozen=True, slots=True)
class SiteFile:
    """A file to be written as it is."""

    address: str
    data: bytes


@dataclass(frozen=True, slots=True)
class KeptFile:
    """A file that is in the store."""

    address: str
    kept: Kept


@dataclass(frozen=True, slots=True)
class Unread:
    """A file that no pattern could be made of, and why."""

    name: str
    findings: tuple[ShownFinding, ...]


@dataclass(frozen=True, slots=True)
class Listing:
    """What the rest of the site knows of a pattern; made of its proof alone, so that it can be
    kept. `name` is its file's, `address` its folder's. `pages` are the addresses of its pages that
    are listed, `open` the questions still to be settled. `shown` is the pattern as the gallery
    shows it, `found` as the search does, `credited` what it adds to the credits: None where it is
    not for everyone. `troubles` are sentences on photos that cannot be shown; `editions` is what
    the feed tells, `progress` how far its test is, for the preview alone."""

    name: str
    address: str
    title: str = ""
    pages: tuple[str, ...] = ()
    open: tuple[str, ...] = ()
    changed: date | None = None
    shown: Shown | None = None
    found: Entry | None = None
    credited: Credited | None = None
    troubles: tuple[str, ...] = ()
    unread: Unread | None = None
    editions: tuple[Edition, ...] = ()
    progress: Progress | None = None


@dataclass(frozen=True, slots=True)
class Folder:
    """All that one pattern puts on the site. `card` is what the picture beside links to it shows,
    for a pattern that everyone may know of."""

    listing: Listing
    pages: tuple[SitePage, ...]
    files: tuple[SiteFile, ...] = ()
    card: Card | None = None


def address_of(result: Result) -> str:
    """The pattern's folder on the site: made of the name of its own. A name without any letter
    from a to z still has an address, and always the same."""
    name = result.path.parent.name
    return "patterns/" + (slug(name) or "pattern-" + sha256(name.encode()).hexdigest()[:8])


@dataclass(frozen=True, slots=True)
class With:
    """What a pattern's folder is made with. The `preview` shows every pattern, with findings beside
    the rounds, and in the place of what could not be read why not. What came of a photo is kept in
    the `store`; booklets are made `once`, or not at all without it. `base` is the site's address,
    where it has one."""

    preview: bool = False
    grounds: Grounds = GROUNDS
    store: Store | None = None
    once: Once | None = None
    base: str = ""


def pattern_folder(result: Result, given: With) -> Folder | None:
    """The folder of a pattern that has a page, else None."""
    preview = given.preview
    where = standing(result, preview=preview)
    if result.proof is None:
        here = preview and result.path.name == PATTERN_FILE
        return _unread(result) if here else None
    if preview or where in (Standing.PUBLIC, Standing.UNLISTED):
        return _folder(result, result.proof, where is Standing.PUBLIC, given)
    return None


def _folder(result: Result, proof: Proof, listed: bool, given: With) -> Folder:
    pattern, at, preview, grounds = proof.pattern, address_of(result), given.preview, given.grounds
    found = photos.of_pattern(proof, given.store)
    usable = {file: made for file, made in found.items() if isinstance(made, photos.Picture)}
    pictures = {file: _value(made) for file, made in usable.items()}
    changed = pattern.date.value if pattern.date else None
    sold, sheets = is_preview(proof), Sheets(proof)
    beside = NONE if sold else drawings(sheets)
    page = pattern_page(proof, pictures, beside)
    printed: list[Beside] = []
    # A pattern in its test has no booklet: what is printed of it has a tester's name on it.
    if given.once and listed and not sold:
        address = f"{given.base}{at}/index.html" if given.base else ""
        printer = Printer(proof, address, PageShown(page, sheets, usable))
        printed += booklets(printer, given.once)
    values = {
        "page": page,
        "structured": structured(page, pattern, f"{at}/index.html"),
        "findings": shown_findings(result.findings) if preview else (),
        "margins": margins(proof) if preview else {},
        "booklets": [each.told for each in printed],
    }
    pages = [SitePage(f"{at}/index.html", "pattern.html", values, listed)]
    # A pattern whose rounds are sold elsewhere does not hand them out in a tester's copy.
    if preview or not sold:
        copy = {"page": tester_page(proof, page)}
        pages.append(SitePage(f"{at}/tester.html", "tester.html", copy, listed=False))
    if (words := label(proof)) is not None:
        drawn = {"label": words, "plate": page.plate}
        pages.append(SitePage(f"{at}/label.html", "label.html", drawn, listed=False))
    files = [SiteFile(f"{at}/yarns.css", yarn_sheet(pattern, grounds).encode())]
    files += [SiteFile(f"{at}/{name}", text.encode()) for name, text in beside.files.items()]
    files += [SiteFile(f"{at}/{each.told.file}", each.data) for each in printed]
    files += [
        SiteFile(f"{at}/{address}", data)
        for made in usable.values()
        for address, data in made.files.items()
    ]
    troubles = [made.why for made in found.values() if isinstance(made, photos.Unusable)]
    everyone = listed or preview
    listing = Listing(
        result.name,
        at,
        page.title,
        tuple(page.address for page in pages if page.listed),
        tuple(question.value for question in pattern.open),
        changed,
        shown(at, page, proof, grounds) if everyone else None,
        pattern_entry(page, f"{at}/index.html", pattern) if everyone else None,
        credited(pattern) if everyone else None,
        tuple(f"{result.name}: {why}" for why in troubles),
        editions=editions(pattern, f"{at}/index.html") if listed else (),
        progress=progress(proof.reports) if preview else None,
    )
    card = card_of(proof, page) if listed else None
    return Folder(listing, tuple(pages), tuple(files), card)


def _value(made: photos.Picture) -> Picture:
    return Picture(made.src, made.width, made.height, made.srcset)


def _unread(result: Result) -> Folder:
    """What the preview shows in the place of a pattern that could not be made of its file."""
    at, why = address_of(result), unread(result)
    page = SitePage(f"{at}/index.html", "unread.html", {"unread": why}, listed=False)
    return Folder(Listing(result.name, at, result.path.parent.name, unread=why), (page,))


def unread(result: Result) -> Unread:
    return Unread(result.name, shown_findings(result.findings))
