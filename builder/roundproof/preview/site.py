"""A site as it is while it is written: any file of it by address, made when it is asked for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from html import escape
from importlib.resources import files as resources
from pathlib import Path
from typing import TYPE_CHECKING

from roundproof.frozen import dataclass, replace
from roundproof.making import Making
from roundproof.mkdocs_plugin import HostError, Settings, settings
from roundproof.pages.filling import Link
from roundproof.pages.findings_shown import ShownFinding, coded
from roundproof.pages.links import NOT_FOUND
from roundproof.pages.overview import ADDRESS as OVERVIEW
from roundproof.pages.overview import overview
from roundproof.pages.pattern_folder import SitePage
from roundproof.preview.around import Around
from roundproof.preview.hand_written import HandWritten
from roundproof.preview.patterns import Broken, Patterns
from roundproof.preview.signs import Signs, signs
from roundproof.processes import ToMend
from roundproof.store import key

if TYPE_CHECKING:
    from collections.abc import Set as AbstractSet

OWN = "preview/"
"""Addresses of what the preview itself needs."""
_MAIN, _HEAD = b'<main id="content">', b"</head>"


@dataclass(frozen=True, slots=True)
class Shown:
    """A file as it is served; `state` changes with whatever is seen of it."""

    data: bytes
    state: str


class LiveSite:
    """Follows the files of a site. One thread looks at the disk; any may ask for pages."""

    def __init__(self, file: Path) -> None:
        """Raises HostError for settings that cannot be used."""
        self.file = file
        self.host = _previewed(settings(file, serving=True))
        self.signs = self._signs()
        self.patterns = Patterns(self._making(), self.host.patterns)
        self.hand_written = HandWritten(file)
        self.around: Around | None = None
        self.trouble = ""
        """Why the settings cannot be used as they are now."""
        self._last: dict[str, bytes] = {}
        """Pages as they were shown last, without what the preview adds."""

    def _making(self) -> Making:
        return Making.of(self.host.frame, self.host.store)

    def _signs(self) -> Signs:
        return signs(self.file, (self.host.docs, *map(Path, self.host.frame.themes)))

    @property
    def root(self) -> str:
        """Where the site begins on its host, without a slash at its end."""
        return self.host.frame.root

    @property
    def watched(self) -> tuple[Path, ...]:
        """The folders in which something may change."""
        return (self.host.patterns, self.host.docs, *map(Path, self.host.frame.themes))

    def look(self, opened: AbstractSet[str] = frozenset()) -> Iterator[None]:
        """Takes in what changed on the disk, and yields after each part of it. Patterns of which a
        page is `opened` come first."""
        if (now := self._signs()) != self.signs:
            self.signs = now
            self._take_settings()
            yield
        yield from self.patterns.look({_folder(page) for page in opened})
        self.hand_written.prepare(self._around)

    def _take_settings(self) -> None:
        self.trouble = ""
        try:
            self.host = _previewed(settings(self.file, serving=True))
        except HostError as stop:
            self.trouble = str(stop)
        if self.host.patterns != self.patterns.folder:
            self.patterns = Patterns(self._making(), self.host.patterns)
        elif (making := self._making()) != self.patterns.making:
            self.patterns.in_another_frame(making)
        self.hand_written.begin_again()
        self.around = None

    # ---- what is shown ----
    def shown(self, address: str) -> Shown:
        """What stands at an address of the site; where nothing does, the page that says so, until
        something comes to be there."""
        found = self.file_at(address)
        if found is None:
            around = self._around()
            return self._page(address, self.hand_written.data(NOT_FOUND, around) or _NOTHING)
        return found

    def file_at(self, address: str) -> Shown | None:
        """The file at an address of the site; None if there is none."""
        path = self.patterns.at(_folder(address))
        files: Mapping[str, bytes] = {}
        try:
            files = self.patterns.files(path) if path else {}
            data, trouble = files.get(address) if path else self._data(address), ""
        except ToMend as stop:
            data, trouble = self._last.get(address, _NOTHING), str(stop)
        if data is None:
            return None
        if not address.endswith(".html"):
            return Shown(data, key(data))
        self._last[address] = data
        beside = key(*(data for name, data in files.items() if not name.endswith(".html")))
        return self._page(address, data, trouble, beside)

    def _data(self, address: str) -> bytes | None:
        if address.startswith(OWN):
            return _own(address.removeprefix(OWN))
        if address == OVERVIEW:
            return self._overview()
        around = self._around()
        found = around.data(address)
        return found if found is not None else self.hand_written.data(address, around)

    def _around(self) -> Around:
        """What stands around the patterns as they are now."""
        known = (self.patterns.listings, self.patterns.unread)
        if self.around is None or self.around.known != known:
            self.around = Around(*known, self.patterns.maker.filler)
        return self.around

    def _overview(self) -> bytes:
        pairs = ((each.found.result, each.listing) for each in self.patterns.all.values())
        self.hand_written.data("index.html", self._around())  # what is to be said of it
        made = overview(pairs, self.patterns.unread, self.hand_written.warned)
        page = SitePage(OVERVIEW, "preview/overview.html", {"overview": made}, listed=False)
        return self.patterns.maker.filler.page(page)

    def _page(self, address: str, data: bytes, trouble: str = "", beside: str = "") -> Shown:
        """A page with the script that follows its changes, and what is broken above it. `beside`
        stands for the files that it shows from its own folder."""
        banners = b"".join(self._banners(address, trouble))
        state = key(data, banners, self.signs.assets, beside)
        root = escape(self.root)
        head = (
            f'<link rel="stylesheet" href="{root}/{OWN}preview.css">\n'
            f'<script src="{root}/{OWN}preview.js" defer data-root="{root}"'
            f' data-page="{escape(address)}" data-state="{state}"></script>\n</head>'
        )
        whole = data.replace(_HEAD, head.encode(), 1).replace(_MAIN, _MAIN + banners, 1)
        return Shown(whole, state)

    def _banners(self, address: str, trouble: str) -> Iterator[bytes]:
        path = self.patterns.at(_folder(address))
        broken = list(self.patterns.broken(path)) if path else []
        for why in dict.fromkeys(filter(None, (self.trouble, self.hand_written.trouble, trouble))):
            said = ShownFinding("", "error", coded(why), coded(""), None, None, 0, "", "")
            broken.append(Broken("The site", (said,), True))
        for each in broken:
            values = {"file": each.file, "findings": each.findings, "kept": each.kept}
            page = SitePage(address, "preview/banner.html", values)
            yield self.patterns.maker.filler.page(page)


_NOTHING = b'<!doctype html><head></head><main id="content"><p>There is no page here.</p></main>'


def _previewed(host: Settings) -> Settings:
    """The same with a way to the overview on every page."""
    frame, way = host.frame, Link("Overview", OVERVIEW)
    return replace(host, frame=replace(frame, nav=(*frame.nav, way), foot=(*frame.foot, way)))


def _folder(address: str) -> str:
    """The folder of the pattern whose file an address is: its first two parts."""
    return "/".join(address.split("/")[:2])


def _own(name: str) -> bytes | None:
    file = resources("roundproof.theme") / "preview" / name
    return file.read_bytes() if name in ("preview.css", "preview.js") else None
