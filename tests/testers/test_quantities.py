"""Weights with nothing left, lengths, and hours, against the definitions of the units."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roundproof.pattern.quantities import Fault
from roundproof.testers.quantities import hours, measured, weighed

POUND = 453.59237
"""Grams: international yard and pound agreement of 1959."""


@pytest.mark.parametrize(
    ("text", "grams"),
    [
        ("31.4 g", 31.4), ("31,4 g", 31.4), ("1.1 oz", 1.1 * POUND / 16), ("0 g", 0), ("0.0 oz", 0),
        ("½ oz", POUND / 32), ("0.05 kg", 50), ("1 lb", POUND),
    ],
)  # fmt: skip
def test_a_weight_is_read(text: str, grams: float) -> None:
    assert weighed(text) == pytest.approx(grams)


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("-3 g", "less than nothing"), ("−3 oz", "less than nothing"), ("3", "unit is missing"),
        ("0", "unit is missing"), ("3 cm", "a length"), ("0 cm", "a length"), ("3 ml", "no unit"),
        ("a little", ""), ("-3 cm", ""), ("", ""),
    ],
)  # fmt: skip
def test_what_is_no_weight_is_told_why(text: str, why: str) -> None:
    found = weighed(text)
    assert isinstance(found, Fault) and why in found.why


@pytest.mark.parametrize(("text", "mm"), [("9.5 cm", 95), ("3.7 in", 3.7 * 25.4), ('2 1/2"', 63.5)])
def test_a_length_is_read(text: str, mm: float) -> None:
    # 1 in = 25.4 mm: the same agreement
    assert measured(text) == pytest.approx(mm)


def test_a_length_below_nothing_is_none() -> None:
    found = measured("-2 cm")
    assert isinstance(found, Fault) and "less than nothing" in found.why


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("3 h", 3), ("90 min", 1.5), ("1 h 30 min", 1.5), ("1h30m", 1.5), ("1.5 hours", 1.5),
        ("1 1/2 hours", 1.5), ("1:30 h", 1.5), ("2 hrs and 15 minutes", 2.25), ("45 minutes", 0.75),
    ],
)  # fmt: skip
def test_a_time_is_read(text: str, value: float) -> None:
    # 1 h = 60 min: International System of Units, table of units accepted for use with it
    assert hours(text) == pytest.approx(value)


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("3", "unit is missing"), ("-2 h", "less than none"), ("0 h", "cannot be"), ("", ""),
        ("an evening", ""), ("5000 h", "cannot be"), ("3 g", ""), ("1/0 h", "cannot be"),
    ],
)  # fmt: skip
def test_what_is_no_time_is_told_why(text: str, why: str) -> None:
    found = hours(text)
    assert isinstance(found, Fault) and why in found.why


@given(st.text(max_size=30))
def test_any_text_gives_a_figure_or_a_reason(text: str) -> None:
    for read in (hours, weighed, measured):
        found = read(text)
        assert isinstance(found, Fault) or found >= 0
