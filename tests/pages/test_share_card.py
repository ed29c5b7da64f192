"""The picture beside links: its size, its words, its colours, and that no round is in it.

The Open Graph protocol (ogp.me) asks four properties of a page: title, type, image and url."""

from __future__ import annotations

import io
import re
from pathlib import Path

import pytest
from PIL import Image, ImageChops

from quality.kinds import every_page
from rendering import THEME, elements, proof_of
from roundproof.drawing.colour import GROUNDS
from roundproof.frozen import replace
from roundproof.pages.pattern import pattern_page
from roundproof.pages.share_card import HEIGHT, SEAL, STRIP, WIDTH, Card, card_of, share_card
from sites import built_quickly, pebble, write_pattern, write_site
from whole_patterns import PEBBLE

SOLD = PEBBLE.replace("status: published", "status: published\nshow: preview")


def card(text: str = PEBBLE) -> Card:
    proof = proof_of(text)
    return replace(card_of(proof, pattern_page(proof)), site="Tideline")


def picture(of: Card) -> Image.Image:
    return Image.open(io.BytesIO(share_card(of))).convert("RGB")


def differ(one: Image.Image, other: Image.Image) -> tuple[int, int, int, int] | None:
    """The box in which two pictures differ clearly."""
    far = ImageChops.difference(one, other).convert("L").point(lambda n: 255 * (n > 40))
    return far.getbbox()


def test_it_is_a_png_of_the_size_that_readers_show_whole() -> None:
    data = share_card(card())
    assert data.startswith(b"\x89PNG\r\n\x1a\n")
    assert Image.open(io.BytesIO(data)).size == (WIDTH, HEIGHT) == (1200, 630)
    assert len(data) < 60_000


def test_the_same_pattern_gives_the_same_bytes() -> None:
    assert share_card(card()) == share_card(card())


def test_the_drawing_is_in_the_strip_and_the_words_beside_it() -> None:
    whole = card()
    seen = picture(whole)
    without = differ(seen, picture(replace(whole, shades=(), drawing="<svg></svg>")))
    assert without and without[2] <= STRIP and without[2] - without[0] > 200
    retitled = differ(seen, picture(replace(whole, title="Flint")))
    assert retitled and retitled[0] > STRIP
    renamed = differ(seen, picture(replace(whole, site="Coast")))
    assert renamed and renamed[0] > STRIP and renamed[1] > HEIGHT - 120


def test_it_has_the_yarns_shades_and_the_site_s_tint() -> None:
    colours = {tone for count, tone in picture(card()).getcolors(1 << 20) or () if count > 300}

    def near(shade: tuple[int, int, int]) -> bool:
        return any(max(abs(a - b) for a, b in zip(shade, c, strict=True)) < 6 for c in colours)  # type: ignore[arg-type]

    assert near((0x6D, 0x76, 0x80)) and near(GROUNDS[0].strip)
    assert not near((0x10, 0x90, 0x40))
    tinted = replace(GROUNDS[0], strip=(0xF0, 0xD8, 0xE0))
    own = Image.open(io.BytesIO(share_card(card(), tinted))).convert("RGB")
    pixel = own.getpixel((8, 8))
    assert max(abs(a - b) for a, b in zip(pixel, tinted.strip, strict=True)) < 4  # type: ignore[arg-type]


def test_rounds_that_are_sold_are_not_in_the_drawing() -> None:
    """A line for each round stands in the drawing of a full pattern, none in that of a preview."""
    assert card().drawing.count("seam") > 3
    assert card(SOLD).drawing.count("seam") == 0


def test_only_the_species_is_named() -> None:
    assert card().name == "Lapis fictus"


@pytest.mark.parametrize(
    "title", ["", "W" * 300, "word " * 60, "カニ", "a\nb\tc", "<&>\"'", "\x00\ud800", "Ä é ñ"]
)
def test_any_title_gives_a_picture_without_overrunning_it(title: str) -> None:
    seen = picture(Card(title, title, title))
    assert seen.size == (WIDTH, HEIGHT)
    edge = seen.crop((WIDTH - 40, 0, WIDTH, HEIGHT)).getcolors()
    assert edge and len(edge) == 1  # nothing reaches the margin


def test_what_the_font_lacks_is_left_out_rather_than_boxed() -> None:
    assert differ(picture(Card("カニ")), picture(Card(""))) is None


def test_the_seal_is_the_theme_s() -> None:
    assert f'd="{SEAL}"' in (THEME / "parts/signs.html").read_text("utf-8")
    assert f'd="{SEAL}"' in (THEME / "icon.svg").read_text("utf-8")


# ---- on a site ----
@pytest.fixture
def site(tmp_path: Path) -> Path:
    site = write_site(tmp_path / "tideline", pebble=pebble())
    write_pattern(site, "secret", pebble("Secret", status="testing"))
    built_quickly(site)
    return site


def properties(page: Path) -> dict[str, str]:
    found = elements(page.read_text("utf-8"))
    metas = (given for tag, given in found if tag == "meta" and "property" in given)
    return {given["property"] or "": given["content"] or "" for given in metas}


def test_every_listed_page_has_the_four_properties_and_its_picture_is_there(site: Path) -> None:
    root = "https://example.org/shore/"
    for address in every_page(site / "site"):
        told = properties(site / "site" / address)
        text = (site / "site" / address).read_text("utf-8")
        if address == "404.html" or 'name="robots" content="noindex"' in text:
            assert told == {}, address
            continue
        assert {"og:title", "og:type", "og:image", "og:url"} <= told.keys(), address
        assert told["og:url"] == root + address
        image = site / "site" / told["og:image"].removeprefix(root)
        assert Image.open(image).size == (1200, 630)
        assert all(told.values()), address
    own = properties(site / "site/patterns/pebble/index.html")
    assert own["og:image"] == f"{root}patterns/pebble/share.png" and own["og:type"] == "article"


def test_a_pattern_that_is_not_for_everyone_has_no_picture(site: Path) -> None:
    assert (site / "site/patterns/secret/index.html").exists()
    assert not (site / "site/patterns/secret/share.png").exists()


def test_a_site_without_an_address_tells_no_other_of_itself(site: Path) -> None:
    file = site / "mkdocs.yml"
    file.write_text(re.sub("site_url.*\n", "", file.read_text("utf-8")), "utf-8")
    (site / "site").rename(site / "before")
    built_quickly(site)
    assert properties(site / "site/patterns/pebble/index.html") == {}
    assert not (site / "site/patterns/pebble/share.png").exists()
