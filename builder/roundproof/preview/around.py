"""What stands around the patterns of a site: gallery, glossary, checks, scripts."""

from __future__ import annotations

from roundproof.pages.filling import Filler
from roundproof.pages.pattern_folder import Listing, Unread
from roundproof.pages.site import Site, whole_site


class Around:
    """The pages and files of one state of the patterns, each page filled when it is asked for."""

    def __init__(
        self, listings: tuple[Listing, ...], unread: tuple[Unread, ...], filler: Filler
    ) -> None:
        self.known = (listings, unread)
        self.site: Site = whole_site(listings, unread, filler.frame.look, filler.frame.themes)
        self.filler = filler
        self._pages = {page.address: page for page in self.site.pages}
        self._files = {file.address: file.data for file in self.site.files}

    def data(self, address: str) -> bytes | None:
        if address in self._pages and address not in self._files:
            self._files[address] = self.filler.page(self._pages[address])
        return self._files.get(address)

    @property
    def addresses(self) -> tuple[str, ...]:
        """Of all that is not written by hand, those of the patterns as well."""
        patterns = (f"{each.address}/index.html" for each in self.known[0])
        return (*dict.fromkeys([*self._pages, *self._files, *patterns]),)
