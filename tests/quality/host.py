"""A small host for the site, as a real one would be: a sub-path, types, compression, a policy."""

from __future__ import annotations

import gzip
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from urllib.parse import unquote, urlsplit

SUB_PATH = "shore"
TYPES = {
    ".css": "text/css; charset=utf-8",
    ".html": "text/html; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".webmanifest": "application/manifest+json",
    ".woff2": "font/woff2",
    ".xml": "application/xml; charset=utf-8",
}
"""As the usual hosts have them (RFC 9239 for script, W3C for the manifest, RFC 8081 for fonts)."""
PACKED = {".css", ".html", ".js", ".json", ".svg", ".webmanifest", ".xml"}


class _Host(SimpleHTTPRequestHandler):
    """Answers for the folder below the sub-path alone."""

    protocol_version = "HTTP/1.1"

    def __init__(
        self,
        *given: object,
        site: Path,
        headers: dict[str, str],
        answers: threading.Event,
        gone: threading.Event,
        **more: object,
    ) -> None:
        self.site, self.more, self.answers, self.gone = site, headers, answers, gone
        super().__init__(*given, **more)  # type: ignore[arg-type]

    def do_GET(self) -> None:
        self.answers.wait()
        if self.gone.is_set():
            self.close_connection = True  # one that was open before: it gets no answer either
            return
        path = unquote(urlsplit(self.path).path)
        below = path.removeprefix(f"/{SUB_PATH}/")
        file = self.site / (below + "index.html" if path.endswith("/") else below)
        there = path.startswith(f"/{SUB_PATH}/") and file.is_file()
        missing = self.site / "404.html"
        if not there and not missing.is_file():
            self.send_error(404)
            return
        self._send(200 if there else 404, file if there else missing)

    def _send(self, status: int, file: Path) -> None:
        body = file.read_bytes()
        self.send_response(status)
        self.send_header("Content-Type", TYPES.get(file.suffix, "application/octet-stream"))
        self.send_header("Cache-Control", "max-age=600")
        for name, value in self.more.items():
            self.send_header(name, value)
        if file.suffix in PACKED and "gzip" in self.headers.get("Accept-Encoding", ""):
            body = gzip.compress(body, 6, mtime=0)
            self.send_header("Content-Encoding", "gzip")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, format: str, *args: object) -> None: ...


class Host:
    """A host that can be stopped, and made to keep silent."""

    def __init__(self, site: Path, headers: dict[str, str] | None = None) -> None:
        self._answers, self._gone = threading.Event(), threading.Event()
        self._answers.set()
        handler = partial(
            _Host, site=site, headers=headers or {}, answers=self._answers, gone=self._gone
        )
        self._server: ThreadingHTTPServer | None = ThreadingHTTPServer(("127.0.0.1", 0), handler)
        self._server.daemon_threads = True
        self.address = f"http://127.0.0.1:{self._server.server_port}/{SUB_PATH}"
        threading.Thread(target=self._server.serve_forever, daemon=True).start()

    def __enter__(self) -> Host:
        return self

    def __exit__(self, *_: object) -> None:
        self.resume()
        self.stop()

    def stop(self) -> None:
        """Whoever asks from now on is refused."""
        self._gone.set()
        if self._server:
            self._server.shutdown()
            self._server.server_close()
            self._server = None

    def pause(self) -> None:
        """Whoever asks from now on waits."""
        self._answers.clear()

    def resume(self) -> None:
        self._answers.set()


@contextmanager
def hosted(site: Path, headers: dict[str, str] | None = None) -> Iterator[str]:
    """The address of the site's first folder, while the block runs."""
    with Host(site, headers) as host:
        yield host.address
