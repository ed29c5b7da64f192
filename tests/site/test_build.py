"""`roundproof build`: what is built, what stops it, and what becomes of the last good site."""

import os
import re
import shutil
import subprocess
import sys
import zlib
from pathlib import Path

import pytest
from PIL import Image

from roundproof.cli.main import main
from sites import contents, pebble, write_pattern, write_site


def build(site: Path, *more: str) -> int:
    return main(["build", str(site), *more])


@pytest.fixture
def good(tmp_path: Path) -> Path:
    """A small site that was built once."""
    site = write_site(tmp_path / "tideline", pebble=pebble())
    assert build(site) == 0
    return site


def assert_kept(site: Path, code: int, expected: int, said: str) -> None:
    """The build failed as expected, said that nothing was lost, and nothing was."""
    assert code == expected
    assert "is as it was" in said
    assert "Pebble" in (site / "site/patterns/pebble/index.html").read_text("utf-8")
    there = {".roundproof", "mkdocs.yml", "patterns", "site", "site_src"}
    assert {p.name for p in site.iterdir()} == there


def test_addresses_are_those_that_get_printed(good: Path) -> None:
    assert {
        "index.html",
        "patterns/index.html",
        "patterns/pebble/index.html",
        "patterns/pebble/tester.html",
        "patterns/pebble/yarns.css",
        "glossary.html",
        "how-to-read.html",
        "for-designers.html",
        "search.html",
        "js/search-index.js",
        "credits.html",
        "checks/index.html",
        "checks/count-stated.html",
        "schema/pattern.schema.json",
        "sitemap.xml",
        "404.html",
    } <= contents(good / "site").keys()


