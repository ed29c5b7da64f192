"""`roundproof new`: names however odd, and a clear word where it cannot be done."""

from io import BytesIO, TextIOWrapper
from pathlib import Path

import pytest

from roundproof.cli.main import main

Said = pytest.CaptureFixture[str]


@pytest.fixture
def site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Said) -> Path:
    """A new site, in whose folder the test stands."""
    assert main(["new", "site", str(tmp_path / "by-the_shore")]) == 0
    monkeypatch.chdir(tmp_path / "by-the_shore")
    capsys.readouterr()
    return tmp_path / "by-the_shore"


def test_a_new_site_says_what_comes_next(tmp_path: Path, capsys: Said) -> None:
    assert main(["new", "site", str(tmp_path / "shore")]) == 0
    said = capsys.readouterr().out
    for step in ("patterns/net-float/pattern.yaml", "roundproof build", "roundproof serve"):
        assert step in said


@pytest.mark.parametrize(
    ("more", "title"), [([], "By the shore"), (["--title", '"Tide"\n& line'], '"Tide" & line')]
)
def test_a_site_is_called_by_its_folder_or_as_told(
    tmp_path: Path, more: list[str], title: str
) -> None:
    assert main(["new", "site", str(tmp_path / "by-the_shore"), *more]) == 0
    assert (
        (tmp_path / "by-the_shore/site_src/index.md").read_text("utf-8").startswith(f"# {title}\n")
    )


def test_a_new_pattern_lies_in_a_folder_of_its_name(site: Path, capsys: Said) -> None:
    assert main(["new", "pattern", "Grandma's crab"]) == 0
    assert (site / "patterns/grandmas-crab/pattern.yaml").is_file()
    assert "patterns/grandmas-crab/pattern.yaml is a draft" in capsys.readouterr().out
    assert main(["check"]) == 0


@pytest.mark.parametrize("name", ["../../crab", "/crab", "crab\0", "..\\crab", "CRAB\n"])
def test_no_name_leads_out_of_the_patterns(site: Path, name: str) -> None:
    assert main(["new", "pattern", name]) == 0
    assert (site / "patterns/crab/pattern.yaml").is_file()


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (["pattern", "カニ"], "--folder crab"),
        (["pattern", ""], "makes no address"),
        (["pattern", "Net float"], "left as it was"),
        (["pattern", "Crab", "--in", "nowhere"], "is no site"),
        (["site", "."], "nothing was written"),
        (["site", "mkdocs.yml"], "is a file"),
        (["site", "mkdocs.yml/below"], "cannot be written"),
        (["pattern", "Crab", "--from", "nowhere.txt"], "nowhere.txt cannot be read"),
        (["pattern", "Crab", "--from", "patterns"], "is no file of notes"),
        (["pattern", "Crab", "--from", "a\0b"], "cannot be read"),
        (["pattern", "Net float", "--from", "README.md"], "left as it was"),
        (["sight", "x"], "choose from site, pattern"),
        ([], "site|pattern"),
    ],
)
def test_what_cannot_be_done_is_said(site: Path, capsys: Said, words: list[str], why: str) -> None:
    before = sorted(site.rglob("*"))
    assert main(["new", *words]) == 2
    told = capsys.readouterr()
    assert why in told.err.replace("'", "")
    assert "Traceback" not in told.err
    assert sorted(site.rglob("*")) == before


def test_a_name_in_other_letters_takes_a_folder_as_told(site: Path) -> None:
    assert main(["new", "pattern", "カニ", "--folder", "crab"]) == 0
    assert 'title: "カニ"' in (site / "patterns/crab/pattern.yaml").read_text("utf-8")


# ---- from notes ----
NOTES = """\
Shore crab

Materials: sand DK cotton, 3 mm hook, 2 x 6 mm safety eyes

Body
R1: 6 sc in magic ring (6)
R2: inc x 6 (12)
R3: blip (12)

Legs (make 8)
R1: 5 sc in magic ring (5)
Fasten off.

Assembly
Sew the legs to the body.

About me
I live by the sea.
"""
TOLD = """\
patterns/crab/pattern.yaml is a draft made from notes.txt.

  title      Shore crab (line 1)
  terms      US (by the names of the stitches)
  pieces     body: 3 rounds, 1 line to put right
             legs: 1 round, make 8
  yarns      sand
  hook       3 mm
  notions    2 safety eyes 6 mm
  assembly   kept as words (lines 14-15)
  to settle  Put the assembly into steps: it stands as words below the pieces.
  no place   2 lines, kept as comments at the end:
             lines 17-18     About me
  next       roundproof check patterns/crab
"""


def test_notes_become_a_draft_and_it_is_told_what_they_gave(site: Path, capsys: Said) -> None:
    Path("notes.txt").write_text(NOTES, "utf-8")
    assert main(["new", "pattern", "crab", "--from", "notes.txt"]) == 0
    assert capsys.readouterr().out.replace("\\", "/") == TOLD
    assert main(["check", "patterns/crab"]) == 1
    assert "blip" in capsys.readouterr().out


def test_empty_notes_are_a_draft_without_rounds(site: Path, capsys: Said) -> None:
    Path("notes.txt").write_bytes(b"")
    assert main(["new", "pattern", "crab", "--from", "notes.txt"]) == 0
    assert "none found" in capsys.readouterr().out
    assert main(["check", "patterns/crab"]) == 0


def test_notes_may_come_through_a_pipe(
    site: Path, monkeypatch: pytest.MonkeyPatch, capsys: Said
) -> None:
    monkeypatch.setattr("sys.stdin", TextIOWrapper(BytesIO(NOTES.encode())))
    assert main(["new", "pattern", "crab", "--from", "-"]) == 0
    assert "from standard input." in capsys.readouterr().out


def test_notes_follow_the_terms_of_the_site(site: Path, capsys: Said) -> None:
    Path("notes.txt").write_text("R1: 6 dc in magic ring (6)\n", "utf-8")
    Path("patterns/defaults.yaml").write_text("terms: UK\n", "utf-8")
    assert main(["new", "pattern", "crab", "--from", "notes.txt"]) == 0
    assert "UK (as defaults.yaml has it" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("data", "why"),
    [
        (b"%PDF-1.7", "is a PDF"),
        (b"PK\x03\x04", "word processor"),
        (b"{\\rtf1", "word processor"),
        (b"\x89PNG\r\n", "is a picture"),
        (b"\x01\x02\x00\x00\xff\x00\x00\xfe", "is no text"),
        (b"a\n" * 1_500_000, "too long"),
    ],
)
def test_what_is_no_text_is_refused(site: Path, capsys: Said, data: bytes, why: str) -> None:
    Path("notes").write_bytes(data)
    assert main(["new", "pattern", "crab", "--from", "notes"]) == 2
    assert why in capsys.readouterr().err
    assert not Path("patterns/crab").exists()


def test_nothing_in_notes_moves_the_cursor(site: Path, capsys: Said) -> None:
    Path("notes.txt").write_text("\x1b[2Jhey\u202e you, look.\n\nR1: 6 sc in magic ring", "utf-8")
    assert main(["new", "pattern", "crab", "--from", "notes.txt"]) == 0
    said = capsys.readouterr().out
    assert "\x1b" not in said and "\u202e" not in said
