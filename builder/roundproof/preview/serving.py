"""The preview over http: pages as they are now, and word to those that are open of any change."""

from __future__ import annotations

import sys
import threading
import time
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from mimetypes import MimeTypes
from pathlib import Path
from urllib.parse import parse_qs, unquote, urlsplit

from roundproof.preview.site import OWN, LiveSite
from roundproof.preview.watching import Watcher
from roundproof.processes import WorkerLost
from roundproof.words import say

CHANGES = f"{OWN}changes"
"""Where a page waits for word of its change."""
BEAT = 10.0
"""Seconds after which a waiting page is told that nothing is new: so those that went are known."""
LOCAL = frozenset({"127.0.0.1", "localhost", "::1"})

_TYPES = MimeTypes(filenames=())  # not those of this system, which may be anything
for _kind, _ending in (
    ("text/javascript", ".js"),
    ("font/woff2", ".woff2"),
    ("image/avif", ".avif"),
    ("image/webp", ".webp"),
    ("application/manifest+json", ".webmanifest"),
):
    _TYPES.add_type(_kind, _ending)


class Live:
    """A site that is followed, and the pages of it that are open."""

    def __init__(self, site: LiveSite) -> None:
        self.site = site
        self._news = threading.Condition()
        self._number = 0
        self._opened: Counter[str] = Counter()
        self._ready = threading.Event()
        self.over = False

    def look(self) -> bool:
        """Takes in what changed, or prepares a page where nothing did; whether there may be more to
        prepare. Never raises: a preview goes on whatever happens."""
        try:
            changed = False
            for _ in self.site.look(self._opened.keys()):
                self._tell()
                changed = True
            self._ready.set()
            return changed or self.site.patterns.prepare()
        except WorkerLost as lost:
            print(lost, file=sys.stderr)
        except Exception as fault:
            what = f"{type(fault).__name__}: {fault}"
            print(say("commands.own_fault", what=what), file=sys.stderr)
        self._ready.set()
        return False

    def _tell(self) -> None:
        with self._news:
            self._number += 1
            self._news.notify_all()

    def end(self) -> None:
        self.over = True
        self._ready.set()
        self._tell()

    def until_ready(self) -> None:
        """Waits for the first look, which is long where nothing is kept yet."""
        self._ready.wait()

    def changed(self, page: str, state: str) -> bool:
        """Waits for another state of a page, for as long as a beat."""
        until = time.monotonic() + BEAT
        while not self.over:
            number = self._number
            if self.site.shown(page).state != state:
                return True
            with self._news:
                while self._number == number:
                    if (left := until - time.monotonic()) <= 0:
                        return False
                    self._news.wait(left)
        return False

    @contextmanager
    def opened(self, page: str) -> Iterator[None]:
        self._opened[page] += 1
        try:
            yield
        finally:
            self._opened[page] -= 1
            if not self._opened[page]:
                del self._opened[page]


class Server(ThreadingHTTPServer):
    daemon_threads = True
    live: Live

    def handle_error(self, request: object, client_address: object) -> None:
        """A browser that went away is none."""
        if not isinstance(sys.exc_info()[1], ConnectionError):
            what = f"{sys.exc_info()[0]}: {sys.exc_info()[1]}"
            print(say("commands.own_fault", what=what), file=sys.stderr)


class Handler(BaseHTTPRequestHandler):
    protocol_version = "HTTP/1.1"
    server: Server

    def do_GET(self) -> None:
        """Files of the site, and word of changes."""
        if not self._is_from_here():
            return self._send(HTTPStatus.FORBIDDEN, "text/plain", b"")
        asked, root = urlsplit(self.path), self.server.live.site.root
        path = unquote(asked.path)
        if not path.startswith(f"{root}/"):
            return self._lead_to(f"{root}/")
        address = path.removeprefix(f"{root}/")
        address += "index.html" if address.endswith("/") or not address else ""
        self.server.live.until_ready()
        if address == CHANGES:
            return self._follow(parse_qs(asked.query))
        self._file(address)

    do_HEAD = do_GET

    def _is_from_here(self) -> bool:
        """A page elsewhere may have its own name lead here, to read what is not public: only names
        that are this machine's own are answered, unless the preview was opened to others."""
        own = str(self.server.server_address[0])
        asked = urlsplit(f"//{self.headers.get('Host', '')}").hostname
        return own not in LOCAL or asked in LOCAL

    def _file(self, address: str) -> None:
        site = self.server.live.site
        found = site.file_at(address)
        page = address.endswith(".html")
        if found is None:
            if not page:
                return self._send(HTTPStatus.NOT_FOUND, "text/plain", b"")
            return self._send(HTTPStatus.NOT_FOUND, "text/html", site.shown(address).data)
        mark = f'"{found.state}"'
        if self.headers.get("If-None-Match") == mark:
            return self._send(HTTPStatus.NOT_MODIFIED, "", b"", mark)
        kind = _TYPES.guess_type(address)[0] or "application/octet-stream"
        self._send(HTTPStatus.OK, kind, found.data, mark)

    def _follow(self, asked: dict[str, list[str]]) -> None:
        """Server-sent events (WHATWG HTML, 9.2): one, once the page has another state."""
        page, state = (asked.get(name, [""])[0] for name in ("page", "state"))
        self._head(HTTPStatus.OK, "text/event-stream", "")
        self.send_header("Connection", "close")
        self.end_headers()
        live = self.server.live
        with suppress(ConnectionError), live.opened(page):
            self._say(b": following\n\n")
            while not live.over:
                if live.changed(page, state):
                    return self._say(b"event: changed\ndata:\n\n")
                self._say(b":\n\n")

    def _say(self, line: bytes) -> None:
        self.wfile.write(line)
        self.wfile.flush()

    def _lead_to(self, path: str) -> None:
        self.send_response(HTTPStatus.FOUND)
        self.send_header("Location", path)
        self.send_header("Content-Length", "0")
        self.end_headers()

    def _send(self, status: HTTPStatus, kind: str, data: bytes, mark: str = "") -> None:
        self._head(status, kind, mark)
        self.send_header("Content-Length", str(len(data)))
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(data)

    def _head(self, status: HTTPStatus, kind: str, mark: str) -> None:
        self.send_response(status)
        if kind:
            text = kind.startswith("text/") or kind.endswith(("json", "xml"))
            self.send_header("Content-Type", f"{kind}; charset=utf-8" if text else kind)
        if mark:
            self.send_header("ETag", mark)
        self.send_header("Cache-Control", "no-cache")
        self.send_header("X-Content-Type-Options", "nosniff")

    def log_message(self, format: str, *args: object) -> None:
        """Quiet: what is of interest is on the pages."""


def serve(site: LiveSite, file: Path, host: str, port: int) -> None:
    """The preview of a site, until it is interrupted."""
    live = Live(site)
    watcher = Watcher(live.look, lambda: site.watched, file.parent)
    with Server((host, port), Handler) as server:
        server.live = live
        watcher.begin()
        try:
            server.serve_forever(poll_interval=0.2)
        except KeyboardInterrupt:
            pass
        finally:
            live.end()
            watcher.end()
