"""Pages that every site has: what stands on them, what does not, what is a designer's own."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from roundproof.cli.main import main
from sites import contents, pebble, write_site


@pytest.fixture(scope="module")
def many(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """A site of ten patterns, one in testing."""
    patterns = {
        f"stone_{n}": pebble(f"Stone {n:02}", date=f"2026-05-{n + 1:02}") for n in range(1, 10)
    }
    tested = pebble("Secret stone", "testing")
    site = write_site(tmp_path_factory.mktemp("many") / "tideline", **patterns, tested=tested)
    assert main(["build", str(site)]) == 0
    return contents(site / "site")


def index(built: dict[str, bytes]) -> list[list[str]]:
    text = built["js/search-index.js"].decode()
    rows: list[list[str]] = json.loads(text.removeprefix("self.searchIndex = ").rstrip(";\n"))
    return rows


def test_no_page_but_the_gallery_lists_every_pattern(many: dict[str, bytes]) -> None:
    titles = [f"Stone {n:02}" for n in range(1, 10)]
    for name, data in many.items():
        if name.endswith(".html"):
            listed = [title for title in titles if title in data.decode()]
            if name == "patterns/index.html":
                assert listed == titles
            elif name == "index.html":
                assert listed == titles[3:]  # the newest six
            else:
                assert len(listed) <= 1, name


def test_the_front_page_leads_to_all(many: dict[str, bytes]) -> None:
    front = many["index.html"].decode()
    assert re.search(r'<a href="patterns/index.html">All 9 patterns[^<]*</a>', front)
    assert front.index("Stone 09") < front.index("Stone 08")


def test_what_is_unlisted_is_in_no_index(many: dict[str, bytes]) -> None:
    addresses = [row[2] for row in index(many)]
    assert "patterns/stone-1/index.html" in addresses
    assert b"Secret stone" not in many["js/search-index.js"]
    assert b"Secret" not in many["sitemap.xml"]
    own = [a for a in addresses if a.startswith("patterns/")]
    assert not [a for a in own if "tester" in a or "label" in a or "tested" in a]
    assert b"label.html" not in many["sitemap.xml"]


def test_every_address_of_the_index_is_a_place_on_the_site(many: dict[str, bytes]) -> None:
    for _, title, address, _, _ in index(many):
        page, _, place = address.partition("#")
        assert page in many, address
        if place:
            assert f'id="{place}"' in many[page].decode(), (title, address)


def test_written_pages_are_found_by_their_headings(many: dict[str, bytes]) -> None:
    rows = {row[2]: row for row in index(many)}
    assert rows["how-to-read.html#left-handed"][1] == "Left-handed"
    assert rows["how-to-read.html#left-handed"][3] == "How to read a pattern"
    assert rows["how-to-write.html"][1] == "How to write a pattern"
    assert "checks/join-fit.html" in rows


def test_a_page_that_asks_not_to_be_listed_is_not(tmp_path: Path) -> None:
    site = write_site(tmp_path / "tideline", pebble=pebble())
    (site / "site_src/private.md").write_text("---\nlisted: false\n---\n# Quiet corner\n", "utf-8")
    assert main(["build", str(site)]) == 0
    built = contents(site / "site")
    assert b"Quiet corner" not in built["js/search-index.js"]
    assert b"private.html" not in built["sitemap.xml"]


def test_the_page_for_lost_addresses_links_from_where_the_site_stands(
    many: dict[str, bytes], tmp_path: Path
) -> None:
    page = many["404.html"].decode()
    for address in ("search.html", "patterns/index.html", "css/pages.css", "js/lost.js"):
        assert f'="/shore/{address}"' in page
    assert "take words off the end" not in page
    site = write_site(tmp_path / "tideline", pebble=pebble())
    settings = (site / "mkdocs.yml").read_text("utf-8")
    (site / "mkdocs.yml").write_text(settings.replace("site_url", "# site_url"), "utf-8")
    assert main(["build", str(site)]) == 0
    bare = (site / "site/404.html").read_text("utf-8")
    assert 'href="/search.html"' in bare and "take words off the end" in bare


# ---- a designer's own site ----
OURS = re.compile(r"roundproof", re.I)
SPEAKS_OF_THE_TOOL = re.compile(
    r"^(?:checks/|schema/|how-to-write|for-designers|credits|js/search-index)"
)
"""Pages on how patterns are written and checked, and the credits, name the tool."""


def test_a_new_site_is_the_designer_s_own(tmp_path: Path) -> None:
    folder = tmp_path / "own"
    words = ["--title", "Yarn & tide", "--designer", "Ada Shore", "--accent", "#7a2e8b"]
    assert main(["new", "site", str(folder), *words]) == 0
    settings = folder / "mkdocs.yml"
    told = settings.read_text("utf-8").replace('  # strip: "', '  strip: "')
    settings.write_text(told, "utf-8")
    assert main(["build", str(folder)]) == 0
    built = contents(folder / "site")
    page = built["patterns/net-float/index.html"].decode()
    assert "<span>Yarn &amp; tide</span></a>" in page
    assert "Ada Shore" in page and "Ada Shore" in built["credits.html"].decode()
    assert 'href="../../css/own.css"' in page
    sheet = built["css/own.css"].decode()
    assert "--accent: #" in sheet and "--strip-tint: #F3E6EA" in sheet
    for name, data in built.items():
        if name.endswith((".html", ".xml", ".webmanifest", ".json", ".js")):
            # What is kept on a device, and in a file of one's place, goes by the tool's name.
            text = re.sub(r"roundproof(?::|-place)", "", data.decode())
            if not SPEAKS_OF_THE_TOOL.match(name):
                assert not OURS.search(text), (name, OURS.search(text))
        if name.endswith(".html"):
            assert not re.search(r"Your name(?! or number)", data.decode()), name


def test_a_site_without_colours_of_its_own_has_no_sheet_for_them(many: dict[str, bytes]) -> None:
    assert "css/own.css" not in many
    assert b"own.css" not in many["index.html"]


@pytest.mark.parametrize(
    ("colours", "said"),
    [
        (
            'accent: {dark: "#552233"}',
            "does not do on the dark ground: links in it have a contrast",
        ),
        ('strip: "#556677"', "does not do on the white ground: words on it have a contrast"),
        ("accent: purple", "is no colour code"),
    ],
)
def test_colours_that_cannot_be_read_stop_the_build(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], colours: str, said: str
) -> None:
    site = write_site(tmp_path / "tideline", pebble=pebble())
    settings = site / "mkdocs.yml"
    theme = f"theme: {{name: roundproof, {colours}}}"
    settings.write_text(
        settings.read_text("utf-8").replace("theme: {name: roundproof}", theme), "utf-8"
    )
    assert main(["build", str(site)]) == 2
    told = capsys.readouterr().err
    assert said in told and "mkdocs.yml" in told
    assert not (site / "site").exists()


def test_a_shade_that_is_none_is_refused_before_anything_is_written(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["new", "site", str(tmp_path / "own"), "--accent", "purple"]) == 2
    assert "'purple' is no colour code" in capsys.readouterr().err
    assert not (tmp_path / "own").exists()
