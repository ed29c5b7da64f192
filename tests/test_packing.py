"""Values come back as they were, and nothing else comes back at all."""

from __future__ import annotations

import os
import pickle
from dataclasses import replace as changed
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from markupsafe import Markup

from roundproof.checks.results import Result, let_go
from roundproof.findings import Severity
from roundproof.packing import packed, unpacked
from roundproof.pages.values import ChangeEntry, Fact
from roundproof.pipeline import prove

ROOT = Path(__file__).parents[1]


def test_findings_come_back_with_their_places() -> None:
    (result,) = prove(ROOT / "tests/planted/left-over-unannounced").files
    again = unpacked(packed(let_go(result)), Result)
    assert again is not None and again == let_go(result)
    assert [f.span.begins for f in again.findings] == [f.span.begins for f in result.findings]
    assert again.findings[0].span.text == result.findings[0].span.text
    assert again.findings[0].severity is Severity.ERROR


def test_markup_stays_markup() -> None:
    fact = Fact("Size", Markup("<b>2</b> cm"), "x")
    again = unpacked(packed((fact, date(2026, 5, 4), [1.5, {"a": None}])), tuple)
    assert again == (fact, date(2026, 5, 4), [1.5, {"a": None}])
    assert isinstance(again[0].value, Markup)


class Evil:
    def __init__(self, what: Any, *args: Any) -> None:
        self.what = what, args

    def __reduce__(self) -> Any:
        return self.what


@pytest.mark.parametrize(
    "evil",
    [
        Evil(os._exit, 3),
        Evil(eval, "1"),
        Evil(getattr, 1, "real"),
        Evil(changed, 1),
        Evil(prove),
    ],
    ids=["command", "eval", "getattr", "others' functions", "our functions"],
)
def test_nothing_is_run(evil: Evil) -> None:
    """The trick by which a pickle runs a program: see 'Restricting Globals' in the chapter on the
    pickle module of Python's library reference."""
    data = pickle.dumps(evil)
    assert unpacked(data, object) is None


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"\x80",
        packed(ChangeEntry("1", "", Markup("")))[:-5],
        pickle.dumps(Path.cwd)[:10],
        b"croundproof.__main__\nmain\n.",
        b"croundproof.cli.main\nmain\n.",
        b"croundproof.pages.values\nMarkup.format\n.",
        b"cos\nsystem\n.",
    ],
)
def test_what_is_no_value_of_ours_is_nothing(data: bytes) -> None:
    assert unpacked(data, object) is None


def test_a_value_of_another_kind_is_nothing() -> None:
    assert unpacked(packed(Fact("a", Markup("b"))), Result) is None
    wrong = packed(Fact("a", Markup("b"))).replace(b"Fact", b"Step")  # too few or too many fields
    assert unpacked(wrong, Fact) is None
