"""Input that is broken, huge or meant to do harm: a clear word with its place, an exit code as
promised, no traceback, and nothing of it carried out."""

from __future__ import annotations

import json
import os
import tracemalloc
from pathlib import Path
from typing import Any

import pytest

from roundproof.cli.main import main
from sarif_schema import valid_log

Said = pytest.CaptureFixture[str]

SCRIPT = "<script>document.title='owned'</script><img src=x onerror=alert(1)>"


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    folder = tmp_path / "patterns" / "odd"
    folder.mkdir(parents=True)
    return folder


def checked(capsys: Said, *words: str) -> tuple[int, dict[str, Any], str]:
    """The exit code of `check`, what it says as JSON and as text; as SARIF it is valid. Nothing
    may go to standard error, where only a fault of our own would be told."""
    code = main(["check", "--format", "json", *words])
    told = json.loads(capsys.readouterr().out)
    assert main(["check", "--format", "sarif", *words]) == code
    (run,) = valid_log(capsys.readouterr().out)["runs"]
    assert run["invocations"][0]["executionSuccessful"] == (code != 2)
    assert main(["check", *words]) == code
    said = capsys.readouterr()
    assert said.err == ""
    return code, told, said.out


def messages(told: dict[str, Any]) -> list[str]:
    return [f["message"] for each in told["patterns"] for f in each["findings"]]


