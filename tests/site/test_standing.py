"""Who sees which page: published, in testing, in draft, and with errors."""

from pathlib import Path

import pytest

from roundproof.cli.main import main
from sites import contents, pebble, write_site


@pytest.fixture
def built(tmp_path: Path) -> Path:
    site = write_site(
        tmp_path / "tideline",
        shown=pebble("Shown pebble", date="2026-05-04"),
        tested=pebble("Tested pebble", "testing", date="2027-01-01"),
        drafted=pebble("Drafted pebble", "draft"),
        tested_wrong=pebble("Withheld pebble", "testing", third=19),
        drafted_wrong=pebble("Wrong draft", "draft", third=19),
    )
    assert main(["build", str(site)]) == 0
    return site / "site"


def test_each_status_has_its_place(built: Path, capsys: pytest.CaptureFixture[str]) -> None:
    pages = contents(built)
    texts = {name: data.decode() for name, data in pages.items() if name.endswith(".html")}
    folders = {
        name.split("/")[1] for name in pages if name.startswith("patterns/") and "/i" in name
    }
    assert {"shown", "tested"} == folders - {"index.html"}

    assert 'name="robots"' not in texts["patterns/shown/index.html"]
    assert "Shown pebble" in texts["index.html"]
    assert "Shown pebble" in texts["patterns/index.html"]
    assert "<loc>https://example.org/shore/patterns/shown/index.html</loc>" in (
        built / "sitemap.xml"
    ).read_text("utf-8")

    for unlisted in ("shown/tester", "tested/index", "tested/tester"):
        noindex = '<meta name="robots" content="noindex">'
        assert noindex in texts[f"patterns/{unlisted}.html"], unlisted


def test_nothing_leads_to_a_pattern_that_is_not_published(built: Path) -> None:
    own = ("patterns/tested/",)
    for name, data in contents(built).items():
        if name.startswith(own) or name.endswith((".gz", ".woff2")):
            continue
        for title in (b"Tested pebble", b"Drafted pebble", b"Withheld pebble", b"Wrong draft"):
            assert title not in data, name
        assert b"patterns/tested" not in data, name


def test_what_is_withheld_is_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    site = write_site(
        tmp_path / "tideline",
        a=pebble(),
        b=pebble("Wrong", "testing", 19),
        c=pebble("Rough", "draft"),
    )
    assert main(["build", str(site)]) == 0
    said = capsys.readouterr().out
    assert "b/pattern.yaml is in testing and has errors: its page is left out" in said
    assert (
        "1 public, 1 in draft, shown by `roundproof serve` alone and 1 in testing, withheld" in said
    )


def test_a_preview_of_a_pattern_hands_no_rounds_out(tmp_path: Path) -> None:
    text = pebble().replace("status:", "show: preview\nstatus:")
    site = write_site(tmp_path / "tideline", pebble=text)
    assert main(["build", str(site)]) == 0
    pages = contents(site / "site")
    assert "patterns/pebble/tester.html" not in pages
    for name, data in pages.items():
        if name.startswith("patterns/"):
            assert b"(sc, inc)" not in data, name
