"""Booklets to print beside the pages of a site, those of published patterns alone."""

from __future__ import annotations

import io
import re
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

import pikepdf
import pytest
from PIL import Image
from pypdf import PdfReader

from roundproof.cli.main import main
from roundproof.making import FEW
from roundproof.pages.paper.beside import EDITIONS
from sites import SETTINGS, contents, pebble, previewed, write_photo, write_site

FILES = [file for file, _, _ in EDITIONS]
PHOTO = "{file: rim.jpg, alt: A grey stone on sand, by: Roundproof examples}"


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = write_site(
        tmp_path_factory.mktemp("booklets") / "tideline",
        shown=pebble("Shown pebble", photos=PHOTO),
        tested=pebble("Tested pebble", "testing"),
        sold=pebble("Sold pebble").replace("terms: US", "terms: US\nshow: preview"),
        uk=pebble("Grey pebble").replace("terms: US", "terms: UK").replace("sc", "dc"),
    )
    write_photo(folder, "shown", "rim.jpg")
    assert main(["build", str(folder)]) == 0
    return folder


@pytest.fixture(scope="module")
def built(site: Path) -> dict[str, bytes]:
    return contents(site / "site")


def words(data: bytes) -> str:
    pages = PdfReader(io.BytesIO(data)).pages
    return " ".join(" ".join(page.extract_text() for page in pages).split())


def test_published_patterns_have_them_and_no_others(built: dict[str, bytes]) -> None:
    found = {name for name in built if name.endswith(".pdf")}
    assert found == {f"patterns/{name}/{file}" for name in ("shown", "uk") for file in FILES}


def test_their_page_leads_to_them_and_says_how_large_they_are(built: dict[str, bytes]) -> None:
    page = built["patterns/shown/index.html"].decode()
    for file, label, _ in EDITIONS:
        assert f'<a href="{file}" type="application/pdf">{label}</a>' in page
        assert f"{round(len(built[f'patterns/shown/{file}']) / 1000)}\u00a0kB" in page
    for name in ("tested/index", "tested/tester", "sold/index", "shown/tester"):
        assert ".pdf" not in built[f"patterns/{name}.html"].decode()


@pytest.mark.parametrize("file", FILES)
def test_they_can_be_read_out_and_are_in_the_terms_of_the_pattern(
    built: dict[str, bytes], file: str
) -> None:
    for name, title, terms in (("shown", "Shown pebble", "US"), ("uk", "Grey pebble", "UK")):
        data = built[f"patterns/{name}/{file}"]
        with pikepdf.open(io.BytesIO(data)) as pdf, pdf.open_metadata() as told:
            assert told["pdfuaid:part"] == "1" and told["dc:title"] == title
        text = words(data)
        assert f"{terms} terms" in text
        assert ("6 sc in magic ring" if terms == "US" else "6 dc in magic ring") in text


def test_the_photo_of_the_page_is_in_them(built: dict[str, bytes]) -> None:
    with pikepdf.open(io.BytesIO(built["patterns/shown/booklet-a4.pdf"])) as pdf:
        images = [image for page in pdf.pages for image in page.get_images()]
    assert images


def codes(data: bytes) -> list[str]:
    """What a camera reads off a booklet's pages: QR codes (ISO/IEC 18004), by ZXing, which is
    another hand than the one that draws them."""
    import zxingcpp

    with TemporaryDirectory() as folder:
        printed = ["pdftoppm", "-gray", "-r", "100", "-png", "-", f"{folder}/page"]
        subprocess.run(printed, input=data, check=True)
        images = [Image.open(file) for file in sorted(Path(folder).glob("*.png"))]
        return [code.text for image in images for code in zxingcpp.read_barcodes(image)]


@pytest.mark.parametrize("file", FILES)
def test_corrections_are_looked_up_on_the_pattern_s_page(
    built: dict[str, bytes], file: str
) -> None:
    data = built[f"patterns/shown/{file}"]
    address = "https://example.org/shore/patterns/shown/index.html"
    assert codes(data) == [address]
    with pikepdf.open(io.BytesIO(data)) as pdf:
        notes = [note for page in pdf.pages for note in page.get("/Annots", [])]
        assert address in {str(note["/A"]["/URI"]) for note in notes if "/A" in note}


def test_a_site_without_an_address_names_the_contact_alone(tmp_path: Path) -> None:
    folder = write_site(tmp_path / "tideline", shown=pebble())
    (folder / "mkdocs.yml").write_text(re.sub("site_url.*\n", "", SETTINGS), "utf-8")
    assert main(["build", str(folder)]) == 0
    data = (folder / "site/patterns/shown/booklet-a4.pdf").read_bytes()
    assert codes(data) == ["https://example.org/errata"]
    assert "pattern's page" not in words(data)


def test_the_preview_makes_none(site: Path) -> None:
    shown = contents(previewed(site))
    assert "patterns/shown/index.html" in shown
    assert [name for name in shown if name.endswith(".pdf")] == []


def test_after_a_booklet_was_made_processes_start_anew(tmp_path: Path) -> None:
    """A copy of a process in which Typst has worked would wait for its threads without end."""
    folder = write_site(tmp_path / "tideline", a=pebble())
    more = tmp_path / "more"
    for number in range(2 * FEW):
        (more / f"p{number}").mkdir(parents=True)
        (more / f"p{number}/pattern.yaml").write_text(pebble(f"Pebble {number}"), "utf-8")
    run = [sys.executable, "-c", TWO_BUILDS, str(folder), str(more)]
    done = subprocess.run(run, capture_output=True, timeout=120)
    assert done.returncode == 0, done.stderr
    assert len(list(folder.glob("site/patterns/*/booklet-a4.pdf"))) == 2 * FEW + 1


TWO_BUILDS = """
import sys
from pathlib import Path
from tempfile import TemporaryDirectory
from roundproof.cli.main import main
from roundproof.making import FEW

site, more = map(Path, sys.argv[1:])
assert main(["build", str(site)]) == 0
assert "typst" in sys.modules
for folder in list(more.iterdir()):
    folder.rename(site / "patterns" / folder.name)
assert main(["build", str(site)]) == 0
"""
