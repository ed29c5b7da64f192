"""A site as it is while it is written: what is made anew, what stays, and what is broken."""

from __future__ import annotations

import os
import re
import shutil
from pathlib import Path

import pytest

from roundproof.cli.main import main
from roundproof.making import Maker
from roundproof.mkdocs_plugin import HostError
from roundproof.preview.site import LiveSite
from sites import contents, pebble, write_pattern, write_photo, write_site


@pytest.fixture
def site(tmp_path: Path) -> Path:
    return write_site(
        tmp_path / "tideline",
        pebble=pebble(),
        wrong=pebble("Wrong pebble", third=19),
        rough=pebble("Rough pebble", "draft"),
    )


@pytest.fixture
def live(site: Path) -> LiveSite:
    return following(site)


def following(site: Path) -> LiveSite:
    live = LiveSite(site / "mkdocs.yml")
    look(live)
    return live


def look(live: LiveSite) -> int:
    """How many parts of what changed there are."""
    return sum(1 for _ in live.look())


def page(live: LiveSite, address: str) -> str:
    found = live.file_at(address)
    assert found is not None, address
    return found.data.decode()


def of(name: str) -> str:
    return f"patterns/{name}/index.html"


def banner(html: str) -> str:
    """The words above a page whose file is broken."""
    found = re.search(r'<section class="banner".*?</section>', html, re.S)
    return " ".join(re.sub("<[^>]+>", " ", found[0]).split()) if found else ""


# ---- beside the rounds ----
def row(html: str, id: str) -> str:
    start = html.index(f'id="{id}"')
    end = html.find('<li class="row', start)
    return html[start:end]


def figures(html: str) -> str:
    found = re.search(r'<p class="margin.*?</p>', html)
    assert found
    return " ".join(re.sub("<[^>]+>", " ", found[0]).split())


def test_every_round_says_what_it_had_used_and_made(live: LiveSite) -> None:
    html = page(live, of("pebble"))
    told = {id: figures(row(html, id)) for id in ("body-r1", "body-r2", "body-r4-r6", "body-r8")}
    assert told == {
        "body-r1": "0 available 0 used 6 made",
        "body-r2": "6 available 6 used 12 made",
        "body-r4-r6": "18 available 18 used 18 made",
        "body-r8": "12 available 12 used 6 made",
    }
    assert html.count('<p class="margin') == 6


def test_a_finding_stands_beside_its_round_and_the_figures_say_so(live: LiveSite) -> None:
    third = row(page(live, of("wrong")), "body-r3")
    assert figures(third) == "12 available 12 used 18 made 19 stated"
    assert 'class="margin off"' in third
    assert "R3 makes 18 stitches, and 19 are stated." in third
    assert 'href="../../checks/count-stated.html"' in third


def test_stitches_left_unworked_are_told(site: Path, live: LiveSite) -> None:
    text = pebble().replace("R4-R6: sc around (18)", "R4-R6: 12 sc, leave 6 sts unworked (12)")
    write_pattern(site, "pebble", text)
    look(live)
    html = page(live, of("pebble"))
    assert "6 left" in figures(row(html, "body-r4-r6")) or "left" in html


