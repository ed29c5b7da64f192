"""The Nu HTML checker (the W3C's validator, MIT) has no error and no warning on any file of a site.

Its CSS part does not know everything that W3C has published and browsers have had for years; what
it does not know is listed here with where it is defined, and no more than that is passed over.
"""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser

from quality.kinds import kinds

JAR = Path(__file__).parent / "node_modules/vnu-jar/build/dist/vnu.jar"
KINDS = ("*.html", "*.css", "*.svg")

UNKNOWN = {
    # CSS Conditional Rules Module Level 5, 5: container queries.
    "CSS: Unrecognized at-rule “@container”": "container-type: inline-size",
    "CSS: “container”: Property “container” doesn't exist.": "container: page / inline-size",
    # Scalable Vector Graphics 2, 8.13 and 13.4: both are presentation attributes and properties.
    "CSS: “vector-effect”: Property “vector-effect” doesn't exist.": (
        "vector-effect: non-scaling-stroke"
    ),
    "CSS: “paint-order”: Property “paint-order” doesn't exist.": "paint-order: stroke",
}
"""What the checker says of CSS that is right, and a declaration by which a browser shows that it
knows it."""
FROM_DISK = "Resource violates Content Security Policy (meta tag): "
"""The checker reads files, for which it takes no address as 'self'. From a host every page is
opened under the same policy: see test_policy.py."""


def nu(*files: Path) -> list[dict[str, Any]]:
    java = shutil.which("java")
    assert java and JAR.is_file(), "the Nu HTML checker is not here: `make test` installs it"
    command = [java, "-jar", str(JAR), "--format", "json", "--no-langdetect"]
    command += ["--also-check-css", "--also-check-svg", "--exit-zero-always", "--stdout"]
    done = subprocess.run(
        [*command, *map(str, files)], capture_output=True, text=True, encoding="utf-8"
    )
    assert done.returncode == 0, done.stderr
    told: list[dict[str, Any]] = json.loads(done.stdout)["messages"]
    return told


def said(messages: list[dict[str, Any]], site: Path) -> list[str]:
    """Each message with its file and line, less what is known to be no fault."""
    return [
        f"{m.get('url', '').removeprefix(f'file:{site}/')}:{m.get('lastLine')}: {m['message']}"
        for m in messages
        if m["message"] not in UNKNOWN and not m["message"].startswith(FROM_DISK)
    ]


def test_every_file_of_the_site_is_valid(every_kind: Path) -> None:
    site = every_kind / "site"
    files = sorted(file for kind in KINDS for file in site.rglob(kind))
    assert len(files) > 100
    messages = nu(*files)
    assert said(messages, site) == []
    # The list is as long as it has to be: what the checker has learnt goes from it.
    assert {m["message"] for m in messages} & UNKNOWN.keys() == UNKNOWN.keys()


def test_every_page_of_the_preview_is_valid(preview: Path) -> None:
    site = preview / "site"
    files = [site / address for address in kinds(preview)]
    assert said(nu(*files, site / "preview/preview.css"), site) == []


@pytest.mark.browser
def test_the_browser_knows_what_the_checker_does_not(browser: Browser) -> None:
    page = browser.new_page()
    for declaration in UNKNOWN.values():
        assert page.evaluate("CSS.supports", declaration), declaration
    page.close()


def test_the_checker_is_awake(tmp_path: Path) -> None:
    (tmp_path / "a.html").write_text(
        '<!doctype html><html lang="en"><title>A</title><p id=a><p id=a><img src=x>', "utf-8"
    )
    (tmp_path / "a.css").write_text("p { colour: red }", "utf-8")
    (tmp_path / "a.svg").write_text(
        '<svg xmlns="http://www.w3.org/2000/svg"><rect widht="1"/></svg>', "utf-8"
    )
    found = " ".join(said(nu(*sorted(tmp_path.iterdir())), tmp_path))
    for words in ("Duplicate ID", "alt", "colour", "widht"):
        assert words in found, words
