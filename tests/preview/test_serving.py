"""The preview as a browser and an editor meet it: over http, with files saved in every way."""

from __future__ import annotations

import http.client
import os
import socket
import threading
import time
import urllib.request
from collections.abc import Callable, Iterator
from pathlib import Path
from urllib.error import HTTPError

import pytest
from playwright.sync_api import Browser, expect

from roundproof.preview import serving, watching
from roundproof.preview.serving import Handler, Live, Server
from roundproof.preview.site import LiveSite
from roundproof.preview.watching import Watcher
from sites import pebble, write_pattern, write_site


class Preview:
    """A site with its preview running in this process."""

    def __init__(self, site: Path) -> None:
        self.site = site
        self.live = Live(LiveSite(site / "mkdocs.yml"))
        self.server = Server(("127.0.0.1", 0), Handler)
        self.server.live = self.live
        self.watcher = Watcher(self.live.look, lambda: self.live.site.watched, site)
        self.host = f"127.0.0.1:{self.server.server_port}"
        self.root = f"http://{self.host}/shore"
        threading.Thread(target=self.server.serve_forever, args=(0.05,), daemon=True).start()
        self.watcher.begin()
        self.live.until_ready()

    def end(self) -> None:
        self.live.end()
        self.watcher.end()
        self.server.shutdown()
        self.server.server_close()

    def opened(self, address: str) -> str:
        with urllib.request.urlopen(f"{self.root}/{address}", timeout=60) as answer:
            text: str = answer.read().decode()
            return text

    def awaited(self, address: str, holds: Callable[[str], bool]) -> str:
        until = time.monotonic() + 60
        while time.monotonic() < until:
            if holds(page := self.opened(address)):
                return page
            time.sleep(0.02)
        pytest.fail(f"{address} never came to be as expected")

    def asked(self, path: str, **headers: str) -> http.client.HTTPResponse:
        connection = http.client.HTTPConnection(self.host, timeout=60)
        connection.request("GET", path, headers=headers)
        return connection.getresponse()


@pytest.fixture
def preview(tmp_path: Path) -> Iterator[Preview]:
    running = Preview(
        write_site(tmp_path / "tideline", pebble=pebble(), other=pebble("Other pebble"))
    )
    yield running
    running.end()


PAGE = "patterns/pebble/index.html"


def eventually(holds: Callable[[], bool]) -> None:
    until = time.monotonic() + 20
    while not holds():
        assert time.monotonic() < until
        time.sleep(0.05)


# ---- ways to save ----
def in_place(file: Path, text: str) -> None:
    file.write_text(text, "utf-8")


def emptied_first(file: Path, text: str) -> None:
    file.write_text("", "utf-8")
    time.sleep(0.01)
    file.write_text(text, "utf-8")


def by_rename(file: Path, text: str) -> None:
    fresh = file.with_name(".pattern.yaml.tmp")
    fresh.write_text(text, "utf-8")
    os.replace(fresh, file)


def with_a_copy(file: Path, text: str) -> None:
    file.rename(file.with_name("pattern.yaml~"))
    file.write_text(text, "utf-8")


def old_time(file: Path, text: str) -> None:
    by_rename(file, text)
    os.utime(file, (1, 1))


@pytest.mark.parametrize("save", [in_place, emptied_first, by_rename, with_a_copy, old_time])
def test_however_it_is_saved(preview: Preview, save: Callable[[Path, str], None]) -> None:
    assert "Pebble" in preview.opened(PAGE)
    save(preview.site / "patterns/pebble/pattern.yaml", pebble("Saved pebble"))
    preview.awaited(PAGE, lambda page: "Saved pebble" in page)


def test_many_saves_in_a_burst_end_with_the_last(preview: Preview) -> None:
    for number in range(60):
        write_pattern(preview.site, "pebble", pebble(f"Pebble {number}."))
        write_pattern(preview.site, "other", pebble(f"Other {number}."))
    preview.awaited(PAGE, lambda page: "Pebble 59." in page)
    preview.awaited("patterns/other/index.html", lambda page: "Other 59." in page)
    preview.awaited("index.html", lambda page: "Other 59." in page and "Pebble 59." in page)


