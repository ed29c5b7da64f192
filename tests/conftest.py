"""What several rooms' tests share: the demonstration site, built once, and a browser."""

import fcntl
import os
import shutil
import subprocess
import sys
import threading
from collections.abc import Iterator
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest
from hypothesis import settings
from playwright.sync_api import Browser, BrowserContext, Playwright, sync_playwright

# Generated cases are judged by what they give, never by the clock of a busy machine.
settings.register_profile("untimed", deadline=None)
settings.register_profile("alike", deadline=None, derandomize=True)
# `make test` looks at the same examples every time, so that a red run is about the change; whoever
# runs pytest by hand gets new ones.
settings.load_profile("alike" if os.environ.get("ROUNDPROOF_ALIKE") else "untimed")

ROOT = Path(__file__).parents[1]
BROWSERS = ("chromium", "chromium-browser", "google-chrome")


def roundproof(*words: str | Path, cwd: Path = ROOT) -> "subprocess.CompletedProcess[str]":
    """Run a command as a user does, and wait for its end."""
    command = [sys.executable, "-m", "roundproof", *map(str, words)]
    return subprocess.run(command, cwd=cwd, capture_output=True, text=True, encoding="utf-8")


@pytest.fixture(scope="session")
def built_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demonstration site as `roundproof build` makes it; once, whatever number of workers."""
    shared = tmp_path_factory.getbasetemp()
    if "PYTEST_XDIST_WORKER" in os.environ:
        shared = shared.parent
    site = shared / "demonstration"
    with (shared / "demonstration.building").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not site.exists():
            done = roundproof("build", "--into", site)
            assert done.returncode == 0, done.stdout + done.stderr
    return site


class Launch:
    """Starts real browsers, with more switches if need be."""

    QUIET = ("--no-sandbox", "--disable-gpu", "--disable-background-networking")

    def __init__(self, playwright: Playwright, path: str) -> None:
        self._chromium, self._path = playwright.chromium, path
        self.started: list[Browser] = []

    def __call__(self, *more: str) -> Browser:
        args = [*self.QUIET, *more]
        self.started.append(self._chromium.launch(executable_path=self._path, args=args))
        return self.started[-1]

    def kept(self, folder: str) -> BrowserContext:
        """One that keeps what it knows in a folder, and can be started there again."""
        return self._chromium.launch_persistent_context(
            folder, executable_path=self._path, args=[*self.QUIET]
        )


@pytest.fixture(scope="session")
def launch() -> Iterator[Launch]:
    """Where there is no browser the tests that need it fail."""
    found = next(filter(None, map(shutil.which, BROWSERS)), None)
    assert found, f"the pages are tested in a browser, and none of {BROWSERS} is here"
    with sync_playwright() as playwright:
        launch = Launch(playwright, found)
        yield launch
        for each in launch.started:
            each.close()


@pytest.fixture(scope="session")
def browser(launch: Launch) -> Browser:
    """A real browser as it comes."""
    return launch()


class _Silent(SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: object) -> None: ...


@pytest.fixture(scope="session")
def served_site(built_site: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of the demonstration site on a local host, below a sub-path."""
    root = tmp_path_factory.mktemp("host")
    (root / "shore").symlink_to(built_site, target_is_directory=True)
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(_Silent, directory=str(root)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}/shore"
    server.shutdown()
    server.server_close()
