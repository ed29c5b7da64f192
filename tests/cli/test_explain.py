"""`roundproof explain`: why a check matters, for every check there is."""

from __future__ import annotations

import pytest

from roundproof.checks import all_checks
from roundproof.cli.main import main

Said = pytest.CaptureFixture[str]


@pytest.mark.parametrize("id", all_checks())
def test_every_check_is_explained(id: str, capsys: Said) -> None:
    check = all_checks()[id]
    assert main(["explain", id]) == 0
    said = capsys.readouterr().out
    assert said.startswith(check.title)
    for text in (*check.bad.splitlines(), *check.good.splitlines()):
        assert text in said
    prose = " ".join(said.split())
    assert " ".join(check.why.split()) in prose
    assert check.source.rstrip(".") in prose


def test_without_an_id_all_are_listed(capsys: Said) -> None:
    assert main(["explain"]) == 0
    said = capsys.readouterr().out
    assert all(f"  {id} " in said for id in all_checks())


@pytest.mark.parametrize("typed", ["count-statd", "count_stated", "Count-Stated"])
def test_an_unknown_id_is_told_with_the_nearest(typed: str, capsys: Said) -> None:
    assert main(["explain", typed]) == 2
    assert "Did you mean count-stated?" in capsys.readouterr().err


def test_what_is_near_nothing_is_just_not_there(capsys: Said) -> None:
    assert main(["explain", "zzzzzzzz"]) == 2
    assert capsys.readouterr().err == "There is no check called zzzzzzzz.\n"
