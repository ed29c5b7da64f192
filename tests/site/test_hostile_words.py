"""Whatever a pattern's words are, nothing of them is carried out and nothing breaks."""

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest
from PIL import Image

from roundproof.cli.main import main
from sites import contents, pebble, write_pattern, write_photo, write_site

ATTACK = (
    "</title></script><script>alert(1)</script><img src=x onerror=alert(2)>{{ 7777*3 }}{% x %}'\\\""
)
QUOTED = "'" + ATTACK.replace("'", "''") + "'"


class Tags(HTMLParser):
    """What a browser would make of a page: its tags with their attributes."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str | None]]] = []
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, dict(attrs)))


def assert_harmless(site: Path) -> None:
    for name, data in contents(site).items():
        if not name.endswith(".html"):
            continue
        for tag, attributes in Tags(data.decode()).found:
            ours = re.fullmatch(r"[./a-z]*js/[a-z-]+\.js", attributes.get("src") or "")
            plain = re.fullmatch(r"application/(ld\+)?json", attributes.get("type") or "")
            assert tag != "script" or ours or plain, name
            assert attributes.get("src") != "x", name
            assert "style" not in attributes, name
            assert not [a for a in attributes if a.startswith("on")], name
            assert not (attributes.get("href") or "").lower().startswith("javascript:"), name
        assert "23331" not in data.decode(), name  # a template worked it out


def hostile() -> str:
    text = pebble(photos="{file: a.png, alt: " + QUOTED + ", by: " + QUOTED + "}")
    for key in ("title", "summary", "designer", "care", "contact", "licence"):
        text = re.sub(rf"(?m)^{key}: .*$", lambda _, key=key: f"{key}: {QUOTED}", text)
    text = text.replace("{note: Keep it from young children.}", "{note: " + QUOTED + "}")
    text = text.replace("name: slate grey", "name: " + QUOTED).replace(
        "name: Body", "name: " + QUOTED
    )
    text = text.replace("100 % cotton", QUOTED).replace("note: First edition.", f"note: {QUOTED}")
    text = text.replace("tapestry needle", QUOTED)
    return text.replace("      Stuff.\n", f"      Stuff.\n      Note: {ATTACK}\n")


def test_html_and_script_in_every_text_is_printed_as_text(tmp_path: Path) -> None:
    site = write_site(tmp_path / "tideline", pebble=pebble(), hostile=hostile())
    write_photo(site, "hostile", "a.png")
    text = (site / "patterns/hostile/pattern.yaml").read_text("utf-8")
    for status in ("published", "testing"):
        write_pattern(site, "hostile", text.replace("status: published", f"status: {status}"))
        main(["build", str(site)])
        assert_harmless(site / "site")
    page = (site / "site/patterns/hostile/index.html").read_text("utf-8")
    assert "&lt;script&gt;alert(1)&lt;/script&gt;" in page


def test_a_site_of_that_name_is_harmless_too(tmp_path: Path) -> None:
    site = write_site(tmp_path / "tideline", pebble=pebble())
    settings = (site / "mkdocs.yml").read_text("utf-8").replace("Tideline", QUOTED)
    (site / "mkdocs.yml").write_text(settings, "utf-8")
    assert main(["build", str(site)]) == 0
    assert_harmless(site / "site")


def test_links_of_a_summary_lead_to_the_web_alone(tmp_path: Path) -> None:
    text = pebble().replace("A pebble, grey and round.", "'[a](javascript:alert(1)) [b](data:x,y)'")
    site = write_site(tmp_path / "tideline", pebble=text)
    assert main(["build", str(site)]) == 0
    assert_harmless(site / "site")
    assert b"data:x" not in contents(site / "site")["patterns/pebble/index.html"]


@pytest.mark.parametrize("folder", ["カニ", "a b & c", "-rf", "<i>x"])
def test_odd_names_of_folders_make_clean_addresses(tmp_path: Path, folder: str) -> None:
    site = write_site(tmp_path / "tideline")
    write_pattern(site, folder, pebble())
    assert main(["build", str(site)]) == 0
    pages = [name for name in contents(site / "site") if name.endswith("tester.html")]
    assert len(pages) == 1
    assert re.fullmatch(r"patterns/[a-z0-9-]+/tester\.html", pages[0])


def test_camera_data_is_gone_from_the_site(tmp_path: Path) -> None:
    exif = Image.Exif()
    exif[0x010F] = "Camera maker"
    exif.get_ifd(0x8825).update({1: "N", 2: (54.0, 30.0, 0.0)})
    photo = "{file: shore.jpg, alt: A grey pebble on the sand, by: Tideline, licence: CC0}"
    site = write_site(tmp_path / "tideline", pebble=pebble(photos=photo))
    write_photo(site, "pebble", "shore.jpg", exif=exif)
    assert main(["build", str(site)]) == 0
    photos = {n: d for n, d in contents(site / "site").items() if "/photos/" in n}
    assert sorted(n.rsplit("/")[-1] for n in photos) == [
        "shore-1280.webp", "shore-480.webp", "shore-880.jpg", "shore-880.webp",
    ]  # fmt: skip
    for data in photos.values():
        assert b"Camera maker" not in data and b"Exif" not in data
    page = (site / "site/patterns/pebble/index.html").read_text("utf-8")
    sizes = ", ".join(f"photos/shore-{width}.webp {width}w" for width in (480, 880, 1280))
    assert f'srcset="{sizes}"' in page
