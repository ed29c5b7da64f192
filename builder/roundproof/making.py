"""From pattern files to what they put on the site, whatever is unchanged taken from the store.

Of a pattern two things are kept. What was *found* (findings, and what the rest of the site knows of
it) depends on its file, its folder, the defaults and the code; its *pages* on the frame around them
and on the templates too. A page that only has to be filled anew therefore costs no other page
anything.
"""

from __future__ import annotations

import os
import platform
from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from datetime import date
from functools import cache, partial
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path
from typing import TypeVar

from roundproof.checks.results import Result, Results, let_go
from roundproof.frozen import dataclass, replace
from roundproof.packing import packed, unpacked
from roundproof.pages.filling import Filler, Frame
from roundproof.pages.known_by import known_by
from roundproof.pages.pattern_folder import (
    Folder,
    KeptFile,
    Listing,
    SiteFile,
    Unread,
    With,
    pattern_folder,
)
from roundproof.pages.pattern_folder import unread as unread_file
from roundproof.pages.share_card import CARD, share_card
from roundproof.pages.site import Site, whole_site
from roundproof.pattern.files import PATTERN_FILE, PatternFile
from roundproof.pipeline import Proving
from roundproof.processes import shared_out, worth_starting
from roundproof.store import Store, code_stamp, key

FEW = 4
"""Patterns that a process should have at least: making the pages of one takes a good while."""
DEEPEST = 4
"""Folders within a pattern's folder."""
T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Found:
    """What came of a file: what there is to say of it, and what the rest of the site knows of the
    pattern, if it has a page."""

    result: Result
    listing: Listing | None


@dataclass(frozen=True, slots=True)
class Pages:
    """All files of a pattern's folder on the site, ready to be written, or `kept` in the store."""

    files: tuple[SiteFile, ...] = ()
    kept: tuple[KeptFile, ...] = ()


@dataclass(frozen=True, slots=True)
class Made:
    """`pages` is None where only what was found was asked for."""

    found: Found
    pages: Pages | None = None


@dataclass(frozen=True, slots=True)
class Making:
    """How the patterns of a site are made. `code` and `looks` stand for the code and for the
    templates as they are now; it goes to other processes as it is."""

    frame: Frame
    store: Path
    code: str
    looks: str

    @classmethod
    def of(cls, frame: Frame, store: Path) -> Making:
        return cls(frame, store, _code(), frame.looks())


class _Once:
    """Makes what depends on the code, the site's colours and a few things more, if it is not in the
    store."""

    def __init__(self, making: Making, store: Store) -> None:
        self.parts = (making.code, repr(making.frame.look))
        self.store = store

    def __call__(self, make: Callable[[], bytes], *parts: str | bytes) -> bytes:
        sign = key(*self.parts, *parts)
        data = self.store.get(sign)
        if data is None:
            data = make()
            self.store.put(sign, data)
        return data


class Maker:
    """Makes one file after the other."""

    def __init__(self, making: Making) -> None:
        self.making = making
        self.preview = making.frame.serving
        self.store = Store(making.store)
        self.filler = Filler(making.frame)
        self.proving = Proving()
        self.around = key(repr(making.frame), making.looks)
        self.colours = repr(making.frame.look)

    def begin_again(self) -> None:
        """Reads the defaults anew."""
        self.proving = Proving()

    def kept(self, sign: str, *, pages: bool) -> Made | None:
        """What is in the store; None unless all is that is asked for."""
        found = self._get("found", sign, Found)
        if found is None or not pages:
            return Made(found) if found else None
        ready = self._get("pages", sign + self.around, Pages) if found.listing else Pages()
        if ready is None or not all(self.store.has(file.kept) for file in ready.kept):
            return None
        return Made(found, ready)

    def made(self, file: PatternFile, sign: str, *, pages: bool) -> Made:
        """Made anew, and kept."""
        result = self.proving.file(file)
        assert result is not None  # whatever its status is
        grounds = self.making.frame.look.grounds
        once = None if self.preview else _Once(self.making, self.store)
        base = self.making.frame.base
        folder = pattern_folder(result, With(self.preview, grounds, self.store, once, base))
        found = Found(let_go(result), folder.listing if folder else None)
        ready = (self._filled(folder) if folder else Pages()) if pages else None
        if sign == self.sign(file):  # else it was saved in the meantime
            self._put("found", sign, found)
            if folder and ready:
                self._put("pages", sign + self.around, ready)
        return Made(found, ready)

    def _filled(self, folder: Folder) -> Pages:
        """The preview has them at hand; a site that is built is linked to what is kept."""
        pages = (SiteFile(page.address, self.filler.page(page)) for page in folder.pages)
        files = (*pages, *folder.files, *self._card(folder))
        if self.preview:
            return Pages(files)
        here, kept = list[SiteFile](), list[KeptFile]()
        for file in files:
            if (one := self.store.keep(file.data)) is not None:
                kept.append(KeptFile(file.address, one))
            else:
                here.append(file)
        return Pages(tuple(here), tuple(kept))

    def _card(self, folder: Folder) -> Iterator[SiteFile]:
        """The picture beside links; it costs more than its page, and changes less."""
        frame = self.making.frame
        if folder.card is not None and frame.told:
            card = replace(folder.card, site=frame.name)
            once = _Once(self.making, self.store)
            data = once(lambda: share_card(card, frame.look.grounds[0]), "card", packed(card))
            yield SiteFile(f"{folder.listing.address}/{CARD}", data)

    def sign(self, file: PatternFile) -> str:
        """Stands for all that the file's pattern depends on: the code, the text of its file and of
        the defaults, what else lies in its folder (by size and time), and the site's colours."""
        beside = "\n".join(sorted(_beside(file.path.parent)))
        texts = (_content(file.path), _content(file.defaults))
        named = (str(self.preview), file.name, file.slug)
        return key(self.making.code, self.colours, *named, beside, *texts)

    def _get(self, what: str, sign: str, kind: type[T]) -> T | None:
        data = self.store.get(key(what, sign))
        return unpacked(data, kind) if data is not None else None

    def _put(self, what: str, sign: str, value: object) -> None:
        self.store.put(key(what, sign), packed(value))


