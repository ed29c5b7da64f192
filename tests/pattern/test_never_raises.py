"""Whatever a file holds, reading it gives findings and never raises; places stay in the file."""

from __future__ import annotations

import tempfile
from pathlib import Path

from hypothesis import example, given, settings
from hypothesis import strategies as st

from loading import COMPLETE
from roundproof.pattern.load import load_pattern, read_pattern
from roundproof.source import Source

SIGNS = st.sampled_from(list("*&!%@`|>#:-?[]{},\"'\\\t\n\r \u2028\x85\ufeff~<0aR(é𝄞"))


def check(text: str) -> None:
    source = Source("x", text)
    pattern, findings = read_pattern(source, "x")
    assert pattern is not None or findings
    for finding in findings:
        span = finding.span
        assert 0 <= span.start <= span.end <= len(text)
        assert finding.message.endswith((".", "?"))


@given(st.text(max_size=200))
@example("a: &b\n  *b : c\n")
def test_any_text(text: str) -> None:
    check(text)


@given(st.text(SIGNS, max_size=60))
def test_any_row_of_signs_that_mean_something(text: str) -> None:
    check(text)


@settings(max_examples=300)
@given(
    st.integers(0, len(COMPLETE)),
    st.integers(0, 30),
    st.text(SIGNS, max_size=4),
)
def test_a_good_file_with_something_changed(at: int, cut: int, put: str) -> None:
    check(COMPLETE[:at] + put + COMPLETE[at + cut :])


@given(st.permutations(COMPLETE.splitlines(True)), st.integers(1, 30))
def test_a_good_file_with_its_lines_shuffled(lines: list[str], count: int) -> None:
    check("".join(lines[:count]))


@given(st.binary(max_size=200))
def test_any_bytes(data: bytes) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "pattern.yaml"
        path.write_bytes(data)
        pattern, findings = load_pattern(path, "pattern.yaml")
        assert pattern is not None or findings
