"""`roundproof new`: names however odd, and a clear word where it cannot be done."""

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
