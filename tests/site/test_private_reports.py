"""What testers send back is private: of a whole built site no file has a word of it, but for
counts and measures in sum."""

from __future__ import annotations

import zlib
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image
from PIL.PngImagePlugin import PngImageFile
from pypdf import PdfReader

from roundproof.cli.main import main
from roundproof.testers.schema import REPORT
from sites import contents, pebble, write_site

MARK = "Qx7private"
"""In every free text, name and file name of the reports; it is in nothing else."""
REPORT_OF = """\
format: 1
pattern: pebble
version: 1.0.0
tester: "{mark}-who-{n}"
started: 2031-11-0{n}
finished: 2031-11-1{n}
hook: 3 mm
hook_make: "{mark} hook make"
yarns: {{slate: {{yarn: "{mark} yarn", ball: 50 g / 100 m, before: 5{n} g, after: 47 g}}}}
stuffing: 1.{n} g
gauge: {{slate: {{stitches: 22, rounds: 24, over: 10 cm}}}}
gauge_met: nearly
size: {{height: 1.7 cm, width: 2.6 cm, points: "{mark} points"}}
time: {{crochet: {n} h, assembly: 30 min}}
rounds:
  body:
    R2: "{mark} remark"
    R3: {{kind: unclear, read: "{mark} read", did: "{mark} did", instead: "{mark} instead"}}
corrections:
  - {{where: "{mark} where", kind: wrong count, read: "{mark} more", did: "{mark} more did"}}
stitches: {{body: 107}}
guessed: "{mark} guessed"
materials: "{mark} materials"
abbreviations: "{mark} abbreviations"
photos_enough: no
difficulty: harder than said
hand: left
reading_aids: "{mark} aids"
pictures: {{taken: ["{mark} view"], shown: yes, credit: "{mark} credit"}}
"""
DECISIONS = 'body R3: {{decision: accepted, because: "{mark} because", in: 1.0.1}}\n'


@pytest.fixture(scope="module", params=["published", "testing"])
def site(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("private") / "tideline"
    write_site(folder, pebble=pebble(status=request.param))
    testers = folder / "patterns/pebble/testers"
    testers.mkdir()
    for n in (1, 2):
        text = REPORT_OF.format(mark=MARK, n=n)
        (testers / f"{MARK}-{n}.yaml").write_text(text, "utf-8")
    (testers / "decisions.yaml").write_text(DECISIONS.format(mark=MARK), "utf-8")
    (testers / f"{MARK}-broken.yaml").write_text(f"guessed: [{MARK} broken", "utf-8")
    Image.new("RGB", (9, 9)).save(testers / f"{MARK}.png")
    built(folder)
    return folder


def built(folder: Path) -> None:
    """Links are followed elsewhere."""
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr("roundproof.cli.build._follow_links", lambda *_: None)
        assert main(["build", str(folder)]) == 0


def words_of(data: bytes, name: str) -> bytes:
    """A file as it is, and what is packed in it: a sitemap, the texts of a picture or a PDF."""
    if name.endswith(".gz"):
        return data + zlib.decompress(data, 31)
    if name.endswith(".pdf"):
        pdf = PdfReader(BytesIO(data))
        texts = [page.extract_text() for page in pdf.pages]
        return data + repr((texts, pdf.metadata)).encode()
    if name.endswith(".png"):
        picture = Image.open(BytesIO(data))
        assert isinstance(picture, PngImageFile)
        return data + repr((picture.text, picture.info)).encode()
    return data


def test_every_key_of_a_report_is_in_these() -> None:
    text = REPORT_OF.format(mark=MARK, n=1)
    assert [key.name for key in REPORT.keys if f"\n{key.name}:" not in f"\n{text}"] == []


def test_no_file_of_the_site_has_a_word_of_them(site: Path) -> None:
    files = contents(site / "site")
    assert {"index.html", "js/search-index.js", "patterns/pebble/index.html"} <= files.keys()
    for name, data in files.items():
        assert MARK not in name and "testers" not in name.split("/")
        words = words_of(data, name)
        assert MARK.lower().encode() not in words.lower(), name
        assert b"2031-11" not in words and b"November 2031" not in words, name


def test_the_share_card_and_feed_are_there_to_be_searched(site: Path) -> None:
    names = contents(site / "site").keys()
    if "status: published" in (site / "patterns/pebble/pattern.yaml").read_text("utf-8"):
        beside = ("share.png", "booklet-a4.pdf")
        assert {"feed.xml", *(f"patterns/pebble/{name}" for name in beside)} <= names


def test_what_was_measured_stands_there_in_sum(site: Path) -> None:
    page = contents(site / "site")["patterns/pebble/index.html"].decode()
    # 51 - 47 and 52 - 47 g, each of 100 m / 50 g; 1.5 and 2.5 h
    assert "Measured by 2\u00a0testers: 9\u00a0m (8–10), 4.5\u00a0g (4–5)." in page
    assert "estimated; measured by 2\u00a0testers: 2\u00a0h (1.5–2.5)" in page


def test_a_site_is_the_same_whatever_the_words_are(site: Path) -> None:
    """Only figures reach it: with every word changed not a byte is another."""
    before = contents(site / "site")
    for file in (site / "patterns/pebble/testers").glob("*.yaml"):
        file.write_text(file.read_text("utf-8").replace(MARK, "Zz9other"), "utf-8")
    built(site)
    assert contents(site / "site") == before
