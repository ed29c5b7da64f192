"""The site without a network, in a real browser: after one visit, after a new build, and installed.

W3C, Service Workers and Web Application Manifest; what Chromium asks before it offers to install a
site it tells itself (`Page.getInstallabilityErrors`)."""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from PIL import Image, ImageChops
from playwright.sync_api import Browser, BrowserContext, Page

from conftest import Launch
from quality.host import Host
from roundproof.pages.offline import MOST_PATTERNS, WORKER, first, worker
from sites import built_quickly, pebble, write_pattern, write_site

pytestmark = pytest.mark.browser

READY = """async () => {
  const registration = await navigator.serviceWorker.ready;
  while (registration.installing || registration.waiting) await new Promise(r => setTimeout(r, 50));
  while (!navigator.serviceWorker.controller) await new Promise(r => setTimeout(r, 50));
  return (await caches.keys()).length;
}"""

ALONE = """async (key) => {
  for (let left = 40; left; left--) {
    const all = await caches.keys();
    const { active, installing, waiting } = await navigator.serviceWorker.ready;
    const settled = active.state === "activated" && !installing && !waiting;
    if (settled && all.length === 1 && all[0].endsWith(key)) return "";
    await new Promise((then) => setTimeout(then, 100));
  }
  const { active, installing, waiting } = await navigator.serviceWorker.ready;
  const states = [active, installing, waiting].map((worker) => worker && worker.state);
  return `there is ${await caches.keys()} (${states})`;
}"""
VISITS = 10
"""As many may pass until a build is taken in: the host was slow, or half of it was not there."""


@pytest.fixture
def site(tmp_path: Path) -> Path:
    """A small site, built once."""
    site = write_site(tmp_path / "tideline", pebble=pebble(), stone=pebble("Stone"))
    built_quickly(site)
    return site


@pytest.fixture
def host(site: Path) -> Iterator[Host]:
    with Host(site / "site") as host:
        yield host


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    with browser.new_context() as context:
        yield context


def visit_once(context: BrowserContext, host: Host) -> Page:
    page = context.new_page()
    page.goto(f"{host.address}/index.html")
    assert page.evaluate(READY) == 1
    return page


def wait_for_the_new(page: Page, site: Path) -> None:
    """Until the build that the host has is all that is kept."""
    key = re.findall(r'"key":"(\w+)"', (site / "site" / WORKER).read_text("utf-8"))[0]
    for _ in range(VISITS):
        if not (found := page.evaluate(ALONE, key)):
            break
        page.reload()
    else:
        pytest.fail(f"{key} is not taken in: {found}")
    page.evaluate(READY)


def rebuilt(site: Path) -> None:
    """A new build in the place of the last, as a host gets it."""
    shutil.rmtree(site / "site")
    built_quickly(site)


def test_after_one_visit_the_site_is_there_without_its_host(
    context: BrowserContext, host: Host
) -> None:
    page = visit_once(context, host)
    host.stop()
    for address, title in (
        ("patterns/pebble/index.html", "Pebble"),
        ("glossary.html", "Glossary"),
        ("search.html", "Search"),
        ("how-to-read.html", "How to read a pattern"),
        ("", "Tideline"),
    ):
        page.goto(f"{host.address}/{address}")
        assert page.locator("h1").inner_text() == title
        assert page.evaluate("document.fonts.check('17px Andika')")
        assert "Andika" in page.evaluate("getComputedStyle(document.body).fontFamily")


def test_a_tick_is_kept_with_the_network_off(launch: Launch, host: Host, tmp_path: Path) -> None:
    """Tick, close the browser, open it again with the network off: still ticked."""
    folder = str(tmp_path / "profile")
    box = "#body-r1-done"
    with launch.kept(folder) as context:
        page = visit_once(context, host)
        context.set_offline(True)
        page.goto(f"{host.address}/patterns/pebble/index.html")
        page.check(box)
        assert page.is_checked(box)
    host.stop()
    with launch.kept(folder) as context:
        context.set_offline(True)
        page = context.new_page()
        page.goto(f"{host.address}/patterns/pebble/index.html")
        assert page.is_checked(box)
        assert page.evaluate("document.fonts.ready.then(() => true)")


def test_a_new_build_is_shown_at_the_next_visit(
    context: BrowserContext, host: Host, site: Path
) -> None:
    page = visit_once(context, host)
    page.goto(f"{host.address}/patterns/pebble/index.html")
    write_pattern(site, "pebble", pebble("Pebble, better"))
    rebuilt(site)
    page.goto(f"{host.address}/patterns/pebble/index.html")
    assert page.locator("h1").inner_text() == "Pebble, better"
    wait_for_the_new(page, site)
    host.stop()
    page.goto(f"{host.address}/patterns/pebble/index.html")
    assert page.locator("h1").inner_text() == "Pebble, better"


def test_pages_and_styles_of_two_builds_are_never_mixed(
    context: BrowserContext, host: Host, site: Path
) -> None:
    """Each build says its number in every page and in the style that all pages have."""

    def build(number: int) -> None:
        rebuilt(site)
        for file in (site / "site").rglob("*.html"):
            text = file.read_text("utf-8").replace("<html", f'<html data-build="{number}"', 1)
            file.write_text(text, "utf-8")
        for sheet in (site / "site/css").iterdir():
            text = sheet.read_text("utf-8") + f":root {{ --build: {number} }}\n"
            sheet.write_text(text, "utf-8")
        folders = {f"patterns/{path.name}" for path in (site / "site/patterns").iterdir()}
        (site / "site" / WORKER).write_bytes(worker(site / "site", folders, ()))

    build(1)
    page = visit_once(context, host)
    for number in (2, 3):
        build(number)
        for address in ("index.html", "glossary.html", "patterns/stone/index.html") * 2:
            page.goto(f"{host.address}/{address}")
            seen = page.evaluate(
                "[document.documentElement.dataset.build,"
                " getComputedStyle(document.documentElement).getPropertyValue('--build')]"
            )
            assert seen == [str(number)] * 2, address
    wait_for_the_new(page, site)
    host.stop()
    for address in ("index.html", "glossary.html", "patterns/stone/index.html"):
        page.goto(f"{host.address}/{address}")
        assert page.get_attribute("html", "data-build") == "3"