@dataclass(frozen=True, slots=True)
class Everything:
    """All patterns of a site, each in its place, and what there is to say of other files."""

    made: tuple[Made, ...]
    others: tuple[Result, ...]

    @property
    def results(self) -> Results:
        return Results((*self.others, *(one.found.result for one in self.made)))

    @property
    def listings(self) -> tuple[Listing, ...]:
        return tuple(one.found.listing for one in self.made if one.found.listing)

    @property
    def files(self) -> Iterator[SiteFile]:
        return (file for one in self.made if one.pages for file in one.pages.files)

    @property
    def kept(self) -> Iterator[KeptFile]:
        return (file for one in self.made if one.pages for file in one.pages.kept)


def make(making: Making, patterns: Path) -> Everything:
    """All patterns of a folder, those that changed by several processes where that pays. Raises
    WorkerLost."""
    maker = Maker(making)
    others, files = planned(maker.proving, patterns)
    signs = [maker.sign(file) for file in files]
    made = {n: maker.kept(sign, pages=True) for n, sign in enumerate(signs)}
    anew = {n: file for n, file in enumerate(files) if made[n] is None}
    made |= made_anew(making, anew, pages=True)
    if anew:
        maker.store.trim()
    return Everything(tuple(one for one in made.values() if one), others)


def planned(proving: Proving, patterns: Path) -> tuple[tuple[Result, ...], tuple[PatternFile, ...]]:
    """What there is to say of a folder and its defaults, and the pattern files in it."""
    plan = list(proving.planned(patterns))
    others = tuple(each for each in plan if isinstance(each, Result))
    return others, tuple(each for each in plan if isinstance(each, PatternFile))


def made_anew(making: Making, files: Mapping[int, PatternFile], *, pages: bool) -> dict[int, Made]:
    """Some files by their numbers, shared out where that pays. Raises WorkerLost."""
    count = worth_starting(len(files), FEW)
    if count > 1:
        return shared_out(files, partial(_begun, making, pages), count)
    does = _begun(making, pages)
    return {number: does(file) for number, file in files.items()}


def _begun(making: Making, pages: bool) -> Callable[[PatternFile], Made]:
    maker = Maker(making)
    return lambda file: maker.made(file, maker.sign(file), pages=pages)


@dataclass(frozen=True, slots=True)
class Given:
    """What is not written by hand: the site around its patterns, in its frame, and all files that
    go with it, ready to be written or `kept` in the store. `listed` are the addresses of listed
    pages, each with the day on which it changed. Where others serve the files, they are not
    `written`."""

    site: Site
    frame: Frame
    files: tuple[SiteFile, ...]
    kept: tuple[KeptFile, ...] = ()
    listed: tuple[tuple[str, date | None], ...] = ()
    written: bool = True


def given(everything: Everything, making: Making) -> Given:
    """The whole site but for the hand-written pages."""
    frame = making.frame
    unread = _unread(everything) if frame.serving else ()
    site = whole_site(everything.listings, unread, frame.look, frame.themes)
    filler = Filler(frame)
    listed = [(page, one.changed) for one in everything.listings for page in one.pages]
    listed += [(page.address, None) for page in site.pages if page.listed]
    pages = (SiteFile(page.address, filler.page(page)) for page in site.pages)
    told = known_by(everything.listings, frame, _Once(making, Store(making.store)))
    files = (*everything.files, *pages, *site.files, *told)
    return Given(site, frame, files, tuple(everything.kept), tuple(listed))


def _unread(everything: Everything) -> tuple[Unread, ...]:
    """The files that the preview says it could not read."""
    patterns = (one.listing.unread for m in everything.made if (one := m.found).listing)
    shared = (unread_file(result) for result in everything.others)
    return (*shared, *(each for each in patterns if each))


@cache
def _code() -> str:
    """Stands for the code of this package and the version of what it is built on."""
    parts = [code_stamp(), platform.python_version()]
    for name in ("jinja2", "markdown", "markupsafe", "nh3", "pillow", "resvg-py", "segno", "typst"):
        with suppress(PackageNotFoundError):
            parts.append(f"{name} {version(name)}")
    return key(*parts)


def _content(file: Path) -> bytes:
    try:
        return b"+" + file.read_bytes()
    except OSError as none:
        return str(none.errno).encode()


def _beside(folder: Path, under: str = "") -> Iterator[str]:
    """What lies in a pattern's folder, with size and time; not what editors put there for
    themselves."""
    with suppress(OSError):
        for entry in os.scandir(folder):
            name = entry.name
            if name.startswith(".") or (not under and name == PATTERN_FILE):
                continue
            if entry.is_dir():
                if under.count("/") < DEEPEST:  # links may lead in a circle
                    yield from _beside(Path(entry.path), f"{under}{name}/")
            elif under or name.endswith(".yaml"):
                with suppress(OSError):
                    state = entry.stat()
                    yield f"{under}{name} {state.st_size} {state.st_mtime_ns}"
