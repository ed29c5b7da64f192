"""Every way of writing in `dialects.txt` is read as what stands below it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from notation.texts import read
from roundproof.notation.tree import Round
from roundproof.notation.writer import written
from roundproof.pattern.model import Terms

COLOURS = {"sand": "sand", "navy": "navy", "a": "A", "b": "B"}


def cases() -> Iterator[tuple[str, list[str]]]:
    typed, expected = "", []
    lines = Path(__file__).with_name("dialects.txt").read_text("utf-8").splitlines()[1:]
    for line in [*lines, ""]:
        if line.startswith("  "):
            expected.append(line.strip())
            continue
        if typed:
            yield typed, expected
        typed, expected = line, []


def said(round_: Round) -> str:
    again = round_.repeats
    work = " or ".join(written(reading, Terms.US) for reading in round_.readings)
    if again:
        work = f"repeat R{again.first}-R{again.last} x {again.times}"
    count = f" ({round_.stated.count})" if round_.stated else ""
    return f"{round_.label}: {work}{count}"


@pytest.mark.parametrize(("typed", "expected"), list(cases()))
def test_a_way_of_writing(typed: str, expected: list[str]) -> None:
    script, findings = read(typed, colours=COLOURS)
    assert not findings
    assert [said(round_) for round_ in script.rounds] == expected