def test_a_folder_that_is_new_is_followed(preview: Preview) -> None:
    write_pattern(preview.site, "new", pebble("New pebble"))
    preview.awaited("overview.html", lambda page: "New pebble" in page)
    write_pattern(preview.site, "new", pebble("Newer pebble"))
    preview.awaited("patterns/new/index.html", lambda page: "Newer pebble" in page)


def test_a_look_is_taken_though_no_word_comes(
    preview: Preview, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As on a drive of another machine."""
    monkeypatch.setattr(Watcher, "dispatch", lambda *_: None)
    write_pattern(preview.site, "pebble", pebble("Far pebble"))
    preview.awaited(PAGE, lambda page: "Far pebble" in page)


def test_looking_makes_no_word(preview: Preview, monkeypatch: pytest.MonkeyPatch) -> None:
    """The preview reads what it watches: that must not wake it again."""
    preview.opened("index.html")
    time.sleep(3 * watching.LATEST)
    preview.watcher._word.clear()
    preview.live.look()
    preview.opened(PAGE)
    time.sleep(0.2)
    assert not preview.watcher._word.is_set()


def test_a_fault_of_our_own_does_not_end_it(
    preview: Preview, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    preview.opened(PAGE)
    with monkeypatch.context() as wrong:
        wrong.setattr(LiveSite, "look", lambda *_: {}["look"])
        preview.live.look()
    assert "KeyError: 'look'" in capsys.readouterr().err
    write_pattern(preview.site, "pebble", pebble("Later pebble"))
    preview.awaited(PAGE, lambda page: "Later pebble" in page)


# ---- over http ----
def test_addresses_lead_where_they_should(preview: Preview) -> None:
    answer = preview.asked("/")
    assert (answer.status, answer.headers["Location"]) == (302, "/shore/")
    assert preview.asked("/shore/").status == 200
    assert preview.asked("/shore/patterns/").status == 200
    assert preview.asked("/shore/index.html?x=1").status == 200
    assert preview.asked("/shore/nothing.html").status == 404
    assert preview.asked("/shore/nothing.png").status == 404


@pytest.mark.parametrize(
    "path",
    [
        "/shore/../mkdocs.yml",
        "/shore/..%2fmkdocs.yml",
        "/shore//etc/passwd",
        "/shore/preview/../base.html",
        "/shore/patterns/pebble/pattern.yaml",
        "/shore/.roundproof/.gitignore",
        "/shore/%00",
    ],
)
def test_nothing_but_the_site_is_served(preview: Preview, path: str) -> None:
    answer = preview.asked(path)
    assert answer.status == 404
    assert b"site_name" not in answer.read()


def test_another_name_for_this_machine_is_not_answered(preview: Preview) -> None:
    for host, status in (("localhost:1", 200), ("127.0.0.1", 200), ("shore.example", 403)):
        assert preview.asked(f"/shore/{PAGE}", Host=host).status == status


def test_types_and_marks(preview: Preview) -> None:
    kinds = {
        PAGE: "text/html; charset=utf-8",
        "css/page.css": "text/css; charset=utf-8",
        "js/site.js": "text/javascript; charset=utf-8",
        "icon.svg": "image/svg+xml; charset=utf-8",
        "fonts/andika-latin-400-normal.woff2": "font/woff2",
        "preview/preview.js": "text/javascript; charset=utf-8",
    }
    for address, kind in kinds.items():
        answer = preview.asked(f"/shore/{address}")
        assert (answer.status, answer.headers["Content-Type"]) == (200, kind)
        assert answer.headers["X-Content-Type-Options"] == "nosniff"
        again = preview.asked(f"/shore/{address}", **{"If-None-Match": answer.headers["ETag"]})
        assert again.status == 304


def test_a_page_that_waits_is_told_of_its_own_change_alone(preview: Preview) -> None:
    state = preview.live.site.shown(PAGE).state
    preview.opened(PAGE)
    told = preview.asked(f"/shore/preview/changes?page={PAGE}&state={state}")
    assert told.headers["Content-Type"] == "text/event-stream; charset=utf-8"
    assert told.readline() == b": following\n"
    write_pattern(preview.site, "other", pebble("Another pebble"))
    preview.awaited("patterns/other/index.html", lambda page: "Another pebble" in page)
    write_pattern(preview.site, "pebble", pebble("Pebble, again"))
    lines = told.read()
    assert lines.count(b"event: changed\ndata:\n\n") == 1
    assert "Pebble, again" in preview.opened(PAGE)


def test_a_page_that_is_late_is_told_at_once(preview: Preview) -> None:
    told = preview.asked(f"/shore/preview/changes?page={PAGE}&state=of-yesterday")
    assert b"event: changed" in told.read()


def test_pages_that_went_are_forgotten(preview: Preview, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(serving, "BEAT", 0.05)
    state = preview.live.site.shown(PAGE).state
    with socket.create_connection(("127.0.0.1", preview.server.server_port)) as gone:
        path = f"/shore/preview/changes?page={PAGE}&state={state}"
        gone.sendall(f"GET {path} HTTP/1.1\r\nHost: localhost\r\n\r\n".encode())
        until = time.monotonic() + 20
        while PAGE not in preview.live._opened and time.monotonic() < until:
            time.sleep(0.01)
        assert PAGE in preview.live._opened
    while PAGE in preview.live._opened and time.monotonic() < until:
        time.sleep(0.01)
    assert PAGE not in preview.live._opened


def test_a_missing_page_is_html_that_follows(preview: Preview) -> None:
    with pytest.raises(HTTPError) as missing:
        preview.opened("patterns/later/index.html")
    assert "preview.js" in missing.value.read().decode()


# ---- in a browser ----
@pytest.mark.browser
def test_an_open_page_shows_what_was_saved_where_it_was_looked_at(
    preview: Preview, browser: Browser
) -> None:
    with browser.new_context(viewport={"width": 500, "height": 500}) as context:
        page = context.new_page()
        wrong: list[str] = []
        page.on("console", lambda message: wrong.append(message.text))
        page.on("pageerror", lambda error: wrong.append(str(error)))
        page.goto(f"{preview.root}/{PAGE}")
        page.wait_for_load_state("load")
        page.evaluate("document.fonts.ready")
        page.evaluate("document.getElementById('body-r4-r6').scrollIntoView({behavior: 'instant'})")
        there = "document.getElementById('body-r4-r6').getBoundingClientRect().top"
        before = page.evaluate(there)
        more = "summary: A pebble, grey and round. " + "It lies on the sand and is grey. " * 40
        text = pebble("Another title").replace("summary: A pebble, grey and round.", more)
        write_pattern(preview.site, "pebble", text)
        expect(page.locator("h1")).to_have_text("Another title", timeout=60_000)
        page.wait_for_load_state("load")
        eventually(lambda: abs(page.evaluate(there) - before) < 3)

        write_pattern(preview.site, "pebble", "title: [Pebble\n")
        banner = page.locator(".banner")
        expect(banner).to_contain_text("cannot be used as it is now", timeout=60_000)
        expect(page.locator("h1")).to_have_text("Another title")
        write_pattern(preview.site, "pebble", pebble("Mended"))
        expect(page.locator("h1")).to_have_text("Mended", timeout=60_000)
        expect(banner).to_have_count(0)
        assert wrong == []


@pytest.mark.browser
def test_a_page_says_when_the_preview_has_ended(preview: Preview, browser: Browser) -> None:
    with browser.new_context() as context:
        page = context.new_page()
        with page.expect_request("**/preview/changes*"):
            page.goto(f"{preview.root}/overview.html")
        preview.end()
        expect(page.get_by_role("status")).to_contain_text("has ended", timeout=60_000)
