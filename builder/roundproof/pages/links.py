"""Are all links of a built folder good? Every internal link and anchor is followed, on disk.

The checker runs in a process of its own: it starts threads and keeps state for its whole process.
It opens no connection: addresses of other hosts are left alone.
"""

from __future__ import annotations

import json
import subprocess
import sys
from dataclasses import asdict
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urlsplit

from roundproof.frozen import dataclass

NOT_FOUND = "404.html"
"""Stands in for any address, so its links count from the host's root and lead nowhere on disk."""


@dataclass(frozen=True, slots=True)
class BrokenLink:
    """`page` and `target` are addresses inside the site, `target` with its anchor."""

    page: str
    line: int
    target: str
    why: str

    def __str__(self) -> str:
        return f"{self.page}, line {self.line}: {self.target} {self.why}"


class LinksNotChecked(Exception):
    """The link checker itself came to grief; the message says how."""


def broken_links(site: Path) -> tuple[BrokenLink, ...]:
    """The broken links of the folder `site` in order of pages, each address once. Raises
    LinksNotChecked."""
    command = [sys.executable, "-m", __name__, str(site)]
    done = subprocess.run(
        command, capture_output=True, text=True, encoding="utf-8", stdin=subprocess.DEVNULL
    )
    if done.returncode != 0:
        raise LinksNotChecked(done.stderr.strip().rpartition("\n")[2] or "it stopped")
    return tuple(BrokenLink(**found) for found in json.loads(done.stdout))


def _fault(url: Any, root: str) -> str | None:
    """What is wrong with one address that the checker has looked at, if anything is."""
    if urlsplit(url.url).scheme != "file":
        return None
    if not unquote(url.url).startswith(root):
        return "leads out of the site"
    if not url.valid:
        return "is not there"
    if urlsplit(url.url).path.endswith("/"):
        return "is a folder: link to its index.html"
    return "names a place that the page does not have" if url.warnings else None


def _read_each_page_once() -> None:
    """The checker's own way is to read a page anew for each anchor that is looked for in it, which
    makes a page of a hundred rounds slow. Its places are kept here instead."""
    from linkcheck.htmlutil import linkparse
    from linkcheck.plugins.anchorcheck import AnchorCheck, UrlAnchorCheck

    places: dict[str, Any] = {}

    def check(_plugin: Any, url: Any) -> None:
        page = url.url.partition("#")[0]
        if page not in places:
            places[page] = UrlAnchorCheck()
            add = places[page].add_anchor
            linkparse.find_links(url.get_soup(), add, linkparse.AnchorTags)
        places[page].check_anchor(url)

    AnchorCheck.check = check


def _follow(site: Path) -> list[BrokenLink]:
    """Run the checker over every page of the folder."""
    from linkcheck.checker import get_url_from
    from linkcheck.configuration import Configuration
    from linkcheck.director import check_urls, get_aggregate

    _read_each_page_once()
    site = site.resolve()
    found: set[BrokenLink] = set()
    settings = Configuration()
    settings["status"] = False
    settings["threads"] = 0  # one after the other: the same page is named every time
    settings["verbose"] = True
    settings["recursionlevel"] = 1  # every page is handed over below: none has to be found
    settings["enabledplugins"] = ["AnchorCheck"]
    settings["logger"] = _collector(unquote(site.as_uri()) + "/", found)
    settings.sanitize()
    checker = get_aggregate(settings)
    for kind in ("*.html", "*.css"):
        for file in sorted(site.rglob(kind)):
            if file.name != NOT_FOUND:
                checker.urlqueue.put(get_url_from(file.as_uri(), 0, checker, extern=(0, 0)))
    check_urls(checker)
    return sorted(found, key=lambda link: (link.page, link.line, link.target))


def _collector(root: str, found: set[BrokenLink]) -> Any:
    """A log of the checker's that keeps what is broken below `root`."""
    from linkcheck.logger import _Logger

    def inside(address: str) -> str:
        return unquote(address).removeprefix(root)

    class Collector(_Logger):  # type: ignore[misc]
        def log_filter_url(self, url: Any, _do_print: bool) -> None:
            if why := _fault(url, root):
                page = inside(url.parent_url or url.url)
                found.add(BrokenLink(page, url.line or 1, inside(url.url), why))

        def log_internal_error(self) -> None:
            raise SystemExit("the link checker had a fault of its own")

        def log_url(self, url: Any) -> None: ...
        def start_output(self) -> None: ...
        def end_output(self, **_how: Any) -> None: ...
        def comment(self, text: str, **_how: Any) -> None: ...

    return Collector()


def main() -> None:
    """Print the broken links of the folder named on the command line, as JSON."""
    print(json.dumps([asdict(link) for link in _follow(Path(sys.argv[1]))]))


if __name__ == "__main__":
    main()
