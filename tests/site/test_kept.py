"""What a build keeps for the next one: it saves work and never changes a byte."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from roundproof import making
from roundproof.cli.main import main
from roundproof.making import Maker
from sites import contents, pebble, write_pattern, write_site


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The patterns that are made anew, by their folders; all in this process."""
    names: list[str] = []
    real = Maker.made

    def counted(self: Maker, file: object, *more: object, **how: object) -> object:
        names.append(file.slug)  # type: ignore[attr-defined]
        return real(self, file, *more, **how)  # type: ignore[arg-type]

    monkeypatch.setattr(Maker, "made", counted)
    monkeypatch.setattr(making, "worth_starting", lambda *_: 1)
    return names


@pytest.fixture
def site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Three patterns; links are followed elsewhere."""
    monkeypatch.setattr("roundproof.cli.build._follow_links", lambda *_: None)
    three = {name: pebble(f"Pebble {name}") for name in "abc"}
    return write_site(tmp_path / "tideline", **three)


def built(site: Path) -> dict[str, bytes]:
    assert main(["build", str(site)]) == 0
    return contents(site / "site")


def test_a_build_of_what_is_unchanged_makes_nothing_and_is_the_same(
    site: Path, made: list[str]
) -> None:
    first = built(site)
    assert made == ["a", "b", "c"]
    made.clear()
    assert built(site) == first
    assert made == []
    shutil.rmtree(site / ".roundproof")
    assert built(site) == first
    assert made == ["a", "b", "c"]


def test_only_what_changed_is_made_and_other_pages_tell_of_it(site: Path, made: list[str]) -> None:
    first = built(site)
    made.clear()
    write_pattern(site, "b", pebble("Pebble with another name"))
    second = built(site)
    assert made == ["b"]
    changed = {name for name in first if first[name] != second[name]}
    assert {"index.html", "patterns/index.html", "js/search-index.js"} <= changed
    assert {n.removeprefix("patterns/b/") for n in changed if n.startswith("patterns/b/")} == {
        *("index.html", "share.png", "tester.html", "yarns.css"),
        *("booklet-a4.pdf", "booklet-letter.pdf", "booklet-large-print.pdf"),
    }
    assert not [n for n in changed if n.startswith(("patterns/a/", "patterns/c/"))]
    assert b"Pebble with another name" in second["patterns/index.html"]


def test_the_defaults_belong_to_every_pattern(site: Path, made: list[str]) -> None:
    built(site)
    made.clear()
    (site / "patterns/defaults.yaml").write_text("pace: 20 sts a minute\n", "utf-8")
    built(site)
    assert made == ["a", "b", "c"]


def test_reports_of_testers_belong_to_their_pattern(site: Path, made: list[str]) -> None:
    first = built(site)
    testers = site / "patterns/b/testers"
    testers.mkdir()
    report = "pattern: b\nversion: 1.0.0\nyarns: {slate: {before: 50 g, after: AFTER}}\n"
    for after, said in (("48 g", "2\u00a0g"), ("46 g", "4\u00a0g")):
        made.clear()
        (testers / "one.yaml").write_text(report.replace("AFTER", after), "utf-8")
        page = built(site)["patterns/b/index.html"].decode()
        assert made == ["b"]
        assert f"Measured by 1\u00a0tester: {said}." in page
    (testers / "one.yaml").unlink()
    assert built(site) == first


def test_another_frame_fills_every_page_anew(site: Path) -> None:
    built(site)
    settings = site / "mkdocs.yml"
    settings.write_text(settings.read_text("utf-8").replace("Tideline", "Ebb"), "utf-8")
    (site / "site_src/tides.md").write_text("# The tides\n", "utf-8")
    pages = built(site)
    shutil.rmtree(site / ".roundproof")
    assert built(site) == pages
    assert b"Ebb" in pages["patterns/a/index.html"]
    assert b">The tides</a>" in pages["patterns/a/index.html"]


def own_template(site: Path, text: str) -> None:
    settings = site / "mkdocs.yml"
    told = settings.read_text("utf-8")
    if "custom_dir" not in told:
        told = told.replace("name: roundproof", "name: roundproof, custom_dir: look")
        settings.write_text(told, "utf-8")
        (site / "look").mkdir()
    (site / "look/pattern.html").write_text(text, "utf-8")


def test_another_template_fills_every_page_anew(site: Path) -> None:
    built(site)
    for words in ("One", "Two"):
        text = '{% extends "base.html" %}{% block content %}WORDS{% endblock %}'
        own_template(site, text.replace("WORDS", words))
        assert words.encode() in built(site)["patterns/a/index.html"]


@pytest.mark.parametrize("count", [1, 3])
def test_a_template_that_cannot_be_used_is_named(
    site: Path,
    count: int,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    before = built(site)
    monkeypatch.setattr(making, "worth_starting", lambda *_: count)
    own_template(site, "\n{% block")
    assert main(["build", str(site)]) == 2
    said = capsys.readouterr().err
    assert "pattern.html, line 2" in said and "Traceback" not in said
    assert contents(site / "site") == before


SPOIL: dict[str, Callable[[bytes], bytes]] = {
    "cut short": lambda data: data[: len(data) // 2],
    "empty": lambda data: b"",
    "changed": lambda data: data.replace(b"Pebble", b"Marble"),
    "foreign": lambda data: b"\x80\x05cos\nsystem\n(S'exit 3'\ntR.",
}


@pytest.mark.parametrize("how", SPOIL)
def test_whatever_becomes_of_what_is_kept_the_site_is_the_same(site: Path, how: str) -> None:
    first = built(site)
    entries = [p for p in (site / ".roundproof/kept").rglob("*") if p.is_file()]
    assert entries
    for entry in entries:
        entry.write_bytes(SPOIL[how](entry.read_bytes()))
    assert built(site) == first


def test_a_site_that_nothing_can_be_kept_in_is_built(site: Path) -> None:
    first = built(site)
    shutil.rmtree(site / ".roundproof")
    (site / ".roundproof").write_text("in the way", "utf-8")
    assert built(site) == first


def test_it_is_the_same_whoever_makes_it(site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(making, "worth_starting", lambda *_: 1)
    alone = built(site)
    for start in ("fork", "spawn"):
        shutil.rmtree(site / ".roundproof")
        monkeypatch.setattr(making, "worth_starting", lambda *_: 3)
        monkeypatch.setattr("roundproof.processes.START", start)
        assert built(site) == alone


def test_the_preview_and_a_build_keep_apart(site: Path) -> None:
    from roundproof.preview.site import LiveSite

    first = built(site)
    live = LiveSite(site / "mkdocs.yml")
    for _ in live.look():
        pass
    shown = live.file_at("patterns/a/index.html")
    assert shown and b'class="margin' in shown.data
    assert built(site) == first


# ---- links ----
@pytest.fixture
def followed(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """How many broken links there were, each time that they were followed."""
    from roundproof.pages import links

    found: list[int] = []

    def counted(site: Path) -> tuple[links.BrokenLink, ...]:
        broken = links.broken_links(site)
        found.append(len(broken))
        return broken

    monkeypatch.setattr("roundproof.cli.build.broken_links", counted)
    return found


def test_links_of_the_same_site_are_followed_once(tmp_path: Path, followed: list[int]) -> None:
    site = write_site(tmp_path / "tideline", a=pebble())
    built(site)
    built(site)
    assert followed == [0]
    (site / "site_src/index.md").write_text("# Tideline\n\n<a href='gone.html'>x</a>\n", "utf-8")
    assert main(["build", str(site)]) == 1
    assert main(["build", str(site)]) == 1
    assert followed == [0, 1, 1], "what is broken is told every time"


def test_a_target_that_went_is_missed(tmp_path: Path, followed: list[int]) -> None:
    front = "# Tideline\n\n<a href='tides.txt'>x</a>\n"
    site = write_site(tmp_path / "tideline", front, a=pebble())
    (site / "site_src/tides.txt").write_text("High and low.\n", "utf-8")
    built(site)
    (site / "site_src/tides.txt").unlink()
    assert main(["build", str(site)]) == 1
    assert followed == [0, 1]


def test_a_file_of_the_site_that_somebody_changed_is_as_it_was_after_the_next_build(
    site: Path, made: list[str]
) -> None:
    """What is done to a file of a site is not taken for what was kept."""
    first = built(site)
    made.clear()
    page = site / "site/patterns/b/index.html"
    page.write_bytes(page.read_bytes().replace(b"Pebble", b"Shard"))
    assert built(site) == first
    assert made == ["b"]


def test_without_a_place_to_keep_anything_a_site_is_built_all_the_same(
    site: Path, made: list[str]
) -> None:
    first = built(site)
    made.clear()
    shutil.rmtree(site / ".roundproof")
    (site / ".roundproof").write_text("in the way", "utf-8")
    assert built(site) == first
    assert built(site) == first
    assert made == [*"abc", *"abc"]
