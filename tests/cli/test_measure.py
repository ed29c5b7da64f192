"""`roundproof measure`: figures for people and for programs."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from roundproof.cli.main import main

Said = pytest.CaptureFixture[str]

PATTERN = """\
title: Pebble
terms: US
yarns:
  slate: {weight: 3, ball: 50 g / 125 m, gauge: 20 sts x 20 rounds = 10 cm}
  chalk: {like: slate, gauge: 25 sts x 25 rounds = 10 cm}
pieces:
  upper:
    yarn: slate
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: inc in each st around (12)
      R3-R4: sc around (COUNT)
  under:
    yarn: chalk
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: inc in each st around (12)
assembly:
  - join: {edge: under, to: upper, by: whipstitch}
"""


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    folder = tmp_path / "patterns" / "pebble"
    folder.mkdir(parents=True)
    (folder / "pattern.yaml").write_text(PATTERN.replace("COUNT", "12"), encoding="utf-8")
    return folder


def test_a_table_of_pieces_the_joins_and_what_to_buy(capsys: Said) -> None:
    assert main(["measure", "pebble"]) == 0
    said = capsys.readouterr().out
    rows = {line.split()[0]: line.split() for line in said.splitlines() if line.strip()}
    assert rows["upper"][:4] == ["upper", "1", "42", "4"]
    # 12 stitches at 20 and at 25 to 10 cm
    assert "6.0 cm : 4.8 cm" in said or "4.8 cm : 6.0 cm" in said
    assert "12 : 12 stitches" in said and "15 for under" in said
    assert "slate" in rows and "chalk" in rows


def test_json_has_the_same_in_centimetres(capsys: Said) -> None:
    assert main(["measure", "--format", "json"]) == 0
    (pattern,) = json.loads(capsys.readouterr().out)["patterns"]
    assert (pattern["file"], pattern["title"]) == ("patterns/pebble/pattern.yaml", "Pebble")
    (join,) = pattern["joins"]
    assert join["edges"] == ["under", "upper"]
    assert join["counts"] == [12, 12]
    assert join["lengths_cm"] == [4.8, 6.0]
    assert join["fit"] == 0.8
    assert join["suggest"][0] == 15
    assert set(pattern["yarns"]["slate"]) >= {"metres", "grams", "balls", "estimated"}


def test_every_figure_shows_how_it_was_reached_on_demand(capsys: Said) -> None:
    assert main(["measure", "--working"]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "20 stitches and 20 rounds to 10 cm" in said


def test_time_is_told_piece_by_piece(capsys: Said) -> None:
    assert main(["measure", "pebble"]) == 0
    said = capsys.readouterr().out
    # upper: 42 stitches and half a stitch for 6 increases at 12 a minute, 6 and 2 minutes beside
    assert next(line for line in said.splitlines() if "upper" in line).endswith("0.1-0.3")
    assert "of them making up" in said
    main(["measure", "pebble", "--format", "json"])
    (pattern,) = json.loads(capsys.readouterr().out)["patterns"]
    parts = [each["hours"] for each in pattern["pieces"].values()]
    total = sum(low for low, _ in [*parts, pattern["making_up_hours"]])
    assert total == pytest.approx(pattern["hours"][0], abs=0.02)


@pytest.mark.parametrize("pace", ["24", "24 sts a minute"])
def test_the_pace_of_one_run(pace: str, capsys: Said) -> None:
    assert main(["measure", "pebble", "--pace", pace, "--why", "upper time"]) == 0
    assert "at 24 single crochets a minute (by --pace)" in " ".join(capsys.readouterr().out.split())


@pytest.mark.parametrize(
    ("pace", "why"), [("0", "`0`: that cannot be."), ("61", "more than 60."), ("brisk", "`brisk`.")]
)
def test_a_pace_that_cannot_be(pace: str, why: str, capsys: Said) -> None:
    assert main(["measure", "pebble", "--pace", pace]) == 2
    said = capsys.readouterr()
    assert said.out == "" and said.err.startswith("--pace takes stitches a minute, as in --pace 15")
    assert said.err.endswith(f"{why}\n")


def test_where_the_listed_balls_run_out(folder: Path, capsys: Said) -> None:
    listed = PATTERN.replace("ball: 50 g / 125 m", "ball: 0.4 g / 1 m, balls: 1")
    (folder / "pattern.yaml").write_text(listed.replace("COUNT", "12"), encoding="utf-8")
    assert main(["measure"]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "1 ball of slate is 1 m, and about 2 m are needed with 15 % to spare: it runs" in said
    main(["measure", "--format", "json"])
    (pattern,) = json.loads(capsys.readouterr().out)["patterns"]
    slate, chalk = pattern["yarns"]["slate"], pattern["yarns"]["chalk"]
    assert slate["listed_metres"] == 1
    assert slate["runs_out"] == {"piece": "upper", "copy": 1, "round": "R3"}
    assert (chalk["listed_metres"], chalk["runs_out"]) == (None, None)


# ---- another gauge ----
EYES = (
    "  - place: {item: safety eyes, piece: upper, between: [R2, R3], around: {st: 2, apart: 2}}\n"
    "notions: [{item: safety eyes, size: 6 mm, count: 2}]\n"
)


@pytest.fixture
def with_eyes(folder: Path) -> None:
    (folder / "pattern.yaml").write_text(PATTERN.replace("COUNT", "12") + EYES, encoding="utf-8")


@pytest.mark.usefixtures("with_eyes")
def test_sizes_in_another_gauge_beside_those_in_the_patterns(capsys: Said) -> None:
    said = [
        "--gauge",
        "slate: 8 sts x 8 rounds = 10 cm",
        "--gauge",
        "chalk: 20 sts x 20 r to 4 in",
    ]
    assert main(["measure", "pebble", *said]) == 0
    lines = capsys.readouterr().out.splitlines()
    whole = " ".join(" ".join(lines).split())
    assert "now in another yarn: 8 sts x 8 rounds = 10 cm for slate and 20 sts" in whole
    rows = {line.split()[0]: " ".join(line.split()[1:]) for line in lines if line.strip()}
    # 12 stitches of 5 mm, and of 12.5, are 1.91 cm and 4.77 cm across
    assert rows["upper"].startswith("1 1.3 → 3.2 cm 1.9 → 4.8 cm")
    assert rows["slate"] == "2 → 4 m estimated"
    assert rows["safety"] == "eyes 6 → 15 mm"
    assert "No grams or balls of slate and chalk: how another yarn is put up is not" in whole


@pytest.mark.usefixtures("with_eyes")
def test_another_gauge_for_programs(capsys: Said) -> None:
    gauge = "16 sts x 16 rounds = 10 cm"
    assert main(["measure", "--format", "json", "--gauge", f"slate: {gauge}"]) == 0
    (pattern,) = json.loads(capsys.readouterr().out)["patterns"]
    assert pattern["another_gauge"] == {"slate": gauge}
    assert pattern["notions"] == [{"item": "safety eyes", "size_mm": 7.5, "was_mm": 6.0}]
    assert pattern["pieces"]["upper"]["edge_cm"] == 7.5
    assert pattern["joins"][0]["lengths_cm"] == [4.8, 7.5]
    assert pattern["joins"][0]["suggest"][0] == 19
    slate = pattern["yarns"]["slate"]
    assert (slate["grams"], slate["balls"]) == (None, None)
    assert slate["unreliable"]["grams"] == "how another yarn is put up is not known"
    assert pattern["yarns"]["chalk"]["grams"] is not None


def test_the_finished_size_in_another_gauge(folder: Path, capsys: Said) -> None:
    # 1.91 and 1.53 cm across, then 3.06 both: as stated with the first, or with the two end to end
    text = "size: {width: 2 cm, span: 30 cm}\n" + PATTERN.replace("COUNT", "12")
    (folder / "pattern.yaml").write_text(text, encoding="utf-8")
    said = [
        "--gauge",
        "slate: 12.5 sts x 12.5 r = 10 cm",
        "--gauge",
        "chalk: 12.5 sts x 12.5 r = 10 cm",
    ]
    assert main(["measure", "pebble", *said]) == 0
    lines = [" ".join(line.split()) for line in capsys.readouterr().out.splitlines()]
    assert "finished width 2.0 → 3.2 cm" in lines and "finished span 30.0 → 53.3 cm" in lines
    assert main(["measure", "pebble", "--format", "json", *said]) == 0
    (pattern,) = json.loads(capsys.readouterr().out)["patterns"]
    assert pattern["finished"] == {
        "width": {"was_cm": 2.0, "cm": 3.2},
        "span": {"was_cm": 30.0, "cm": 53.33},
    }


def test_without_another_gauge_nothing_is_said_of_one(capsys: Said) -> None:
    main(["measure", "--format", "json"])
    (pattern,) = json.loads(capsys.readouterr().out)["patterns"]
    assert "another_gauge" not in pattern


def test_one_figure_in_another_gauge(capsys: Said) -> None:
    gauge = ["--gauge", "slate: 16 sts x 16 rounds = 10 cm"]
    assert main(["measure", "pebble", *gauge, "--why", "upper edge"]) == 0
    assert "12 stitches of 6.25 mm are 7.5 cm" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("gauge", "why"),
    [
        ("18 sts x 20 rounds = 10 cm", "The yarns slate and chalk are not all in one gauge."),
        ("moss: 18 sts x 20 rounds = 10 cm", "There is no yarn called `moss`."),
        ("loose", "`loose` is no gauge."),
    ],
)
def test_a_gauge_that_is_unclear(gauge: str, why: str, capsys: Said) -> None:
    assert main(["measure", "pebble", "--gauge", gauge]) == 2
    said = capsys.readouterr()
    assert said.out == "" and said.err.startswith(f"Pebble: {why}")


def test_errors_are_told_beside_the_figures(folder: Path, capsys: Said) -> None:
    (folder / "pattern.yaml").write_text(PATTERN.replace("COUNT", "13"), encoding="utf-8")
    assert main(["measure"]) == 0
    said = capsys.readouterr()
    assert "upper" in said.out
    assert said.err.startswith("Pebble: ") and "roundproof check" in said.err


def test_a_path_that_is_not_there(capsys: Said) -> None:
    assert main(["measure", "nowhere"]) == 2
    assert capsys.readouterr().err == "nowhere: There is no such file or folder.\n"


def test_json_of_a_path_that_is_not_there(capsys: Said) -> None:
    assert main(["measure", "nowhere", "--format", "json"]) == 2
    (pattern,) = json.loads(capsys.readouterr().out)["patterns"]
    assert (pattern["title"], pattern["pieces"]) == (None, {})


@pytest.mark.parametrize(
    ("name", "numbers", "formula", "source"),
    [
        ("upper height", "4 rounds of 5 mm", "each round rises by", "derived"),
        ("height of upper", "4 rounds of 5 mm", "each round rises by", "derived"),
        ("Upper  diameter", "12 stitches of 5 mm are 6.0 cm", "stitch width / pi", "derived"),
        ("under edge", "12 stitches of 4 mm are 4.8 cm", "last round x stitch width", "derived"),
        ("upper gauge", "20 stitches and 20 rounds", "gauge width / stitches", "the gauge of"),
        ("join under", "4.8 cm and 12 stitches", "longer / shorter - 1", "madalynne.com"),
        ("join under to upper", "4.8 cm", "longer / shorter - 1", "madalynne.com"),
        ("yarn slate", "as much as 42 single", "2 w + 4 x", "shinyhappyworld.com"),
        ("stuffing", "ml inside", "35, or 50 firmly", "woohobby.com"),
        ("time", "12 single crochets a minute", "12 a minute if not said", "scienceagogo.com"),
        ("upper time", "12 single crochets a minute", "12 a minute if", "scienceagogo.com"),
        ("upper hours", "12 single crochets a minute", "12 a minute if", "scienceagogo.com"),
        ("hours", "and making up", "12 a minute if", "scienceagogo.com"),
        ("making up", "seams and things placed", "12 a minute if", "scienceagogo.com"),
    ],
)
def test_one_figure_with_its_numbers_formula_and_source(
    name: str, numbers: str, formula: str, source: str, capsys: Said
) -> None:
    assert main(["measure", "pebble", "--why", name]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert said.startswith("Pebble: ")
    before, after = said.split(" Formula: ")
    assert numbers in before
    assert formula in after.split(" Source: ")[0] and source in after.split(" Source: ")[1]


@pytest.mark.parametrize(
    ("name", "near"),
    [
        ("uper height", "Did you mean upper height?"),
        ("yarn slat", "Did you mean yarn slate?"),
        ("stufing", "Did you mean stuffing?"),
        ("zzz", "The figures are: upper height, upper width, "),
    ],
)
def test_a_figure_that_is_not_there(name: str, near: str, capsys: Said) -> None:
    assert main(["measure", "pebble", "--why", name]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert f"\nThere is no figure called {name}. {near}" in said.err


def test_a_figure_that_cannot_be_told_says_why(folder: Path, capsys: Said) -> None:
    written = PATTERN.replace("R3-R4: sc around (COUNT)", "R3: wibble")
    (folder / "pattern.yaml").write_text(written, encoding="utf-8")
    assert main(["measure", "pebble", "--why", "upper height"]) == 0
    assert "Cannot be told: R3 could not be read." in capsys.readouterr().out


def test_one_figure_for_programs(capsys: Said) -> None:
    assert main(["measure", "pebble", "--why", "yarn slate", "--format", "json"]) == 0
    (figure,) = json.loads(capsys.readouterr().out)["figures"]
    assert figure["figure"] == "yarn slate" and figure["unreliable"] is None
    assert figure["working"] and figure["formula"] and figure["source"]


# ---- drawings ----
def test_drawings_are_written_with_their_words(folder: Path, capsys: Said) -> None:
    assert main(["measure", "--draw", "drawn"]) == 0
    written = sorted(path.name for path in Path("drawn/pebble").iterdir())
    assert {"chart-upper.svg", "chart-under.svg", "drawings.txt"} <= {*written}
    assert f"{len(written)} files written into drawn." in capsys.readouterr().out
    words = Path("drawn/pebble/drawings.txt").read_text("utf-8")
    assert words.startswith("Pebble: the drawings in words\n\n")
    assert "R2: inc around (12)." in words
    assert all(name in words for name in written if name.endswith(".svg"))
    before = {name: Path("drawn/pebble", name).read_bytes() for name in written}
    assert main(["measure", "--draw", "drawn"]) == 0
    assert before == {name: Path("drawn/pebble", name).read_bytes() for name in written}


def test_drawings_for_the_other_hand(folder: Path) -> None:
    assert main(["measure", "--draw", "one"]) == 0
    assert main(["measure", "--draw", "other", "--left-handed"]) == 0
    one, other = (
        Path(hand, "pebble/chart-upper.svg").read_text("utf-8") for hand in ("one", "other")
    )
    assert one != other
    assert "worked clockwise" in Path("other/pebble/drawings.txt").read_text("utf-8")


def test_a_folder_that_cannot_be_written_is_named(folder: Path, capsys: Said) -> None:
    Path("drawn").write_text("in the way", "utf-8")
    assert main(["measure", "--draw", "drawn"]) == 2
    assert "drawn" in capsys.readouterr().err
    assert Path("drawn").read_text("utf-8") == "in the way"
