"""`roundproof serve`: findings stand beside the rounds, and nothing stops it."""

import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Callable, Iterator
from pathlib import Path
from urllib.error import HTTPError, URLError

import pytest

from roundproof.cli.main import main
from sites import pebble, write_pattern, write_site


def free_port() -> int:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port: int = taken.getsockname()[1]
        return port


@pytest.fixture
def preview(tmp_path: Path) -> Iterator[tuple[Path, str]]:
    """A site with its preview running, and the preview's address."""
    site = write_site(
        tmp_path / "tideline",
        wrong=pebble("Wrong pebble", third=19),
        rough=pebble("Rough pebble", "draft"),
        broken="title: [Broken\n",
    )
    address = f"127.0.0.1:{free_port()}"
    command = [sys.executable, "-m", "roundproof", "serve", str(site), "--address", address]
    running = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
    yield site, f"http://{address}/shore"
    running.terminate()
    running.wait(10)


def opened(address: str) -> str:
    try:
        with urllib.request.urlopen(address, timeout=5) as answer:
            text: str = answer.read().decode()
            return text
    except (HTTPError, URLError, ConnectionError, TimeoutError):
        return ""


def awaited(address: str, holds: Callable[[str], bool], seconds: float = 60) -> str:
    """The page, once it is as expected; it is asked for a few times a second."""
    until = time.monotonic() + seconds
    while time.monotonic() < until:
        if holds(page := opened(address)):
            return page
        time.sleep(0.3)
    pytest.fail(f"{address} never came to be as expected: {opened(address)[:2000]}")


def test_findings_stand_beside_their_rounds_and_go_once_mended(preview: tuple[Path, str]) -> None:
    site, root = preview
    page = awaited(f"{root}/patterns/wrong/index.html", bool)
    start = page.index('id="body-r3"')
    row = page[start : page.index('id="body-r4')]
    assert "R3 makes 18 stitches, and 19 are stated." in row
    assert "../../checks/count-stated.html" in row

    front = opened(f"{root}/index.html")
    assert "Rough pebble" in front  # drafts are shown in the preview
    assert "patterns/broken/pattern.yaml" in front
    assert "noindex" in opened(f"{root}/patterns/rough/index.html")
    assert "is opened here and not closed" in opened(f"{root}/patterns/broken/index.html")

    write_pattern(site, "wrong", pebble("Mended pebble"))
    mended = awaited(f"{root}/patterns/wrong/index.html", lambda p: "Mended pebble" in p)
    assert "are stated" not in mended


@pytest.mark.parametrize("address", ["8000", "here:there", "127.0.0.1:99999", ":8000"])
def test_an_address_that_is_none_is_named(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], address: str
) -> None:
    site = write_site(tmp_path / "tideline", pebble=pebble())
    assert main(["serve", str(site), "--address", address]) == 2
    assert "is no address" in capsys.readouterr().err


def test_an_address_that_is_taken_is_named(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    site = write_site(tmp_path / "tideline", pebble=pebble())
    with socket.create_server(("127.0.0.1", 0)) as taken:
        address = f"127.0.0.1:{taken.getsockname()[1]}"
        assert main(["serve", str(site), "--address", address]) == 2
    assert "is taken by another program" in capsys.readouterr().err


def test_a_folder_that_is_no_site_is_named(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["serve", str(tmp_path)]) == 2
    assert "is no site" in capsys.readouterr().err