# ---- files that cannot be used: exit code 2 ----
@pytest.mark.parametrize(
    ("data", "line", "said"),
    [
        (b"", 1, "empty"),
        (b"  \n\n \t \n", 1, "empty"),
        (b"\xef\xbb\xbf", 1, "empty"),
        (b"# nothing but a comment\n", 1, "comments"),
        (b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", 1, "not a text file"),
        (b"title: Caf\xe9\n", 1, "UTF-8"),
        (b"\xff\xfet\0i\0t\0l\0e\0", 1, "not a text file"),
        (b"title: 'Pebble\nterms: US\n", 1, "quotation mark"),
        (b"pieces: {a: |\n", 1, ""),
        (b"title: Pebble\n\tterms: US\n", 2, "tab"),
        (b"title: Peb\x07ble\n", 1, "cannot be seen"),
        (b"- a\n- b\n", 1, "keys"),
        (b"just words\n", 1, ""),
        (b"--- \ntitle: a\n---\ntitle: b\n", 3, "second"),
        (b"title: " + b"[" * 5000 + b"]" * 5000, 1, "deep"),
        (b"{a: " * 5000 + b"}" * 5000, 1, "deep"),
        (b"- " * 5000 + b"a", 1, "deep"),
        (b"? " * 5000 + b"a", 1, "deep"),
        (b"\n".join(b" " * i + b"k:" for i in range(1000)), None, "deep"),
        (b"k: [" + b"1," * 60_000 + b"]", None, "values"),
        (b"%YAML 9.9\n---\ntitle: a\n", 1, ""),
        (b"a: &a [x,x]\nb: &b [*a,*a]\nc: &c [*b,*b]\nd: *c\n@", 5, ""),
    ],
)
def test_a_file_that_is_no_pattern(
    folder: Path, data: bytes, line: int | None, said: str, capsys: Said
) -> None:
    (folder / "pattern.yaml").write_bytes(data)
    code, told, text = checked(capsys, "patterns")
    assert code == 2
    (pattern,) = told["patterns"]
    assert (pattern["file"], pattern["title"]) == ("patterns/odd/pattern.yaml", None)
    assert pattern["pieces"] == []
    finding = pattern["findings"][-1]
    assert said in finding["message"]
    assert line in (None, finding["line"])
    assert f"patterns/odd/pattern.yaml:{finding['line']}:{finding['column']}" in text


def test_a_file_of_a_hundred_megabytes_is_not_read(folder: Path, capsys: Said) -> None:
    with (folder / "pattern.yaml").open("wb") as file:
        file.truncate(100_000_000)
    tracemalloc.start()
    code, told, _ = checked(capsys, "patterns")
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert code == 2
    assert "100.0 MB" in messages(told)[0]
    assert peak < 30_000_000


@pytest.mark.parametrize("path", ["nowhere", "nowhere/pattern.yaml", "a\0b", "x" * 5000, ""])
def test_a_path_that_is_not_there(folder: Path, path: str, capsys: Said) -> None:
    code, told, _ = checked(capsys, path)
    assert code == 2
    assert len(messages(told)) == 1


def test_a_folder_without_patterns(folder: Path, capsys: Said) -> None:
    code, told, _ = checked(capsys, "patterns/odd")
    assert code == 2
    assert "no pattern.yaml" in messages(told)[0]


def test_a_folder_of_the_name_of_a_pattern_file(folder: Path, capsys: Said) -> None:
    (folder / "pattern.yaml").mkdir()
    assert checked(capsys, "patterns/odd/pattern.yaml")[0] == 2


def test_a_pipe_in_place_of_a_file_does_not_hang(folder: Path, capsys: Said) -> None:
    if not hasattr(os, "mkfifo"):
        pytest.skip("there are no such files on this system")
    os.mkfifo(folder / "pattern.yaml")
    assert checked(capsys, "patterns/odd/pattern.yaml")[0] == 2


def test_one_broken_file_does_not_hide_the_others(folder: Path, capsys: Said) -> None:
    (folder / "pattern.yaml").write_bytes(b"\0")
    fine = folder.parent / "fine"
    fine.mkdir()
    (fine / "pattern.yaml").write_text("pieces: {b: sc}\ntitle: Fine\n", encoding="utf-8")
    code, told, _ = checked(capsys, "patterns")
    assert code == 2
    assert [each["title"] for each in told["patterns"]] == ["Fine", None]


# ---- patterns that are nonsense or worse: exit code 1 ----
def write(folder: Path, text: str) -> None:
    (folder / "pattern.yaml").write_text(text, encoding="utf-8")


NONSENSE = [
    "R1: blip",
    "R1: " + "(" * 5000,
    "R1: " + "(sc, " * 3000 + ")" * 3000,
    "R1: 6 sc in magic ring (6)\nR2: " + "[" * 500 + "sc" + "] x 2" * 500,
    "R1: 6 sc in magic ring (6)\nR2: (sc) x 99999999999999999999",
    "R0: sc\nR-1: sc\nR: sc",
    "R1: sc0tog, sc99999999tog, 0 sc, -5 sc",
    "R1: 6 sc in magic ring (٣)",
    "R1: 6 sc in magic ring (²)\nR²: sc around",
    "R1: {{ 7*7 }} {% raw %} ${7*7} `id` $(id)",
    "R1: %s %d {0} {piece.__class__} (6)",
    "R1: 6 sc in magic ring (6)\n" * 2000,
]
ODD = [
    "R1: 99999999999999999999999999 sc in magic ring",
    "R1: 6 sc in magic ring (6)\nR2-R99999999999999: sc around",
    "R1: 6 sc in magic ring (6)\nR2: repeat R1 999999999 times",
    "R1: 6 sc in magic ring (6)\nR2: repeat R2-R9 3 more times",
    "; DROP TABLE rounds; --",
    "R1: 6 sc in magic ring (6) " + "sc " * 20_000,
    "\u202eR1: 6 sc\u2066 in magic ring (6)",
]


def piece_of(rounds: str) -> str:
    block = "\n".join(f"    {line}" for line in rounds.splitlines())
    return f"title: Odd\nterms: US\npieces:\n  b: |\n{block}\n"


@pytest.mark.parametrize("rounds", NONSENSE, ids=range(len(NONSENSE)))
def test_rounds_of_nonsense(folder: Path, rounds: str, capsys: Said) -> None:
    write(folder, piece_of(rounds))
    code, told, _ = checked(capsys, "patterns")
    assert code == 1
    assert any(f["piece"] == "b" for f in told["patterns"][0]["findings"])


@pytest.mark.parametrize("rounds", [*NONSENSE, *ODD], ids=range(len(NONSENSE) + len(ODD)))
def test_rounds_of_any_kind_are_told_shortly_and_measured(
    folder: Path, rounds: str, capsys: Said
) -> None:
    write(folder, piece_of(rounds))
    _, told, text = checked(capsys, "patterns")
    assert max(map(len, messages(told))) < 500
    assert "\x1b" not in text and "\u202e" not in text
    assert main(["measure", "patterns"]) == 0
    capsys.readouterr()


HUGE = """\
title: Odd
terms: US
pieces:
  b: |
    R1: 10000000 sc in magic ring (10000000)
    R2-R9999: (9999999 sc, sc) x 1 (10000000)
"""


def test_a_round_of_ten_million_stitches_takes_no_room(folder: Path, capsys: Said) -> None:
    write(folder, HUGE)
    tracemalloc.start()
    _, told, _ = checked(capsys, "patterns")
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert told["patterns"][0]["pieces"][0]["rounds"][1]["made"] == 10_000_000
    assert peak < 30_000_000


EVERYWHERE = """\
title: "{s}"
version: "{s}"
date: "{s}"
status: "{s}"
summary: "{s}"
designer: "{s}"
contact: "{s}"
terms: "{s}"
level: "{s}"
licence: "{s}"
left_right: "{s}"
size: {{height: "{s}", with: "{s}"}}
yarns:
  "{s}":
    letter: "{s}"
    colour: {{name: "{s}", shade: "{s}"}}
    fibre: "{s}"
    weight: "{s}"
    ball: "{s}"
    hook: "{s}"
    gauge: "{s}"
notions:
  - "{s}"
  - {{item: "{s}", size: "{s}", count: "{s}", hazard: "{s}", or: "{s}"}}
safety: {{note: "{s}"}}
care: "{s}"
pieces:
  "{s}":
    name: "{s}"
    make: "{s}"
    yarn: "{s}"
    stands_for: "{s}"
    marks: {{"{s}": "{s}"}}
    rounds: |
      R1: {s} (6)
      Note: {s}
      {s}
assembly:
  - place: {{item: "{s}", piece: "{s}", between: ["{s}", "{s}"], around: {{mark: "{s}"}}}}
    step: "{s}"
    after: "{s}"
  - join: {{edge: "{s}", to: "{s}", by: "{s}", stuffed: "{s}"}}
photos:
  - {{file: "{s}", alt: "{s}", shows: "{s}", by: "{s}", licence: "{s}"}}
changes:
  - {{version: "{s}", date: "{s}", note: "{s}"}}
stitches: {{"{s}": {{how: "{s}"}}}}
credits: ["{s}"]
open: ["{s}"]
accept: [{{check: "{s}", at: "{s}", because: "{s}"}}]
specimen: {{name: "{s}", statements: [{{says: "{s}", source: "{s}"}}], references: ["{s}"]}}
"""


@pytest.mark.parametrize(
    "text",
    [
        SCRIPT,
        "{{ config }}{% include '/etc/passwd' %}",
        "%(title)s {0} {title!r} {title.__class__}",
        "../../../etc/passwd",
        "\\u001b[2J\\u202e\\u0007",
        "x" * 900,
        "`a` **b** [c](javascript:alert(1))",
    ],
    ids=["html", "template", "format", "path", "control", "long", "markdown"],
)
def test_one_text_in_every_field(folder: Path, text: str, capsys: Said) -> None:
    write(folder, EVERYWHERE.format(s=text))
    code, told, said = checked(capsys, "patterns")
    assert code == 1
    assert told["patterns"][0]["findings"]
    assert "\x1b" not in said and "\u202e" not in said
    assert max(map(len, messages(told))) < 1000
    for style in ("sarif", "github"):
        assert main(["check", "patterns", "--format", style]) == 1
    assert main(["measure", "patterns", "--working"]) == 0
    capsys.readouterr()


def test_tags_of_yaml_make_no_objects(folder: Path, capsys: Said) -> None:
    target = folder / "made-by-the-pattern"
    write(folder, f"title: !!python/object/apply:os.mkdir ['{target}']\npieces: {{b: sc}}\n")
    assert checked(capsys, "patterns")[0] == 1
    assert not target.exists()


@pytest.mark.parametrize("name", ["../secret.png", "/etc/passwd", "photos/../../secret.png"])
def test_a_photo_leads_nowhere_outside_the_folder(folder: Path, name: str, capsys: Said) -> None:
    (folder.parent / "secret.png").write_bytes(b"\x89PNG\r\n\x1a\n")
    write(folder, f"title: Odd\npieces: {{b: sc}}\nphotos: [{{file: {name}, alt: A stone}}]\n")
    code, told, _ = checked(capsys, "patterns")
    assert code == 1
    (found,) = [f for f in told["patterns"][0]["findings"] if f["check"] == "photo-missing"]
    assert "leads out" in found["message"]
    assert (found["line"], found["column"]) == (3, 17)


@pytest.mark.parametrize("slug", ["a b", "ünïcode", "<b>", "-rf", "$(id)", "%s", "..."])
def test_odd_names_of_folders(folder: Path, slug: str, capsys: Said) -> None:
    odd = folder.parent / slug
    odd.mkdir()
    (odd / "pattern.yaml").write_text(
        "title: Odd\nterms: US\npieces:\n  b: |\n    R1: blip\n", encoding="utf-8"
    )
    code, told, _ = checked(capsys, f"patterns/{slug}")
    assert code == 1
    assert told["patterns"][0]["file"] == f"patterns/{slug}/pattern.yaml"
