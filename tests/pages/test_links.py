"""Every link of a built folder is followed, on disk and nowhere else."""

import subprocess
import sys
from pathlib import Path
from posixpath import dirname, normpath, relpath

import pytest

from roundproof.pages.filling import relative
from roundproof.pages.links import LinksNotChecked, broken_links

HEAD = '<!doctype html><html lang="en"><meta charset="utf-8"><title>Page</title>'


def site(folder: Path, **pages: str) -> Path:
    for name, body in pages.items():
        path = folder / (name.replace("__", "/") + ".html")
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(HEAD + body, encoding="utf-8")
    return folder


def said(folder: Path) -> list[str]:
    return [str(link) for link in broken_links(folder)]


def test_a_good_site_has_no_broken_links(tmp_path: Path) -> None:
    site(
        tmp_path,
        index='<a href="patterns/crab/index.html#leg-r3">Crab</a> <a href="#here">Here</a>'
        '<p id="here"></p> <a href="https://example.org/gone#nowhere">elsewhere</a>'
        ' <a href="mailto:errata@example.org">write</a>',
        patterns__crab__index='<ol><li id="leg-r3">R3</ol><a href="../../index.html">Back</a>',
    )
    assert said(tmp_path) == []


NOWHERE = "names a place that the page does not have"
OUT = "leads out of the site"
BROKEN = {
    "link": ('<a href="gone1.html">x</a>', "gone1.html is not there"),
    "picture": ('<img src="gone2.png" alt="">', "gone2.png is not there"),
    "sizes": ('<img src="icon.png" srcset="gone3.png 480w" alt="">', "gone3.png is not there"),
    "sheet": ('<link rel="stylesheet" href="css/gone4.css">', "css/gone4.css is not there"),
    "own": ('<a href="#nowhere">x</a>', f"own.html#nowhere {NOWHERE}"),
    "other": ('<a href="good.html#no">x</a>', f"good.html#no {NOWHERE}"),
    "closed": ('<a href="below/">x</a>', "below/ is a folder: link to its index.html"),
    "up": ('<a href="../out.html">x</a>', OUT),
    "root": ('<a href="/good.html">x</a>', OUT),
}


def test_each_kind_of_broken_link_is_named(tmp_path: Path) -> None:
    folder = tmp_path / "site"
    pages = {name: body for name, (body, _) in BROKEN.items()}
    site(folder, **pages, good="", below__index="")
    (folder / "icon.png").write_bytes(b"")
    site(tmp_path, out="")
    found = {link.page: str(link) for link in broken_links(folder)}
    assert found.keys() == {f"{name}.html" for name in BROKEN}
    for name, (_, why) in BROKEN.items():
        assert found[f"{name}.html"].startswith(f"{name}.html, line 1: ")
        assert found[f"{name}.html"].endswith(why), name


def test_a_broken_address_is_named_once_with_the_first_page_that_leads_there(
    tmp_path: Path,
) -> None:
    site(tmp_path, a="", b='<a href="gone.html">x</a>', c='<a href="gone.html">x</a>')
    assert said(tmp_path) == ["b.html, line 1: gone.html is not there"]


def test_a_missing_font_of_a_stylesheet_is_named(tmp_path: Path) -> None:
    site(tmp_path, index='<link rel="stylesheet" href="css/a.css">')
    (tmp_path / "css").mkdir()
    (tmp_path / "css/a.css").write_text("@font-face { src: url(../fonts/gone.woff2) }")
    assert said(tmp_path) == ["css/a.css, line 1: fonts/gone.woff2 is not there"]


def test_pages_that_nothing_leads_to_are_followed_too(tmp_path: Path) -> None:
    site(tmp_path, index="", patterns__crab__tester='<a href="index.html">Pattern</a>')
    assert said(tmp_path) == [
        "patterns/crab/tester.html, line 1: patterns/crab/index.html is not there"
    ]


def test_a_checker_that_comes_to_grief_is_not_taken_for_a_good_site(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "linkcheck.py").write_text("raise RuntimeError('no')")
    monkeypatch.setenv("PYTHONPATH", str(tmp_path))
    with pytest.raises(LinksNotChecked, match="no"):
        broken_links(site(tmp_path / "site", index=""))


def test_a_fault_while_following_is_not_taken_for_a_good_site(tmp_path: Path) -> None:
    faulty = "import roundproof.pages.links as links; links._fault = None; links.main()"
    command = [sys.executable, "-c", faulty, str(site(tmp_path, index=""))]
    done = subprocess.run(command, capture_output=True, text=True)
    assert done.returncode == 1
    assert done.stderr.endswith("the link checker had a fault of its own\n")
    assert done.stdout == ""


@pytest.mark.parametrize("at", ["index.html", "a/index.html", "a/b/c.html", "b/a.html"])
@pytest.mark.parametrize("path", ["index.html", "a", "a/index.html", "a/b/c.html", "a/b/d", "."])
def test_ways_between_pages_are_those_of_the_standard_library(path: str, at: str) -> None:
    """https://docs.python.org/3/library/os.path.html#os.path.relpath."""
    assert normpath(relative(path, at)) == relpath(path, dirname(at) or ".")
