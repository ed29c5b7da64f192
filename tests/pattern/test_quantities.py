"""Amounts as designers write them, as numbers."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roundproof.pattern import quantities as read
from roundproof.pattern.quantities import BallText, Fault, GaugeText

# International yard and pound agreement, 1959: 1 yd = 0.9144 m, so 1 in = 25.4 mm, and
# 1 lb = 0.45359237 kg, so 1 oz = 28.349523125 g, all exact.
LENGTHS = [
    ("3 mm", 3),
    ("2.5mm", 2.5),
    ("6 cm", 60),
    ("2,5 cm", 25),
    ("125 m", 125_000),
    ("1,200 m", 1_200_000),
    ("1 in", 25.4),
    ("2.5 in", 63.5),
    ('2 1/2"', 63.5),
    ("2½ inches", 63.5),
    ("1 ft", 304.8),
    ("1 yd", 914.4),
    ("137 yards", 125_272.8),
    ("250 µm", 0.25),
]
WEIGHTS = [("50 g", 50), ("1.75 oz", 49.61166546875), ("1 kg", 1000), ("1 lb", 453.59237)]


@pytest.mark.parametrize(("text", "mm"), LENGTHS)
def test_lengths_are_millimetres(text: str, mm: float) -> None:
    assert read.length(text) == pytest.approx(mm, rel=1e-12)


@pytest.mark.parametrize(("text", "grams"), WEIGHTS)
def test_weights_are_grams(text: str, grams: float) -> None:
    assert read.weight(text) == pytest.approx(grams, rel=1e-12)


@pytest.mark.parametrize("text", ["6", "2.5", "3 mn", "1/2"])
def test_a_missing_or_unknown_unit_is_told_apart(text: str) -> None:
    fault = read.length(text)
    assert isinstance(fault, Fault) and fault.check == "unit-missing"


@pytest.mark.parametrize("text", ["", "six mm", "50 g", "0 mm", "-3 mm", "1/0 in", "3 mm 4 mm"])
def test_what_is_no_length_is_refused(text: str) -> None:
    fault = read.length(text)
    assert isinstance(fault, Fault) and fault.check == "value-kind"


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("4.6", 4.6),
        ("4,6", 4.6),
        ("1,200", 1200),
        ("2 1/2", 2.5),
        ("12/3", 4),
        ("¾", 0.75),
        ("0", 0),
    ],
)
def test_numbers(text: str, value: float) -> None:
    assert read.number(text) == pytest.approx(value)


@pytest.mark.parametrize(
    "text",
    ["50 g / 125 m", "125 m / 50 g", "50g/125m", "50 g = 125 m (137 yd)", "50 g, 12500 cm"],
)
def test_a_ball_has_grams_and_metres(text: str) -> None:
    assert read.ball(text) == BallText(50, 125)


def test_a_ball_in_ounces_and_yards() -> None:
    ball = read.ball("1.75 oz / 137 yd")
    assert isinstance(ball, BallText)
    assert (ball.grams, ball.metres) == pytest.approx((49.61166546875, 125.2728))


@pytest.mark.parametrize(("text", "why"), [("50 g", "length"), ("125 m", "weight")])
def test_a_ball_that_says_half_is_told_what_is_missing(text: str, why: str) -> None:
    fault = read.ball(text)
    assert isinstance(fault, Fault) and why in fault.why


GAUGES = [
    ("23 sts x 25 rounds = 10 cm", None),
    ("23 stitches × 25 rows to 10 cm", None),
    ("23 sts by 25 rnds over 10 cm", None),
    ("23 sts and 25 rounds = 10 cm x 10 cm", None),
    ("23 sts, 25 rounds = 10 x 10 cm", None),
    ("23 sts*25 rounds per 100 mm", None),
    ("23 sc x 25 rounds = 10 cm", "sc"),
    ("23 sts x 25 rounds = 10 cm in hdc", "hdc"),
    ("23 sts x 25 rounds = 10 cm, worked in half double crochet", "half double crochet"),
    ("23 Sts X 25 Rounds To 10 Cm In SC", "sc"),
]


@pytest.mark.parametrize(("text", "stitch"), GAUGES)
def test_gauges(text: str, stitch: str | None) -> None:
    assert read.gauge(text) == GaugeText(23, 25, 100, stitch)


def test_a_gauge_over_four_inches_keeps_them() -> None:
    gauge = read.gauge('22.5 sts x 24 rounds = 4"')
    assert isinstance(gauge, GaugeText)
    assert (gauge.stitches, gauge.rounds, gauge.over) == pytest.approx((22.5, 24, 101.6))


@pytest.mark.parametrize(
    "text", ["23 sts x 25 rounds", "23 sts = 10 cm", "0 sts x 2 rounds = 1 cm"]
)
def test_what_is_no_gauge_is_refused(text: str) -> None:
    assert isinstance(read.gauge(text), Fault)


@pytest.mark.parametrize(
    ("text", "better"), [("1.0", "1.0.0"), ("v2", "2.0.0"), ("1.02.0", "1.2.0"), ("first", None)]
)
def test_a_version_short_of_three_numbers_is_filled_up(text: str, better: str | None) -> None:
    assert read.version("1.10.0") == "1.10.0"
    assert read.version(text) == Fault(better=better)


def test_dates() -> None:
    assert read.calendar_date("2026-05-04") == date(2026, 5, 4)
    assert read.calendar_date("2026-02-30") == Fault("the calendar has no such day")
    assert read.calendar_date("4 May 2026") == Fault()


@pytest.mark.parametrize(
    ("text", "label"), [("R4", "R4"), ("rnd 4", "R4"), ("Round 04", "R4"), ("4", "R4")]
)
def test_rounds_by_their_label(text: str, label: str) -> None:
    assert read.round_label(text) == label


@pytest.mark.parametrize(
    ("text", "label"),
    [("R8-R11", "R8-R11"), ("R8–11", "R8-R11"), ("R8", "R8"), ("R8 to R11", "R8-R11")],
)
def test_ranges_of_rounds(text: str, label: str) -> None:
    assert read.round_range(text) == label
    assert isinstance(read.round_range("R1-R2-R3"), Fault)


READERS = (
    read.number, read.length, read.weight, read.grams, read.ball, read.gauge, read.whole,
    read.count, read.version, read.calendar_date, read.shade, read.yes_no, read.words,
    read.round_label, read.round_range, read.above_nothing,
)  # fmt: skip


@given(st.text(max_size=80) | st.from_regex(r"[0-9 .,/½xX×\"a-z]{0,40}"))
def test_no_text_is_too_odd_for_a_reader(text: str) -> None:
    for reader in READERS:
        reader(text)


@given(st.floats(0.01, 9999), st.sampled_from(read.UNITS))
def test_a_quantity_is_its_number_times_its_unit(number: float, unit: read.Unit) -> None:
    said = f"{number:.2f}"
    reader = read.length if unit.measures == "length" else read.weight
    for word in unit.words:
        assert reader(f"{said} {word}") == pytest.approx(float(said) * unit.factor)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("15 sts a minute", 15),
        ("15 sts per minute", 15),
        ("12.5 stitches a minute", 12.5),
        ("1 stitch a minute", 1),
        ("20 sc/min", 20),
        ("9 single crochets per minute", 9),
        ("60 sts a minute", 60),
    ],
)
def test_a_pace_is_stitches_a_minute(text: str, value: float) -> None:
    assert read.pace(text) == value


@pytest.mark.parametrize(
    ("text", "check", "why"),
    [
        ("15", "unit-missing", "its unit is missing"),
        ("0 sts a minute", "value-kind", "that cannot be"),
        ("-4 sts a minute", "value-kind", ""),
        ("61 sts a minute", "value-kind", "nobody makes more than 60"),
        ("1/0 sts a minute", "value-kind", "that cannot be"),
        ("quick", "value-kind", ""),
        ("15 sts an hour", "value-kind", ""),
        ("", "value-kind", ""),
    ],
)
def test_what_is_no_pace_is_refused(text: str, check: str, why: str) -> None:
    fault = read.pace(text)
    assert isinstance(fault, Fault) and (fault.check, fault.why) == (check, why)


@pytest.mark.parametrize(("text", "value"), [("5 %", 0.05), ("0%", 0.0), ("12.5 percent", 0.125)])
def test_a_stretch_is_a_percentage(text: str, value: float) -> None:
    assert read.stretch(text) == pytest.approx(value)


@pytest.mark.parametrize(
    ("text", "check", "why"),
    [("5", "unit-missing", "`%`"), ("40 %", "value-kind", "25 %"), ("-1 %", "value-kind", "")],
)
def test_what_is_no_stretch_is_refused(text: str, check: str, why: str) -> None:
    fault = read.stretch(text)
    assert isinstance(fault, Fault)
    assert fault.check == check and why in fault.why
