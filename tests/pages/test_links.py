"""Every link of a built folder is followed, on disk and nowhere else."""

from pathlib import Path

import pytest

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


@pytest.mark.parametrize(
    ("body", "broken"),
    [
        ('<a href="gone.html">x</a>', "gone.html is not there"),
        ('<img src="gone.png" alt="">', "gone.png is not there"),
        ('<img src="#" srcset="gone.png 480w" alt="">', "gone.png is not there"),
        ('<link rel="stylesheet" href="css/gone.css">', "css/gone.css is not there"),
        (
            '<a href="#nowhere">x</a>',
            "index.html#nowhere names a place that the page does not have",
        ),
        ('<a href="b.html#no">x</a>', "b.html#no names a place that the page does not have"),
        ('<a href="folder/">x</a>', "folder/ is a folder: link to its index.html"),
        ('<a href="../out.html">x</a>', "leads out of the site"),
        ('<a href="/index.html">x</a>', "leads out of the site"),
    ],
)
def test_each_kind_of_broken_link_is_named(tmp_path: Path, body: str, broken: str) -> None:
    folder = tmp_path / "site"
    site(folder, index=body, b="", folder__index="")
    site(tmp_path, out="")
    found = said(folder)
    assert len(found) == 1
    assert found[0].startswith("index.html, line 1: ")
    assert found[0].endswith(broken)


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
