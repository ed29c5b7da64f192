"""The kinds of single values, each with what it expects and one way to write it."""

from __future__ import annotations

from roundproof.frozen import replace
from roundproof.pattern import quantities as read
from roundproof.pattern.kinds import Choice, ListOf, Prose, Schema, Value

_TEXT: Schema = {"type": ["string", "number", "boolean"]}
_STRING: Schema = {"type": "string"}
_AMOUNT: Schema = {"type": ["string", "number"]}


def _pattern(expression: str) -> Schema:
    return {"type": "string", "pattern": expression}


WORDS = Value("plain words", "…", read.words, _TEXT, long=True)
TEXT = Prose()
TEXTS = ListOf(TEXT, lone=True)
LENGTH = Value("a length with its unit", "6 mm", read.length, _STRING)
GRAMS = Value("a weight in grams", "50 g", read.grams, _AMOUNT)
NUMBER = Value(
    "a number above 0", "23", read.above_nothing, {"type": "number", "exclusiveMinimum": 0}
)
COUNT = Value("a whole number", "2", read.count, {"type": "integer", "minimum": 1})
WHOLE = Value("a whole number", "4", read.whole, {"type": "integer", "minimum": 0})
WEIGHT = Value(
    "a standard weight category from 0 to 7",
    "3",
    lambda t: int(t) if t in set("01234567") else read.Fault(),
    {"type": "integer", "minimum": 0, "maximum": 7},
)
BALL = Value("grams and length of a ball", "50 g / 125 m", read.ball, _STRING)
GAUGE = Value(
    "stitches and rounds over a length", "23 sts x 25 rounds = 10 cm", read.gauge, _STRING
)
PACE = Value("stitches a minute", "15 sts a minute", read.pace, _STRING)
STRETCH = Value("a share in percent", "5 %", read.stretch, _STRING)
VERSION = Value(
    "three numbers with points between",
    "1.0.0",
    read.version,
    _pattern(r"^\d+\.\d+\.\d+$"),
)
DATE = Value(
    "a date as year-month-day",
    "2026-05-04",
    read.calendar_date,
    _pattern(r"^\d{4}-\d{2}-\d{2}$"),
)
SHADE = Value(
    "a shade as `#` and six signs of 0-9 and a-f",
    '"#6d7680"',
    read.shade,
    _pattern(r"^#([0-9a-fA-F]{3}|[0-9a-fA-F]{6})$"),
)
ROUND = Value("a round", "R4", read.round_label, _pattern(r"^R\d+$"))
ROUND_RANGE = Value("rounds", "R8-R11", read.round_range, _pattern(r"^R\d+([-–]R?\d+)?$"))
LETTER = Value(
    "one capital letter",
    "A",
    lambda t: t if len(t) == 1 and "A" <= t <= "Z" else read.Fault(),
    _pattern("^[A-Z]$"),
)
YES_NO = Choice(
    {"yes": True, "no": False}, {"true": "yes", "false": "no", "True": "yes", "False": "no"}
)


def bare(value: Value) -> Value:
    """The same kind, its value without a place."""
    return replace(value, bare=True)
