"""Findings in a terminal: where, what and how to mend it, in 80 columns."""

from __future__ import annotations

import io
import re

import pytest

from roundproof.checks.results import Result, Results
from roundproof.findings import Finding, Severity
from roundproof.source import Source
from roundproof.telling.cells import width
from roundproof.telling.paint import Paint, paint_for
from roundproof.telling.text import told

GOLDEN = """\
patterns/pebble/pattern.yaml

set aside  round-unread · patterns/pebble/pattern.yaml:4:11
           Unread.

    error  count-stated · upper R2 · patterns/pebble/pattern.yaml:5:34
       5 │       R2: inc in each st around (13)
         │                                  ^^
           R2 makes 12 stitches, and 13 are stated.
     mend  Write (12).

  warning  material-unused · patterns/pebble/pattern.yaml:6:11
       6 │ notions: [magnets]
         │           ^^^^^^^
           `magnets` is not used: 100 %.

patterns/b/pattern.yaml

    error  file-unusable · patterns/b/pattern.yaml:1:1
           The file is empty.
     mend  Write a pattern into it.

2 errors and 1 warning in 2 of 3 files. 1 set aside. 1 file could not be used.
"""


def test_all_of_it(results: Results) -> None:
    assert told(results, Paint()) == GOLDEN


def test_colours_change_nothing_but_colours(results: Results) -> None:
    coloured = told(results, Paint(colour=True))
    assert "\x1b[31;1m    error\x1b[0m" in coloured
    assert re.sub(r"\x1b\[[\d;]*m", "", coloured) == GOLDEN


def test_plain_signs_for_consoles_without_ours(results: Results) -> None:
    text = told(results, Paint(signs=False))
    assert text.isascii()
    assert "       5 |       R2: inc" in text


def test_no_line_is_wider_than_the_terminal() -> None:
    source = Source(
        "patterns/a-rather-long-name-of-a-folder/pattern.yaml", "x" * 50 + " " + "y" * 200
    )
    finding = Finding(
        "count-stated",
        Severity.ERROR,
        source.span(51, 90),
        "word " * 60,
        "mend " * 60,
        "upper",
        "R2",
    )
    results = Results((Result(source.name, source, None, (finding,)),))  # type: ignore[arg-type]
    for columns in (80, 60):
        lines = told(results, Paint(columns=columns)).splitlines()
        own = [line for line in lines if source.name not in line]
        assert max(map(width, own)) <= columns


def test_the_place_stays_whole_so_that_it_can_be_followed() -> None:
    source = Source("patterns/" + "x" * 70 + "/pattern.yaml", "title")
    finding = Finding("count-stated", Severity.ERROR, source.span(0, 5), "Wrong.")
    results = Results((Result(source.name, source, None, (finding,)),))  # type: ignore[arg-type]
    assert f"  {source.name}:1:1\n" in told(results, Paint())


def test_findings_of_one_check_at_the_same_words_share_a_heading() -> None:
    source = Source("p.yaml", "title: Pebble")
    findings = tuple(
        Finding("value-missing", Severity.NOTE, source.span(7, 13), f"No {key}.", f"Add {key}.")
        for key in ("level", "care")
    )
    text = told(Results((Result("p.yaml", source, None, findings),)), Paint())  # type: ignore[arg-type]
    assert text.count("title: Pebble") == 1
    assert text.count("value-missing") == 1
    assert "No level.\n     mend  Add level.\n           No care.\n     mend  Add care.\n" in text


def test_a_file_cannot_command_the_terminal() -> None:
    source = Source("p\x1b[2J.yaml", "title: \x1b]0;owned\x07")
    finding = Finding(
        "value-kind",
        Severity.ERROR,
        source.span(7, 12),
        "It is \x1b[31mred\x1b[0m.",
        "\x9b1m",
        "\x1b",
        "R1",
    )
    text = told(Results((Result(source.name, source, None, (finding,)),)), Paint())  # type: ignore[arg-type]
    assert not re.search(r"[\x00-\x09\x0b-\x1f\x7f-\x9f]", text)


def test_nothing_found_and_nothing_there() -> None:
    fine = Result("p.yaml", Source("p.yaml", ""), None, ())  # type: ignore[arg-type]
    assert told(Results((fine,)), Paint()) == "1 file checked, nothing found.\n"
    assert told(Results(()), Paint()) == "There is no pattern here to check.\n"


class Console(io.StringIO):
    """A console of some encoding."""

    def __init__(self, encoding: str, terminal: bool) -> None:
        super().__init__()
        self._encoding = encoding
        self._terminal = terminal

    @property
    def encoding(self) -> str:  # type: ignore[override]
        return self._encoding

    def isatty(self) -> bool:
        return self._terminal


@pytest.fixture(autouse=True)
def plain_environment(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("TERM", "xterm")


def test_colour_only_on_a_terminal() -> None:
    assert paint_for(Console("utf-8", terminal=True)).colour
    assert not paint_for(Console("utf-8", terminal=False)).colour


@pytest.mark.parametrize(("name", "value"), [("NO_COLOR", "1"), ("TERM", "dumb")])
def test_colour_can_be_declined(monkeypatch: pytest.MonkeyPatch, name: str, value: str) -> None:
    monkeypatch.setenv(name, value)
    assert not paint_for(Console("utf-8", terminal=True)).colour


@pytest.mark.parametrize(
    ("encoding", "signs"), [("utf-8", True), ("cp437", False), ("ascii", False)]
)
def test_signs_go_by_what_the_console_can_show(encoding: str, signs: bool) -> None:
    assert paint_for(Console(encoding, terminal=False)).signs == signs
