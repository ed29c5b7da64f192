"""`roundproof work`: how a round was worked, stitch by stitch."""

from __future__ import annotations

from pathlib import Path

import pytest

from roundproof.cli.main import main

Said = pytest.CaptureFixture[str]

SEAL = """\
terms: US
yarns: {slate: {colour: {name: slate grey}}, chalk: {colour: {name: chalk}}}
pieces:
  leg:
    make: 2
    yarn: slate
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: BLO: inc, with chalk 4 sc, 1 dec (6)
      R3-R4: sc around (6)
  torso:
    yarn: slate
    rounds: |
      R1: 6 sc around first leg, ch 2, 6 sc around second leg, 2 sc along ch (16)
      R2: (7 sc, inc) x 2 (19)
"""


@pytest.fixture
def seal(tmp_path: Path) -> str:
    path = tmp_path / "seal.yaml"
    path.write_text(SEAL, "utf-8")
    return str(path)


def told(capsys: Said, *words: str) -> str:
    assert main(["work", *words]) == 0
    return capsys.readouterr().out


def test_a_round_is_told_stitch_by_stitch(seal: str, capsys: Said) -> None:
    said = told(capsys, seal, "leg", "R2")
    assert "Goes into the 6 stitches of R1, uses 7 and makes 7. The text states 6." in said
    rows = [line.split() for line in said.splitlines() if line.startswith("  ")]
    assert rows[1:] == [
        ["1-2", "2", "sc", "st", "1", "BLO", "slate", "grey"],
        ["3-6", "sc", "st", "2-5", "BLO", "chalk"],
        ["7", "sc", "st", "6", "and", "7", "BLO", "chalk"],
    ]
    assert "The front loops of" in said


def test_pieces_joined_on_the_hook_are_named(seal: str, capsys: Said) -> None:
    said = told(capsys, seal, "Torso", "1")
    assert "first leg st 1-6" in said and "second leg st 1-6" in said
    assert "far side of ch 1-2" in said
    assert "uses 12 and makes 16" in said


def test_a_range_and_the_words_read_aloud(seal: str, capsys: Said) -> None:
    said = told(capsys, seal, "leg", "R4")
    said = " ".join(said.split())
    assert "Each round of R3-R4 is worked so." in said
    assert "Rounds 3 to 4: single crochet in each stitch around." in said


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["leg", "R9"], "There is no R9 in leg. The rounds of leg go up to R4."),
        (["torsso", "R1"], "There is no piece `torsso`. Did you mean torso?"),
        (["leg", "seven"], "seven is no round: write R7, or 7."),
    ],
)
def test_what_is_not_there_is_said(seal: str, words: list[str], said: str, capsys: Said) -> None:
    assert main(["work", seal, *words]) == 2
    assert capsys.readouterr().err.strip() == said


def test_a_folder_of_several_patterns_is_not_one(tmp_path: Path, capsys: Said) -> None:
    for name in ("a", "b"):
        (tmp_path / name).mkdir()
        (tmp_path / name / "pattern.yaml").write_text(SEAL, "utf-8")
    assert main(["work", str(tmp_path), "leg", "R1"]) == 2
    assert "is not one pattern" in capsys.readouterr().err


def test_a_file_that_is_not_there(tmp_path: Path, capsys: Said) -> None:
    assert main(["work", str(tmp_path / "none.yaml"), "leg", "R1"]) == 2
    assert capsys.readouterr().err


def test_a_long_round_is_cut_and_can_be_had_whole(tmp_path: Path, capsys: Said) -> None:
    path = tmp_path / "long.yaml"
    path.write_text(
        "terms: US\npieces:\n  a: |\n    R1: 200 sc in magic ring\n    R2: (sc, inc) around\n"
    )
    said = told(capsys, str(path), "a", "R2")
    assert "… and 80 more rows: --all prints them." in said
    assert "st 200" in told(capsys, str(path), "a", "R2", "--all")