def test_the_end_of_a_build_says_what_was_built_and_where(
    good: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert build(good) == 0
    first, second = capsys.readouterr().out.splitlines()
    assert first.startswith("Built ") and "from 1 pattern (1 public)" in first
    assert second == f"Open {good / 'site/index.html'}"


def test_two_builds_are_the_same_to_the_byte(good: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    first = contents(good / "site")
    shutil.rmtree(good / "site")
    monkeypatch.setenv("TZ", "Pacific/Auckland")
    monkeypatch.setenv("PYTHONHASHSEED", "7")
    command = [sys.executable, "-m", "roundproof", "build", str(good)]
    subprocess.run(command, cwd="/", check=True, capture_output=True)
    second = contents(good / "site")
    assert first.keys() == second.keys()
    assert [name for name in first if first[name] != second[name]] == []
    assert "SOURCE_DATE_EPOCH" not in os.environ


def test_an_error_in_a_published_pattern_stops_the_build(
    good: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    write_pattern(good, "pebble", pebble(third=19))
    code = build(good)
    told = capsys.readouterr()
    assert "R3 makes 18 stitches" in told.out
    assert_kept(good, code, 1, told.err)


@pytest.mark.parametrize("text", ["", "title: [Pebble\n", "\0\1\2", "[" * 5000])
def test_a_file_that_cannot_be_used_stops_the_build(
    good: Path, capsys: pytest.CaptureFixture[str], text: str
) -> None:
    write_pattern(good, "pebble", text)
    code = build(good)
    told = capsys.readouterr()
    assert "patterns/pebble/pattern.yaml" in told.out
    assert "Traceback" not in told.out + told.err
    assert_kept(good, code, 2, told.err)


@pytest.mark.parametrize(
    ("front", "named"),
    [
        ('<a href="gone.html">Gone</a>', "index.html, line"),
        ("[Gone](gone.md)", "gone.md"),
        ('<a href="patterns/pebble/index.html#body-r99">R99</a>', "body-r99"),
        ('<img src="gone.png" alt="">', "gone.png"),
    ],
)
def test_a_link_that_leads_nowhere_stops_the_build(
    good: Path, capsys: pytest.CaptureFixture[str], front: str, named: str
) -> None:
    (good / "site_src/index.md").write_text(f"# Tideline\n\n{front}\n", "utf-8")
    code = build(good)
    told = capsys.readouterr()
    assert named in told.err
    assert_kept(good, code, 1, told.err)


def test_a_photo_that_is_damaged_stops_the_build(
    good: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """What only decoding can tell: the file is whole, and what is packed in it is none."""
    photo = good / "patterns/pebble/photos/a.png"
    photo.parent.mkdir()
    Image.new("RGB", (60, 40)).save(photo)
    data = photo.read_bytes()
    packed = re.search(rb"IDAT(.*?).{4}\0\0\0\0IEND", data, re.DOTALL)
    assert packed
    odd = b"\0" * len(packed[1])
    check = zlib.crc32(b"IDAT" + odd).to_bytes(4, "big")
    photo.write_bytes(data[: packed.start(1)] + odd + check + data[packed.end(1) + 4 :])
    write_pattern(
        good,
        "pebble",
        pebble(photos="{file: a.png, alt: A grey pebble on sand, by: Tideline, licence: CC0}"),
    )
    code = build(good)
    told = capsys.readouterr()
    assert "patterns/pebble/pattern.yaml: The photo a.png is damaged." in told.err
    assert_kept(good, code, 1, told.err)


def test_two_folders_with_one_address_stop_the_build(
    good: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    write_pattern(good, "Pebble!", pebble())
    code = build(good)
    told = capsys.readouterr()
    assert "would both stand at patterns/pebble/" in told.err
    assert_kept(good, code, 1, told.err)


def test_a_page_of_the_site_in_the_place_of_a_generated_one_is_named(
    good: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (good / "site_src/glossary.md").write_text("# My own words\n", "utf-8")
    code = build(good)
    told = capsys.readouterr()
    assert "site_src/glossary.md is in the way" in told.err
    assert_kept(good, code, 1, told.err)


def test_own_pages_are_linked_and_may_replace_those_of_the_theme(good: Path) -> None:
    (good / "site_src/about.md").write_text("# About the shore\n\nSand.\n", "utf-8")
    (good / "site_src/how-to-read.md").write_text("# Reading\n\nMy words.\n", "utf-8")
    assert build(good) == 0
    page = (good / "site/patterns/pebble/index.html").read_text("utf-8")
    assert '<a href="../../about.html">About the shore</a>' in page
    own = (good / "site/how-to-read.html").read_text("utf-8")
    assert "My words." in own
    assert own.count("<h1") == 1


def test_a_build_that_died_between_its_renames_is_made_good(good: Path) -> None:
    (good / "site").rename(good / "site.old")
    (good / "site.new").mkdir()
    write_pattern(good, "pebble", pebble(title="Pebble, again"))
    (good / "site_src/index.md").write_text('<a href="gone.html">x</a>', "utf-8")
    assert build(good) == 1
    assert "Pebble" in (good / "site/patterns/pebble/index.html").read_text("utf-8")
    (good / "site_src/index.md").write_text("# Tideline\n", "utf-8")
    assert build(good) == 0
    assert "Pebble, again" in (good / "site/patterns/pebble/index.html").read_text("utf-8")


def test_the_site_is_found_from_anywhere(good: Path, tmp_path: Path) -> None:
    (good / "mkdocs.yml").rename(good / "other.yml")
    elsewhere = tmp_path / "else" / "where"
    assert main(["build", "--config", str(good / "other.yml"), "--into", str(elsewhere)]) == 0
    assert (elsewhere / "patterns/pebble/index.html").exists()


def test_a_place_that_cannot_be_written_to_is_named(
    good: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code = build(good, "--into", str(good / "mkdocs.yml" / "site"))
    told = capsys.readouterr()
    assert "cannot be written" in told.err and "mkdocs.yml" in told.err
    assert code == 1


def test_the_navigation_of_the_settings_orders_own_pages(good: Path) -> None:
    for name in ("tides", "about", "unlisted"):
        (good / f"site_src/{name}.md").write_text(f"# The {name}\n", "utf-8")
    with (good / "mkdocs.yml").open("a", encoding="utf-8") as settings:
        settings.write("nav: [index.md, tides.md, {About us: about.md}]\n")
    assert build(good) == 0
    masthead = (good / "site/index.html").read_text("utf-8").partition("<main")[0]
    assert re.findall(r">([^<>]+)</a>", masthead)[-6:] == [
        "Patterns",
        "How to read",
        "Glossary",
        "The tides",
        "About us",
        "Search",
    ]
    assert (good / "site/unlisted.html").exists()


@pytest.mark.parametrize(
    ("settings", "named"),
    [
        (None, "is no site"),
        ("site_name: [", "cannot be used"),
        ("", "site_name"),
        (
            "site_name: A\ndocs_dir: site_src\ntheme: {name: roundproof}\n",
            "does not name the plugin",
        ),
        ("site_name: A\ndocs_dir: site_src\nplugins: [roundproof]\n", "theme: {name: roundproof}"),
        ("site_name: A\ndocs_dir: gone\nplugins: [roundproof]\n", "gone"),
    ],
)
def test_settings_that_cannot_work_are_named(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], settings: str | None, named: str
) -> None:
    site = write_site(tmp_path / "tideline", pebble=pebble())
    (site / "mkdocs.yml").unlink()
    if settings is not None:
        (site / "mkdocs.yml").write_text(settings, "utf-8")
    assert build(site) in (1, 2)
    told = capsys.readouterr()
    assert named in told.err
    assert "Traceback" not in told.err
    assert not (site / "site").exists()


def test_the_host_alone_builds_the_same_site(good: Path) -> None:
    """`mkdocs build`, for those who have it in a workflow already."""
    shutil.rmtree(good / "site_src")
    (good / "site_src").mkdir()
    assert build(good) == 0
    first = contents(good / "site")
    command = [sys.executable, "-m", "mkdocs", "build", "--strict"]
    subprocess.run(command, cwd=good, check=True, capture_output=True)
    assert contents(good / "site") == first


def test_the_host_alone_stops_before_it_empties_the_last_site(good: Path) -> None:
    before = contents(good / "site")
    write_pattern(good, "pebble", pebble(third=19))
    command = [sys.executable, "-m", "mkdocs", "build"]
    stopped = subprocess.run(command, cwd=good, capture_output=True, text=True)
    assert stopped.returncode != 0
    assert "patterns/pebble/pattern.yaml" in stopped.stderr
    assert "Traceback" not in stopped.stderr
    assert contents(good / "site") == before