# ---- only what changed ----
def test_only_what_was_saved_is_made_anew(
    site: Path, live: LiveSite, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = {name: page(live, of(name)) for name in ("pebble", "wrong", "rough")}
    made: list[str] = []
    real = Maker.made

    def counted(self: Maker, file: object, *more: object, **how: object) -> object:
        made.append(file.slug)  # type: ignore[attr-defined]
        return real(self, file, *more, **how)  # type: ignore[arg-type]

    monkeypatch.setattr(Maker, "made", counted)
    assert look(live) == 0
    write_pattern(site, "pebble", pebble("Pebble, again"))
    assert look(live) == 1
    assert made == ["pebble"]
    assert "Pebble, again" in page(live, of("pebble"))
    assert page(live, of("wrong")) == before["wrong"]
    assert "Pebble, again" in page(live, "index.html") and made == ["pebble"]
    write_pattern(site, "pebble", pebble())  # as it was: nothing has to be made
    assert look(live) == 1
    assert page(live, of("pebble")) == before["pebble"] and made == ["pebble"]


def test_a_file_that_was_only_touched_is_none_that_changed(site: Path, live: LiveSite) -> None:
    os.utime(site / "patterns/pebble/pattern.yaml")
    (site / "patterns/pebble/.pattern.yaml.swp").write_bytes(b"an editor's own")
    (site / "patterns/pebble/pattern.yaml~").write_bytes(b"an editor's copy")
    assert look(live) == 0


def test_the_state_of_a_page_changes_with_what_is_seen_alone(site: Path, live: LiveSite) -> None:
    def states() -> dict[str, str]:
        pages = (of("pebble"), of("wrong"), "patterns/index.html", "how-to-read.html")
        return {page: live.shown(page).state for page in pages}

    before = states()
    assert states() == before
    write_pattern(site, "pebble", pebble("Pebble, again"))
    look(live)
    after = states()
    assert {p for p in before if before[p] != after[p]} == {of("pebble"), "patterns/index.html"}


# ---- whatever changes ----
def test_patterns_come_go_and_are_renamed(site: Path, live: LiveSite) -> None:
    write_pattern(site, "new-one", pebble("New pebble"))
    shutil.rmtree(site / "patterns/rough")
    (site / "patterns/pebble").rename(site / "patterns/stone")
    look(live)
    assert "New pebble" in page(live, of("new-one"))
    assert live.file_at(of("rough")) is None and live.file_at(of("pebble")) is None
    assert "Pebble" in page(live, of("stone"))
    for around in ("overview.html", "patterns/index.html", "index.html"):
        html = page(live, around)
        assert (
            "patterns/new-one/index.html" in html
            or "../patterns/new-one" in html
            or ("new-one/index.html" in html)
        )
        assert "rough/index.html" not in html and "stone/index.html" in html


def test_the_last_pattern_may_go_and_come_again(site: Path, live: LiveSite) -> None:
    (site / "patterns").rename(site / "elsewhere")
    look(live)
    assert live.file_at(of("pebble")) is None
    assert "There is no such file or folder" in page(live, "overview.html")
    (site / "elsewhere").rename(site / "patterns")
    look(live)
    assert "Pebble" in page(live, of("pebble"))


def test_a_page_that_is_missing_says_so_until_it_is_there(site: Path, live: LiveSite) -> None:
    missing = live.shown(of("later"))
    assert b"No page here" in missing.data and b"preview.js" in missing.data
    write_pattern(site, "later", pebble("Later pebble"))
    look(live)
    assert live.shown(of("later")).state != missing.state


def test_defaults_are_followed(site: Path, live: LiveSite) -> None:
    for name in ("pebble", "wrong", "rough"):
        file = site / "patterns" / name / "pattern.yaml"
        file.write_text(file.read_text("utf-8").replace("designer: Roundproof examples\n", ""))
    look(live)
    (site / "patterns/defaults.yaml").write_text("designer: Tideline hands\n", "utf-8")
    look(live)
    assert all("Tideline hands" in page(live, of(n)) for n in ("pebble", "wrong", "rough"))


def test_photos_are_followed(site: Path, live: LiveSite) -> None:
    photo = "{file: a.jpg, alt: A grey pebble on the sand, by: Tideline, licence: CC0}"
    write_pattern(site, "pebble", pebble(photos=photo))
    look(live)
    assert "photo-missing" in page(live, of("pebble"))
    write_photo(site, "pebble", "a.jpg")
    look(live)
    first = live.shown(of("pebble"))
    assert "photo-missing" not in first.data.decode()
    photos: list[str] = re.findall(r'src="(photos/[^"]+)"', first.data.decode())
    shown = live.file_at(f"patterns/pebble/{photos[0]}")
    assert shown is not None and shown.data[:2] == b"\xff\xd8"
    write_photo(site, "pebble", "a.jpg", quality=20)
    look(live)
    assert live.shown(of("pebble")).state != first.state


def test_hand_written_pages_and_settings_are_followed(site: Path, live: LiveSite) -> None:
    (site / "site_src/index.md").write_text("# Tideline\n\nSand and stones.\n", "utf-8")
    (site / "site_src/tides.md").write_text(
        "# The tides\n\n[A pebble](patterns/pebble/index.md)\n", "utf-8"
    )
    look(live)
    assert "Sand and stones." in page(live, "index.html")
    assert 'href="patterns/pebble/index.html"' in page(live, "tides.html")
    assert '<a href="../../tides.html">The tides</a>' in page(live, of("pebble"))
    settings = site / "mkdocs.yml"
    settings.write_text(settings.read_text("utf-8").replace("Tideline", "Ebb and flow"), "utf-8")
    look(live)
    assert "Ebb and flow" in page(live, of("pebble"))


def test_own_templates_and_styles_are_followed(site: Path) -> None:
    settings = site / "mkdocs.yml"
    text = settings.read_text("utf-8").replace(
        "name: roundproof", "name: roundproof, custom_dir: look"
    )
    settings.write_text(text, "utf-8")
    (site / "look/css").mkdir(parents=True)
    live = following(site)
    before = live.shown(of("pebble"))
    own = (
        '{% extends "base.html" %}{% block content %}<h1>My own {{ page.title }}</h1>{% endblock %}'
    )
    (site / "look/pattern.html").write_text(own, "utf-8")
    assert look(live)
    assert "My own Pebble" in page(live, of("pebble"))
    (site / "look/css/page.css").write_text("body { color: red }", "utf-8")
    styled = live.shown(of("pebble")).state
    assert look(live)
    assert page(live, "css/page.css") == "body { color: red }"
    joined = page(live, "css/pages.css")
    assert "\nbody { color: red }\n" in joined and "container: page" not in joined
    assert len({before.state, styled, live.shown(of("pebble")).state}) == 3


# ---- what is broken ----
BROKEN = "title: [Pebble\n"


def test_a_broken_file_keeps_its_last_good_page(site: Path, live: LiveSite) -> None:
    good = page(live, of("pebble"))
    assert banner(good) == ""
    write_pattern(site, "pebble", BROKEN)
    look(live)
    html = page(live, of("pebble"))
    said = banner(html)
    assert "patterns/pebble/pattern.yaml cannot be used as it is now." in said
    assert "This is the last good page." in said
    assert "Line 1: " in said and "is opened here and not closed" in said
    assert row(html, "body-r3") == row(good, "body-r3")
    assert banner(page(live, of("wrong"))) == ""
    assert "Pebble" in page(live, "patterns/index.html")
    assert "is opened here and not closed" in page(live, "overview.html")
    assert banner(page(live, "patterns/pebble/tester.html")) == said
    write_pattern(site, "pebble", pebble())
    look(live)
    assert page(live, of("pebble")) == good


def test_a_page_that_nobody_opened_is_made_ahead_and_kept(site: Path, live: LiveSite) -> None:
    while live.patterns.prepare():
        pass
    write_pattern(site, "pebble", BROKEN)
    look(live)
    html = page(live, of("pebble"))
    assert 'id="body-r3"' in html and "This is the last good page." in banner(html)


def test_no_page_is_called_good_that_was_never_made(tmp_path: Path) -> None:
    names = ("pebble", "b", "c", "d", "e")  # more than are made at once
    there = write_site(tmp_path / "many", **dict.fromkeys(names, pebble()))
    live = following(there)
    write_pattern(there, "pebble", BROKEN)
    look(live)
    html = page(live, of("pebble"))
    assert "Not to be read yet" in html and "last good page" not in html


def test_a_broken_file_keeps_its_page_in_another_frame(site: Path, live: LiveSite) -> None:
    page(live, of("pebble"))
    write_pattern(site, "pebble", BROKEN)
    look(live)
    (site / "site_src/tides.md").write_text("# The tides\n", "utf-8")
    look(live)
    assert 'id="body-r3"' in page(live, of("pebble")) and banner(page(live, of("pebble")))


def test_a_preview_that_begins_with_a_broken_file_knows_its_last_good_page(
    site: Path, live: LiveSite
) -> None:
    page(live, of("pebble"))
    write_pattern(site, "pebble", BROKEN)
    again = following(site)
    assert 'id="body-r3"' in page(again, of("pebble"))
    assert "This is the last good page" in banner(page(again, of("pebble")))


@pytest.mark.parametrize("text", [BROKEN, "", "\0", "- a\n- list\n"])
def test_a_file_that_never_was_good_says_what_is_wrong(
    site: Path, live: LiveSite, text: str
) -> None:
    write_pattern(site, "new", text)
    look(live)
    html = page(live, of("new"))
    assert "Not to be read yet" in html and "patterns/new/pattern.yaml" in html
    assert banner(html) == ""
    assert "patterns/new/pattern.yaml" in page(live, "index.html")


def test_broken_defaults_keep_every_page(site: Path, live: LiveSite) -> None:
    good = page(live, of("pebble"))
    (site / "patterns/defaults.yaml").write_text("designer: [Tideline\n", "utf-8")
    look(live)
    for name in ("pebble", "wrong", "rough"):
        said = banner(page(live, of(name)))
        assert "patterns/defaults.yaml cannot be used" in said and "Line 1" in said
    write_pattern(site, "pebble", BROKEN)
    look(live)
    both = page(live, of("pebble"))
    assert "defaults.yaml cannot be used" in both and "pebble/pattern.yaml cannot be used" in both
    (site / "patterns/defaults.yaml").unlink()
    write_pattern(site, "pebble", pebble())
    look(live)
    assert page(live, of("pebble")) == good


def test_broken_settings_keep_the_site(site: Path, live: LiveSite) -> None:
    settings = site / "mkdocs.yml"
    whole = settings.read_text("utf-8")
    good = page(live, of("pebble"))
    settings.write_text("site_name: [", "utf-8")
    look(live)
    assert "mkdocs.yml cannot be used" in banner(page(live, of("pebble")))
    assert "Stones." in page(live, "index.html")
    settings.write_text(whole, "utf-8")
    look(live)
    assert page(live, of("pebble")) == good


def test_a_template_that_cannot_be_used_is_named(site: Path) -> None:
    settings = site / "mkdocs.yml"
    text = settings.read_text("utf-8").replace(
        "name: roundproof", "name: roundproof, custom_dir: look"
    )
    settings.write_text(text, "utf-8")
    (site / "look").mkdir()
    live = following(site)
    (site / "look/pattern.html").write_text("{% block", "utf-8")
    look(live)
    html = page(live, of("pebble"))
    assert "pattern.html" in banner(html) and "line 1" in banner(html).lower()
    (site / "look/pattern.html").unlink()
    look(live)
    assert banner(page(live, of("pebble"))) == ""


def test_settings_that_never_worked_are_named(site: Path) -> None:
    (site / "mkdocs.yml").write_text("site_name: [", "utf-8")
    with pytest.raises(HostError):
        LiveSite(site / "mkdocs.yml")


# ---- the overview ----
def test_the_overview_lists_all_patterns(site: Path, live: LiveSite) -> None:
    write_pattern(site, "asked", pebble("Asked pebble", "testing") + "open: [Which eyes?]\n")
    write_pattern(site, "broken", BROKEN)
    look(live)
    html = page(live, "overview.html")
    cells = {}
    for line in re.findall(r"<tr>.*?</tr>", html)[1:]:
        found = re.findall(r"<t[hd][^>]*>(.*?)</t[hd]>", line)
        words = [" ".join(re.sub("<[^>]+>", " ", each).split()) for each in found]
        name = re.sub(r"( tester copy)? \S+pattern\.yaml$", "", words[0])
        cells[name] = words[1:]
    assert list(cells) == ["Asked pebble", "broken", "Pebble", "Rough pebble", "Wrong pebble"]
    assert cells["Wrong pebble"] == ["published", "1 error", "no report", "none"]
    assert cells["Asked pebble"] == ["testing", "nothing", "no report", "Which eyes?"]
    assert cells["broken"] == ["not to be read yet", "1 error", "no report", "none"]
    assert cells["Rough pebble"] == ["draft", "nothing", "no report", "none"]
    assert "5 patterns: 2 errors." in html
    assert (
        'href="patterns/wrong/index.html"' in html and 'href="patterns/wrong/tester.html"' in html
    )
    for other in (of("pebble"), "index.html", "glossary.html", "overview.html"):
        assert re.search(r'<a href="[./]*overview.html"[^>]*>Overview</a>', page(live, other)), (
            other
        )


def test_the_overview_tells_how_far_a_test_is(site: Path, live: LiveSite) -> None:
    testers = site / "patterns/pebble/testers"
    testers.mkdir()
    said = "pattern: pebble\nversion: 1.0.0\nrounds: {body: {R2: {kind: unclear, read: secret}}}\n"
    (testers / "a.yaml").write_text(said, "utf-8")
    look(live)
    html = page(live, "overview.html")
    assert "1 report, 1 for this version; 1 correction open" in html
    assert "secret" not in html
    (testers / "b.yaml").write_text("stuffing: 3", "utf-8")
    (testers / "decisions.yaml").write_text("body R2: {decision: later}", "utf-8")
    look(live)
    html = page(live, "overview.html")
    lines = "2 reports, 1 for this version; no correction open; 3 errors in what came back"
    assert lines in html


def test_what_the_host_warns_of_is_told(site: Path, live: LiveSite) -> None:
    (site / "site_src/index.md").write_text("# Tideline\n\n[Gone](gone.md)\n", "utf-8")
    look(live)
    assert "gone.md" in page(live, "overview.html")
    assert "Gone" in page(live, "index.html")


# ---- nothing of it in a build ----
def test_nothing_of_the_preview_gets_into_a_build(site: Path, live: LiveSite) -> None:
    shutil.rmtree(site / "patterns/wrong")
    look(live)
    page(live, of("pebble"))
    assert main(["build", str(site)]) == 0
    for name, data in contents(site / "site").items():
        assert "preview" not in name and "overview" not in name
        for trace in (b"preview.js", b"preview/", b"overview.html", b'class="margin', b'finding"'):
            assert trace not in data, name
    assert "patterns/rough/index.html" not in contents(site / "site")


def test_a_page_has_a_script_of_its_own_file_and_none_within(live: LiveSite) -> None:
    for address in (of("pebble"), "index.html", "overview.html", "glossary.html"):
        html = page(live, address)
        assert "default-src &#39;self&#39;" in html or "default-src 'self'" in html
        assert re.findall(r"<script(?![^>]*\bsrc=)(?![^>]*application/)[^>]*>", html) == []
        assert '<script src="/shore/preview/preview.js" defer' in html
    assert live.file_at("preview/preview.css") and live.file_at("preview/preview.js")
    assert (
        live.file_at("preview/banner.html") is None and live.file_at("preview/../base.html") is None
    )