def test_a_half_copied_build_is_not_taken_in(
    context: BrowserContext, host: Host, site: Path
) -> None:
    """The host has the new worker and still some old files: the old build stays as it is."""
    page = visit_once(context, host)
    before = page.evaluate("caches.keys()")
    old = (site / "site/glossary.html").read_bytes()
    write_pattern(site, "pebble", pebble("Pebble, better"))
    (site / "mkdocs.yml").write_text(
        (site / "mkdocs.yml").read_text("utf-8").replace("Tideline", "Ebb"), "utf-8"
    )
    rebuilt(site)
    new = (site / "site/glossary.html").read_bytes()
    (site / "site/glossary.html").write_bytes(old)
    page.goto(f"{host.address}/index.html")
    update = "navigator.serviceWorker.ready.then((r) => r.update()).catch(() => {})"
    page.evaluate(update)
    page.wait_for_timeout(1500)
    assert page.evaluate("caches.keys().then((n) => n.length)") in (1, 2)
    assert before[0] in page.evaluate("caches.keys()")
    (site / "site/glossary.html").write_bytes(new)
    page.evaluate(update)
    wait_for_the_new(page, site)


def test_other_pages_are_there_once_visited_and_stay_through_a_new_build(
    context: BrowserContext, host: Host, site: Path
) -> None:
    page = visit_once(context, host)
    page.goto(f"{host.address}/how-to-write.html")
    write_pattern(site, "stone", pebble("Stone, better"))
    rebuilt(site)
    page.goto(f"{host.address}/index.html")
    wait_for_the_new(page, site)
    host.stop()
    page.goto(f"{host.address}/how-to-write.html")
    assert page.locator("h1").inner_text() == "How to write a pattern"
    page.goto(f"{host.address}/for-designers.html")  # never visited
    assert "No page here" in page.locator("h1").inner_text()


def test_a_host_that_does_not_answer_is_not_waited_for(context: BrowserContext, host: Host) -> None:
    page = visit_once(context, host)
    host.pause()
    page.goto(f"{host.address}/glossary.html", timeout=15_000)
    assert page.locator("h1").inner_text() == "Glossary"
    host.resume()


def test_the_browser_would_install_it(launch: Launch, host: Host, tmp_path: Path) -> None:
    with launch.kept(str(tmp_path / "profile")) as context:  # a private window installs nothing
        page = visit_once(context, host)
        session = context.new_cdp_session(page)
        assert session.send("Page.getInstallabilityErrors")["installabilityErrors"] == []
        told = session.send("Page.getAppManifest")
    assert told["errors"] == []
    manifest = json.loads(told["data"])
    assert manifest["name"] == "Tideline" and manifest["display"] == "standalone"
    sizes = {icon["sizes"] for icon in manifest["icons"]}
    assert {"192x192", "512x512"} <= sizes
    assert {icon["purpose"] for icon in manifest["icons"]} == {"any", "maskable"}


def test_icons_are_of_the_sizes_they_say_and_a_mask_cuts_nothing_off(site: Path) -> None:
    told = json.loads((site / "site/manifest.webmanifest").read_text("utf-8"))
    for icon in told["icons"]:
        image = Image.open(site / "site" / icon["src"]).convert("RGB")
        assert "{}x{}".format(*image.size) == icon["sizes"]
        ground = image.getpixel((0, 0))
        ink = Image.new("RGB", image.size, ground)  # type: ignore[arg-type]
        box = (
            ImageChops.difference(image, ink).convert("L").point(lambda n: 255 * (n > 30)).getbbox()
        )
        assert box
        if icon["purpose"] == "maskable":
            # Web Application Manifest, icon masks: a circle of 40 % of the width about the middle.
            middle, reach = image.width / 2, 0.4 * image.width
            pixels = image.load()
            assert pixels
            for x in range(box[0], box[2]):
                for y in range(box[1], box[3]):
                    if (x - middle) ** 2 + (y - middle) ** 2 > reach**2:
                        assert pixels[x, y] == ground


def test_from_disk_nothing_is_asked_and_nothing_said(browser: Browser, site: Path) -> None:
    said: list[str] = []
    page = browser.new_page()
    page.on("console", lambda message: said.append(message.text))
    page.goto((site / "site/index.html").as_uri())
    page.wait_for_load_state("load")
    assert page.locator("link[rel=manifest]").count() == 0
    assert said == []
    page.close()


def test_where_patterns_are_many_only_those_that_were_opened_are_kept() -> None:
    light = {"index.html": 9, "patterns/a/index.html": 9, "patterns/a/photos/a.png": 9}
    assert first(light) == ["index.html", "patterns/a/index.html"]
    assert first(light | {"patterns/a/index.html": MOST_PATTERNS + 1}) == ["index.html"]


def test_the_key_is_that_of_the_content(site: Path) -> None:
    def key() -> str:
        return re.findall(r'"key":"(\w+)"', (site / "site/sw.js").read_text("utf-8"))[0]

    before = key()
    rebuilt(site)
    assert key() == before
    write_pattern(site, "pebble", pebble("Pebble, better"))
    rebuilt(site)
    assert key() != before
